// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/rounds.h"

#include <algorithm>

namespace midden {

namespace {

std::vector<Sample> allSamples(const BatchRecord& record) {
    const auto earlier = [](const Sample& a, const Sample& b) { return a.at < b.at; };
    std::vector<Sample> all;
    for (const auto& track : record.tracks) {
        const auto middle = all.insert(all.end(), track.samples.begin(), track.samples.end());
        std::inplace_merge(all.begin(), middle, all.end(), earlier);
    }
    return all;
}

template <class Entries>
void takeLater(Instant& last, const Entries& entries) {
    if (!entries.empty()) {
        last = std::max(last, entries.back().when.at);
    }
}

}  // namespace

std::vector<Round> roundsOf(const BatchRecord& record, Seconds window) {
    std::vector<Round> rounds;
    Instant first;
    for (const auto& sample : allSamples(record)) {
        if (rounds.empty() || sample.at - first > window) {
            first = sample.at;
            rounds.push_back({sample.at, sample.temperature()});
        } else if (sample.temperature() > rounds.back().warmest) {
            rounds.back() = {sample.at, sample.temperature()};
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
    return last;
}

Instant fillingOf(const BatchRecord& record) {
    return record.additions.empty() ? record.batch.started.at : record.additions.front().when.at;
}

}  // namespace midden
