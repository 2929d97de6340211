// SPDX-License-Identifier: GPL-3.0-or-later
// A stall: a bin that goes cold before its time, or never warms.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/criteria/gap_rule.h"
#include "core/quantities/temperature.h"
#include "core/quantities/time.h"
#include "core/recipe/material.h"
#include "core/records/batch_record.h"
#include "core/review/rounds.h"
#include "core/thermal/heat_balance.h"

namespace midden {

enum class StallKind { neverHeated, earlyCooling, handlingDip };

/// "never-heated", "early-cooling", "handling-dip": the names other people's scripts rely on.
std::string nameOf(StallKind kind);

/// Something that may lie behind a stall, with the reasons taken from the record, and what is usually done.
struct LikelyCause {
    std::string cause;
    std::string remedy;
    std::string caution;
    std::string source;
    std::vector<std::string> reasons;
    std::string id;      ///< "too-dry" …: what a remedy is logged under
    std::string logged;  ///< the remedy in a few words, as it is written into the log: "watered and forked over"
    std::vector<AerationKind> acts;  ///< written down with it: watered, forked
    bool adds = false;               ///< something goes into the bin: what and how much belongs into the log too
};

/// A remedy the steward logged during a stall, or air, water or material given to the bin on any other ground, and
/// whether it was hot again in time.
struct RemedyOutcome {
    enum class State { worked, didNotWork, tooEarlyToSay };
    Instant at;
    std::string remedy;
    State state = State::tooEarlyToSay;
    std::string sentence;
};

/// What the heat balance says of a stall.
enum class HeatChange {
    unknown,    ///< no outside temperatures, or no undisturbed readings to compare
    unchanged,  ///< as much heat as before
    falling,
    stopped
};

struct StallHeat {
    std::optional<double> excess;  ///< warmest reading less the air outside, K, at the last reading
    std::optional<HeatRate> rate;  ///< the latest self-heating rate
    std::optional<TimeConstant> tau;
    HeatChange change = HeatChange::unknown;
    bool isWeather = false;  ///< unchanged, and colder outside
    std::string sentence;    ///< the same in words; empty when unknown
};

struct Stall {
    StallKind kind{};
    Instant from;               ///< first reading below; of a bin that never heated: its first addition, or its start
    std::optional<Instant> to;  ///< first reading back at the hot line; no value: still open at the batch's last entry
    /// The target's longest credited run as of `to`, or as of the batch's last entry while the stall is open.
    double hoursCredited = 0;
    double hoursShort = 0;            ///< the target's hold less that, never below 0
    std::vector<LikelyCause> causes;  ///< likeliest first, never empty
    StallHeat heat;
    std::vector<RemedyOutcome> remedies;  ///< in time order
};

/// What the batch is meant to reach: the logbook's own target, 55 °C for 72 h, every position.
/// Common practice, no source; the same figures stand in the criterion `target`.
struct HoldTarget {
    Celsius threshold = Celsius::ofTenThousandths(550'000);
    Seconds hold = hours(72);
    Seconds maxGap = ordinaryMaxGap;
    auto operator<=>(const HoldTarget&) const = default;
};

/// Every border a stall is judged by. None of them is a published standard: no text defines a stall.
struct StallSettings {
    /// Readings this close to a round's first belong to the round. Common practice, no source.
    Seconds round = minutes(60);
    /// The line between warm and hot. 40 or 45 °C by handbook; 111 °F = 44 °C and 30–45 °C in open guides.
    Celsius hot = Celsius::ofTenThousandths(450'000);
    /// A bin that has not been hot this long after its first addition has not heated. Larger heaps reach
    /// 60–70 °C in 3–5 days (Cornell Waste Management Institute, "Compost Physics").
    Seconds heatingUp = days(5);
    /// Readings below the hot line must span this much to be more than a bad moment. Common practice, no source.
    Seconds span = hours(24);
    /// Opening, turning, watering or feeding explains a dip that starts this soon after. Common practice, no source.
    Seconds afterHandling = hours(24);
    /// … if the bin is hot again this soon. Re-heating 24–72 h after turning: from memory (NRAES-54), unverified.
    Seconds recovery = hours(48);
    /// A remedy worked when the bin is hot again within this time. Same source, same caution.
    Seconds remedy = hours(72);
    HoldTarget target;
    auto operator<=>(const StallSettings&) const = default;
};

/// Every stall of the batch in time order, a function of the record alone, as of the batch's last entry.
/// Judged on the warmest inside position of each round, spot checks included: heat anywhere is heat made.
std::vector<Stall> stallsOf(const BatchRecord& record, const StallSettings& settings = {},
                            const Materials& materials = builtInMaterials());
/// The same where the record's rounds, `settings.round` wide, are at hand.
std::vector<Stall> stallsOf(const BatchRecord& record, std::vector<Round> rounds, const StallSettings& settings,
                            const Materials& materials);

}  // namespace midden
