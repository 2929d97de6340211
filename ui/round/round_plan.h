// SPDX-License-Identifier: GPL-3.0-or-later
// What the Round shows, before any widget: one row for each place that is read.
#pragma once

#include <QString>
#include <map>
#include <optional>
#include <vector>

#include "core/quantities/zone.h"
#include "core/store/logbook.h"

namespace midden::ui {

/// A place on the round, or a bin that stands empty (no batch, no position).
struct RoundRow {
    Bin bin;
    std::string position;
    bool spotCheck = false;
    bool firstOfBin = false;
    std::optional<BatchId> batch;
    std::optional<Reading> now;   ///< what this round's cell already holds
    std::optional<Reading> last;  ///< the newest before this round
    Moment when;                  ///< of its readings: the round, or when the batch came to the bin since it began

    Place place() const { return {bin.id, position}; }
    bool isEmptyBin() const { return !batch; }
};

struct RoundPlan {
    Moment when;
    bool readOnly = false;
    TemperatureUnit unit = TemperatureUnit::celsius;
    std::optional<Reading> outsideNow;
    std::optional<Reading> outsideLast;
    std::vector<Probe> probes;   ///< by name
    std::vector<RoundRow> rows;  ///< by bin; "core" first, then alphabetically
};

/// The air outside, without a bin: that of the whole site.
inline Place outsidePlace() {
    return {};
}

/// The end of what has been read.
struct NewestReadings {
    std::map<BinId, std::vector<LastReadings>> ofBins;
    std::optional<Reading> outside;
};
NewestReadings newestIn(const Logbook& logbook);

/// When the round that goes on at `now` began: the earliest of the newest readings within the length of a round, or
/// `now` itself, to the minute, when none was taken.
Instant roundGoingOn(const NewestReadings& newest, Instant now, Seconds roundLength);

/// The round of `at`, which may lie in the past (paper sheets typed in later). `now`: it is still going on, so that a
/// batch that came to its bin since it began is read there, and what was read before stays with the one that left.
RoundPlan planRound(const Logbook& logbook, const NewestReadings& newest, Moment at, std::optional<Instant> now = {});

}  // namespace midden::ui
