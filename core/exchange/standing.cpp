// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/standing.h"

#include <algorithm>
#include <limits>

namespace midden {

namespace {

constexpr Instant never{std::numeric_limits<std::int64_t>::max()};

}  // namespace

std::vector<Standing> standingsIn(const Logbook& logbook, BinId bin) {
    std::vector<Standing> standings;
    for (const auto& batch : logbook.batches()) {
        for (std::size_t i = 0; i < batch.stays.size(); ++i) {
            if (batch.stays[i].bin != bin) {
                continue;
            }
            const auto finished = batch.finished ? batch.finished->at + Seconds{1} : never;
            const auto until = i + 1 < batch.stays.size() ? batch.stays[i + 1].since : finished;
            standings.push_back({batch.stays[i].since, until, batch.id});
        }
    }
    std::sort(standings.begin(), standings.end(), [](const Standing& a, const Standing& b) { return a.from < b.from; });
    for (std::size_t i = 0; i + 1 < standings.size(); ++i) {
        standings[i].until = std::min(standings[i].until, standings[i + 1].from);
    }
    return standings;
}

}  // namespace midden
