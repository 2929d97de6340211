// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/store_readings.h"

#include <fmt/core.h>

#include <algorithm>
#include <unordered_map>

#include "core/exchange/standing.h"
#include "core/exchange/store_entries.h"

namespace midden {

namespace {

/// So many readings are handed to the book at once: few enough to cost little memory.
constexpr std::size_t sliceLength = 65'536;

/// Stores the rows of one place.
class PlaceWriter {
  public:
    PlaceWriter(Logbook& logbook, const Place& place, const StagedPlace& staged,
                const std::vector<StagedColumn>& columns, ImportOutcome& outcome)
        : logbook_{logbook}, place_{place}, staged_{staged}, columns_{columns}, outcome_{outcome} {
        for (const auto& note : staged.notes) {
            notes_.emplace(note.at.utcSeconds, note.text);
        }
    }

    void store() {
        std::vector<bool> used(columns_.size());
        for (const auto& row : staged_.rows) {
            used[row.column()] = true;
        }
        for (std::uint32_t column = 0; column < used.size(); ++column) {
            if (used[column]) {
                storeColumn(column);
            }
        }
    }

  private:
    ImportCount& count() { return place_.isOutside() ? outcome_.outside : outcome_.readings; }

    ReadingColumn columnFor(std::uint32_t column) {
        const auto& staged = columns_[column];
        ReadingColumn made;
        made.place = place_;
        made.unit = staged.unit;
        made.offset = staged.offset;
        if (!staged.probe.empty()) {
            made.probe = probeNamed(logbook_, staged.probe, outcome_);
        }
        return made;
    }

    void storeColumn(std::uint32_t column) {
        const auto shared = columnFor(column);
        std::vector<RawReading> slice;
        slice.reserve(std::min(sliceLength, staged_.rows.size()));
        for (const auto& row : staged_.rows) {
            if (row.column() != column) {
                continue;
            }
            if (const auto note = notes_.find(row.at().utcSeconds); note != notes_.end()) {
                storeNoted(shared, row, note->second);
                continue;
            }
            slice.push_back({row.at(), row.tenThousandths});
            if (slice.size() == sliceLength) {
                storeSlice(shared, slice);
            }
        }
        storeSlice(shared, slice);
    }

    void storeSlice(const ReadingColumn& column, std::vector<RawReading>& slice) {
        if (slice.empty()) {
            return;
        }
        const auto stored = logbook_.addReadings(column, slice);
        if (stored.conflict) {
            refuseConflict(*stored.conflict);
        }
        count().added += stored.added;
        count().alreadyThere += stored.alreadyThere;
        slice.clear();
    }

    void storeNoted(const ReadingColumn& column, const StagedReading& row, const std::string& note) {
        const WrittenTemperature written{row.tenThousandths, column.unit};
        const auto stands = logbook_.reading({place_, row.at()});
        if (stands && toCelsius(stands->written) != toCelsius(written)) {
            refuseConflict({row.at(), stands->written});
        }
        if (stands) {
            ++count().alreadyThere;
            return;
        }
        Provenance provenance;
        provenance.source = column.source;
        logbook_.apply(Put<Reading>{{place_, {row.at(), column.offset}, written, column.probe, note, provenance}});
        ++count().added;
    }

    [[noreturn]] void refuseConflict(const ReadingConflict& conflict) const {
        const auto row = std::lower_bound(staged_.rows.begin(), staged_.rows.end(), conflict.at,
                                          [](const StagedReading& r, Instant at) { return r.at() < at; });
        const auto& column = columns_[row->column()];
        refuseImport(tl::unexpected{
            Refusal{column.file,
                    row->line,
                    {fmt::format("{} here, but the logbook holds {} for the same place and time {}",
                                 writtenWithUnit({row->tenThousandths, column.unit}), writtenWithUnit(conflict.stands),
                                 isoLocal({conflict.at, column.offset})),
                     "the same value, or the wrong one corrected in the logbook first"}}});
    }

    Logbook& logbook_;
    const Place& place_;
    const StagedPlace& staged_;
    const std::vector<StagedColumn>& columns_;
    ImportOutcome& outcome_;
    std::unordered_map<std::int64_t, std::string> notes_;
};

}  // namespace

void storeReadings(Logbook& logbook, const std::map<Place, StagedPlace>& places,
                   const std::vector<StagedColumn>& columns, ImportOutcome& outcome) {
    for (const auto& [place, staged] : places) {
        PlaceWriter{logbook, place, staged, columns, outcome}.store();
    }
}

void countByBatch(const Logbook& logbook, BatchId batch, const std::map<Place, StagedPlace>& places,
                  ImportOutcome& outcome) {
    for (const auto& [place, staged] : places) {
        if (place.isOutside()) {
            continue;
        }
        const auto isBefore = [](const StagedReading& row, Instant at) { return row.at() < at; };
        auto unowned = static_cast<std::int64_t>(staged.rows.size());
        for (const auto& standing : standingsIn(logbook, *place.bin)) {
            const auto from = std::lower_bound(staged.rows.begin(), staged.rows.end(), standing.from, isBefore);
            const auto until = std::lower_bound(from, staged.rows.end(), standing.until, isBefore);
            unowned -= until - from;
            outcome.ofOtherBatches += standing.batch == batch ? 0 : until - from;
        }
        outcome.ofNoBatch += unowned;
    }
}

}  // namespace midden
