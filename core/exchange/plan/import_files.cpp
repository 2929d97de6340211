// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/plan/import.h"

namespace midden {

namespace {

/// Reads one file if it was named; true when nothing was refused.
template <class Rows, class Read>
bool readIfNamed(const std::optional<std::filesystem::path>& file, Rows& into, std::optional<Refusal>& refusal,
                 Read read) {
    if (!file || refusal) {
        return !refusal;
    }
    auto rows = read(*file);
    if (!rows) {
        refusal = std::move(rows.error());
        return false;
    }
    into = std::move(*rows);
    return true;
}

}  // namespace

FileResult<StagedImport> readFiles(const ImportRequest& request) {
    const auto& files = request.files;
    const auto& habits = request.habits;
    const auto with = [&](auto read) { return [&habits, read](const auto& file) { return read(file, habits); }; };
    StagedImport staged;
    staged.readings.rows = StagedRows{habits.room};
    std::optional<Refusal> refusal;
    readIfNamed(files.bins, staged.bins, refusal, readBins);
    readIfNamed(files.positions, staged.positions, refusal, readPositions);
    readIfNamed(files.probes, staged.probes, refusal, readProbes);
    readIfNamed(files.checks, staged.checks, refusal, with(readChecks));
    readIfNamed(files.moves, staged.moves, refusal, with(readMoves));
    readIfNamed(files.additions, staged.additions, refusal, with(readEntries<Addition>));
    readIfNamed(files.aerations, staged.aerations, refusal, with(readEntries<Aeration>));
    readIfNamed(files.harvests, staged.harvests, refusal, with(readEntries<Harvest>));
    readIfNamed(files.observations, staged.observations, refusal, with(readEntries<Observation>));
    if (files.readings && !refusal) {
        refusal = readReadings(*files.readings, habits, staged.readings, staged.remarks);
    }
    if (files.outside && !refusal) {
        refusal = readOutside(*files.outside, habits, staged.readings, staged.remarks);
    }
    if (refusal) {
        return tl::unexpected{std::move(*refusal)};
    }
    return staged;
}

}  // namespace midden
