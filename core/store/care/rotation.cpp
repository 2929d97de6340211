// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/care/rotation.h"

#include <algorithm>
#include <array>
#include <functional>
#include <optional>

namespace midden {

namespace {

std::int64_t dayOf(Instant at) {
    constexpr std::int64_t day = days(1).count;
    return (at.utcSeconds - (at.utcSeconds % day + day) % day) / day;
}

/// 1 January 1970 was a Thursday: three days into its week.
std::int64_t weekOf(Instant at) {
    const std::int64_t sinceMonday = dayOf(at) + 3;
    return (sinceMonday - (sinceMonday % 7 + 7) % 7) / 7;
}

std::int64_t monthOf(Instant at) {
    const WallTime wall = wallTimeOf({at, {}});
    return std::int64_t{wall.year} * 12 + wall.month;
}

struct Tier {
    std::int64_t (*periodOf)(Instant);
    std::size_t count;
};

}  // namespace

std::vector<Instant> copiesToDrop(std::vector<Instant> copies, Instant made, const Rotation& rotation) {
    std::erase_if(copies, [&](Instant copy) { return copy > made; });
    std::sort(copies.begin(), copies.end(), std::greater{});
    std::vector<Instant> dropped;
    std::optional<Instant> kept;  // the last one, going back in time
    auto copy = copies.begin();
    for (const Tier tier :
         std::array{Tier{dayOf, rotation.daily}, Tier{weekOf, rotation.weekly}, Tier{monthOf, rotation.monthly}}) {
        std::size_t taken = 0;
        for (; copy != copies.end(); ++copy) {
            if (kept && tier.periodOf(*kept) == tier.periodOf(*copy)) {
                dropped.push_back(*copy);  // a newer one stands for this day, week or month
                continue;
            }
            if (taken == tier.count) {
                break;
            }
            ++taken;
            kept = *copy;
        }
    }
    dropped.insert(dropped.end(), copy, copies.end());
    return dropped;
}

}  // namespace midden
