// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/plan/batch_stays.h"

#include <algorithm>
#include <limits>
#include <string_view>

namespace midden {

namespace {

constexpr Instant never{std::numeric_limits<std::int64_t>::max()};
constexpr Instant beginning{std::numeric_limits<std::int64_t>::min()};

struct StayOfBatch {
    PlannedOccupancy occupancy;
    bool reachesBack = false;
    std::string_view name;
};

std::vector<StayOfBatch> staysIn(const std::vector<Batch>& batches, BinId bin) {
    std::vector<StayOfBatch> stays;
    for (const auto& batch : batches) {
        for (std::size_t i = 0; i < batch.stays.size(); ++i) {
            if (batch.stays[i].bin != bin) {
                continue;
            }
            const auto finished = batch.finished ? batch.finished->at + Seconds{1} : never;
            const auto until = i + 1 < batch.stays.size() ? batch.stays[i + 1].since : finished;
            stays.push_back({{batch.stays[i].since, until, batch.id}, i == 0 && !batch.startGiven, batch.name});
        }
    }
    // Of two that come at one instant the first by name stands there, as in the book itself.
    std::sort(stays.begin(), stays.end(), [](const StayOfBatch& a, const StayOfBatch& b) {
        return std::pair{a.occupancy.from, b.name} < std::pair{b.occupancy.from, a.name};
    });
    return stays;
}

}  // namespace

std::vector<PlannedOccupancy> batchStaysIn(const std::vector<Batch>& batches, BinId bin) {
    std::vector<PlannedOccupancy> occupancies;
    const auto stays = staysIn(batches, bin);
    auto free = beginning;
    for (std::size_t i = 0; i < stays.size(); ++i) {
        auto occupancy = stays[i].occupancy;
        if (stays[i].reachesBack) {
            occupancy.from = std::min(free, occupancy.from);
        }
        if (i + 1 < stays.size()) {
            occupancy.until = std::min(occupancy.until, stays[i + 1].occupancy.from);
        }
        free = occupancy.until;
        occupancies.push_back(occupancy);
    }
    return occupancies;
}

}  // namespace midden
