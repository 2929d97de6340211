// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/rounds.h"

#include <algorithm>
#include <limits>
#include <optional>
#include <span>

namespace midden {

namespace {

template <class Entries>
void takeLater(Instant& last, const Entries& entries) {
    if (!entries.empty()) {
        last = std::max(last, entries.back().when.at);
    }
}

/// Colder than anything that can be read.
constexpr Celsius coldest = Celsius::ofParts(std::numeric_limits<std::int32_t>::min());

/// One position's readings that are in no round yet.
using Rest = std::span<const Sample>;

std::optional<Instant> earliestOf(std::span<const Rest> rests) {
    std::optional<Instant> earliest;
    for (const auto& left : rests) {
        if (!left.empty() && (!earliest || left.front().at < *earliest)) {
            earliest = left.front().at;
        }
    }
    return earliest;
}

void takeUntil(Instant end, Rest& rest, Round& round) {
    std::size_t taken = 0;
    for (; taken < rest.size() && rest[taken].at <= end; ++taken) {
        const auto& sample = rest[taken];
        const bool firstAsWarm = sample.temperature() == round.warmest && sample.at < round.at;
        if (sample.temperature() > round.warmest || firstAsWarm) {
            round = {sample.at, sample.temperature()};
        }
    }
    rest = rest.subspan(taken);
}

}  // namespace

std::vector<Round> roundsOf(const BatchRecord& record, Seconds window) {
    std::vector<Rest> rests;
    for (const auto& track : record.tracks) {
        rests.emplace_back(track.samples);
    }
    std::vector<Round> rounds;
    while (const auto first = earliestOf(rests)) {
        rounds.push_back({*first, coldest});
        for (auto& rest : rests) {
            takeUntil(*first + window, rest, rounds.back());
        }
    }
    return rounds;
}

Instant lastEntryOf(const BatchRecord& record) {
    Instant last = record.batch.started.at;
    for (const auto& track : record.tracks) {
        if (!track.samples.empty()) {
            last = std::max(last, track.samples.back().at);
        }
    }
    takeLater(last, record.additions);
    takeLater(last, record.aerations);
    takeLater(last, record.observations);
    takeLater(last, record.harvests);
    return last;
}

Instant fillingOf(const BatchRecord& record) {
    return record.additions.empty() ? record.batch.started.at : record.additions.front().when.at;
}

}  // namespace midden
