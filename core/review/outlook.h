// SPDX-License-Identifier: GPL-3.0-or-later
// How a bin stands and what is due: what its card says. A function of the record alone; times are instants, so that
// the faces can put them into words of their own zone and day.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/review/rounds.h"
#include "core/review/stall.h"
#include "core/thermal/interval.h"

namespace midden {

/// A trend is drawn through no more readings of a position than this. Our own choice.
constexpr std::size_t mostTrendReadings = 40;

/// Borders of phases and warnings. Sources differ, so they are settings.
struct OutlookSettings {
    StallSettings stalls;
    /// A hint: Cornell Waste Management Institute, "Compost Physics": keep below about 65 °C.
    Celsius warm = Celsius::ofTenThousandths(650'000);
    /// Act: above 70 °C by handbook, from memory, unverified (NRAES-54).
    Celsius tooHot = Celsius::ofTenThousandths(700'000);
    /// A trend is taken over this much. Common practice, no source.
    Seconds trend = hours(72);
    /// A round a day while it is hot: 14 CCR 17868.3 (California), daily.
    Seconds betweenRounds = hours(24);
    /// No projected band from fewer tries on the bin's own past. Our own choice.
    std::size_t leastBackTests = 8;
    auto operator<=>(const OutlookSettings&) const = default;
};

enum class Phase {
    unread,   ///< no reading yet
    heating,  ///< on its way to the hot line, which it has not reached yet
    hot,
    cooling,  ///< below the hot line after having been there
    stalled,  ///< an early cooling or a bin that never heated, still open
    curing    ///< by the steward's own word, and not hot again since
};

/// "heating up", "hot", "cooling", "stalled", "curing", "not read yet"
std::string nameOf(Phase phase);

/// A hold that is running: every monitored position qualified at its last reading.
struct RunningHold {
    Instant since;
    Seconds credited;
    Seconds missing;
    Instant completes;  ///< the first reading of every position at or after this completes it, if none breaks it before
    Instant readBy;     ///< the first position's credit is lost when it is not read by then
};

/// A hold that ran until its next reading was overdue. Missed readings of that time, typed in later, make it run again.
struct BrokenHold {
    Instant at;  ///< the last reading that every position had, and the target's longest gap
    Seconds credited;
};

/// Where the next round is likely to find the warmest position: a band, never a line.
struct Projection {
    HeatPoint from;
    Instant at;
    double low = 0;             ///< °C
    double high = 0;            ///< °C
    double error = 0;           ///< four of five past tries were nearer than this, K
    std::size_t backTests = 0;  ///< how many tries
};

enum class DueKind {
    openUp,         ///< too hot: let heat out
    findCause,      ///< stalled
    holdBroke,      ///< the next reading did not come in time
    holdWillBreak,  ///< at this rate the coolest place falls below the target's threshold before the hold is complete
    wentCold,       ///< below the hot line before the target is shown, not yet long enough to be called a stall
    willGoCold,     ///< at this rate the warmest place falls below the hot line before the target is shown
    watchHeat,      ///< warm enough to keep an eye on
    keepHold,       ///< read again, or the running hold loses its credit
    completeHold,   ///< a reading from then on completes the hold
    takeReading     ///< the next round
};

struct Due {
    DueKind kind{};
    std::optional<Instant> at;  ///< by when, or from when on
};

struct BinOutlook {
    Phase phase = Phase::unread;
    std::optional<Round> last;
    bool targetShown = false;
    Seconds credited;  ///< the longest run since the last raw addition, the thermometer's error held against it
    Seconds asRead;    ///< the same without: no shorter
    Seconds missing;
    std::optional<RunningHold> hold;
    std::optional<BrokenHold> broken;  ///< never beside a running one
    std::optional<Stall> stall;        ///< the open one; none once the batch is finished
    std::optional<Projection> projection;
    std::optional<Instant> curingSince;
    std::vector<Due> due;  ///< most pressing first

    /// As read the longest hold was longer than what is shown for certain: the thermometer's error takes the rest.
    bool isLongerAsRead() const { return asRead > credited && (!hold || hold->credited == credited); }
    /// What the next reading would add to: of the hold that runs, else of the longest there was.
    Seconds holdSoFar() const { return hold ? hold->credited : credited; }
    Seconds holdStillMissing() const { return hold ? hold->missing : missing; }
};

/// As of the record's last entry. A fed batch has no hold that could run or break. `stalls` are those of the same
/// record and settings.
BinOutlook outlookOf(const BatchRecord& record, const std::vector<Stall>& stalls, const OutlookSettings& settings = {},
                     const Materials& materials = builtInMaterials());

/// The same bin seen at `now`, which is no earlier than its last entry: a hold whose next reading is overdue has
/// broken, and nothing is promised of it any more.
BinOutlook outlookAt(BinOutlook outlook, Instant now);

/// No value unless the same way of reckoning was tried often enough on the rounds before.
std::optional<Projection> projectionOf(const std::vector<Round>& rounds, const OutlookSettings& settings);

}  // namespace midden
