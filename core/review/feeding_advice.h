// SPDX-License-Identifier: GPL-3.0-or-later
// About how much a fed bin must be fed a week to hold its target: from its walls and the air, and, once it has been fed
// often enough, from what it did itself. A band, never a promise.
#pragma once

#include <optional>
#include <vector>

#include "core/layers/feed.h"
#include "core/records/batch_record.h"
#include "core/review/stall.h"

namespace midden {

/// Of kilograms a week. Nine times in ten more than `low` is needed, and nine times in ten less than `high`.
struct WeeklyBand {
    double low = 0;
    double middle = 0;
    double high = 0;
};

/// What is not known, so that no band can be told.
enum class AdviceLacking : std::uint8_t {
    volume = 0,      ///< of the bin
    insulation = 1,  ///< of the bin
    outside = 2,     ///< no reading of the air outside in the last four weeks
    tooMuchAir = 3   ///< the air alone would take all the heat
};

/// What the bin's own past says of the band.
enum class OwnResponse : std::uint8_t {
    tooFewFeeds = 0,  ///< it was fed less than ten times with readings, or never warm enough to tell
    narrows = 1,      ///< it agrees with the walls; the band is what both allow
    disagrees = 2     ///< it does not; the band is that of the walls alone
};

struct FeedingAdvice {
    std::optional<WeeklyBand> week;  ///< kg of kitchen waste as thrown
    std::vector<AdviceLacking> lacking;
    OwnResponse own = OwnResponse::tooFewFeeds;
    Celsius target;                 ///< that it is to hold
    std::optional<double> outside;  ///< °C, the mean of the last four weeks
    double fedAWeek = 0;            ///< kg, the mean of the last four weeks, or since the batch began
};

/// Four weeks are looked back from `end`, usually the batch's last entry; later entries do not count. The figures of
/// the walls are ours, from published parts (core/layers/feed_need.h): U of the insulation as in
/// core/thermal/heat_balance.h, more by a quarter for lid, hatch and joints, 0.8 to 1.25 times that; half the contents
/// hot (0.3 to 0.7); 2.5 MJ a kg (1.8 to 3.6); 2 to 5 times the air needed, 3 most likely. Each is drawn from a
/// triangle over its band, and the band told holds 80 % of all that come of it.
FeedingAdvice feedingAdviceOf(const BatchRecord& record, const HoldTarget& target, Instant end);

/// When it was fed up to `end`: additions within twelve hours of the first are one feed, at the last of them. In time
/// order.
std::vector<Instant> feedTimesOf(const BatchRecord& record, Instant end);

/// The band the walls and the air give, a function of these alone. `warmerBy` is the target above the air outside.
std::optional<WeeklyBand> weeklyBand(const Bin& bin, double targetCelsius, double outsideCelsius);

/// Of all heat, what each time the air needed carries away, coming in at 80 % humidity and leaving saturated: the
/// difference of the enthalpies for the air that brings a kilogram of oxygen, over 14 MJ (14 MJ a kg of oxygen: 13.1 to
/// 14.1, from memory).
double ventShare(double insideCelsius, double outsideCelsius);

}  // namespace midden
