// SPDX-License-Identifier: GPL-3.0-or-later
// What needs doing today, over all bins, most pressing first. Pure: the clock is handed in.
#pragma once

#include <span>

#include "core/review/bin_status.h"

namespace midden {

/// What there may be to do; in this order where two things are equally pressing.
enum class TaskKind {
    openUp,        ///< too hot: let heat out
    saveHold,      ///< it cools: at this rate the running hold breaks
    readForHold,   ///< read, or the running hold loses its credit before the usual round
    endHold,       ///< a reading completes the hold
    bridgeGap,     ///< the running hold broke unread: a missed round that was read brings it back
    readOverdue,   ///< the usual round is past
    tryRemedy,     ///< stalled
    tellCold,      ///< it went cold: a reading from then on tells a stall from a bad moment
    keepHot,       ///< it cools: at this rate it goes cold too soon
    judgeRemedy,   ///< a remedy was logged: read by then to see whether it worked
    watchHeat,     ///< very warm
    turn,          ///< a rule in force asks for it
    firstReading,  ///< a batch that was never read
    read,          ///< the usual round falls into today
    feed,          ///< a fed bin: it is usually fed by now
    measureLevel,  ///< a fed bin: without a level no more hours are counted
    takeOut,       ///< a fed bin: what lies at its base had its hold
    certify,       ///< the figures are reached and no certificate says so yet
    beginCuring,   ///< it has cooled for good: turn it once, and if that does not re-heat it, say that it cures
    testCuring,    ///< it has cured long enough to be tested
    checkProbe     ///< too long since a thermometer was held into ice or boiling water
};

/// How pressing it is. Nothing that can wait stands above what cannot.
enum class Urgency { now, today, soon };

struct Task {
    TaskKind kind{};
    Urgency urgency = Urgency::soon;
    std::optional<BinId> bin;  ///< no value: it is about a thermometer
    std::optional<BatchId> batch;
    std::string where;             ///< the bin's name, or the thermometer's
    std::optional<Instant> until;  ///< by when; of endHold, tellCold and turn: from when on; of bridgeGap: it broke
    std::string detail;            ///< the remedy, the rule's title; else empty
    std::optional<Instant> since;  ///< last read, stalled or logged since, cooled or cured since, last checked
    std::optional<Celsius> read;   ///< the warmest of the last round
    Seconds credited;              ///< of the running hold, or of the one that broke
    int asked = 0;                 ///< turnings
    int recorded = 0;              ///< of beginCuring: 1 when it was turned since and stayed cool
    std::optional<FedStatus> fed;  ///< of a fed bin
};

struct TaskSettings {
    CareSettings care;
    Seconds betweenRounds = OutlookSettings{}.betweenRounds;
    Seconds remedy = StallSettings{}.remedy;
};

/// The moment the list is made for.
struct Today {
    Instant now;
    Instant end;  ///< of the day, by the steward's own zone
};

/// Of every bin the things that need doing today, or sooner; one reading task a bin at most. A bin with nothing due is
/// not mentioned. The order depends on what is due alone, never on the order of `bins`.
std::vector<Task> tasksFor(std::span<const BinStatus> bins, Today today, const TaskSettings& settings = {});

}  // namespace midden
