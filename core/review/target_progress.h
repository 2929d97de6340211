// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "core/review/stall.h"
#include "core/thermal/credit.h"
#include "core/thermal/interval.h"

namespace midden {

/// How far a batch has come towards its target, as the record grows: credited over every monitored position of the
/// whole record, the thermometer's error held against it unless `allowance` says otherwise. Raw material starts the
/// clock again: what was shown before is shown no longer, because material mixed with untreated counts as untreated (21
/// CFR 112.51, as reported in La. Admin. Code tit. 7 § V-1211).
class TargetProgress {
  public:
    TargetProgress(const BatchRecord& record, const HoldTarget& target, const Materials& materials = builtInMaterials(),
                   Allowance allowance = Allowance::applied);

    /// Has the target been shown by `at`, and no raw material been added since?
    bool isShown(Instant at) const;
    /// The longest credited run since the last raw addition, as of `at`.
    Seconds longestRun(Instant at) const;
    /// The credited run that reaches up to the last reading of every monitored position as of `at`: the one a next
    /// hot round would carry on. Zero when there is none.
    Seconds runningRun(Instant at) const;
    /// Since when the hold runs that a next hot round would carry on, as of `at`: the start of that run, or, when every
    /// position qualified at its last reading but no run is credited yet, the later of those readings.
    std::optional<Instant> holdingSince(Instant at) const;
    /// The instant of the latest reading that every monitored position has reached, as of the whole record.
    std::optional<Instant> lastCommonReading() const { return lastCommon_; }
    /// When the hold was full, once for every stretch between raw additions that showed it.
    std::vector<Instant> completions() const;

  private:
    /// From one raw addition to the next.
    struct Stage {
        Instant from;
        IntervalSet runs;
        std::optional<Instant> justReached;  ///< every position's last reading of the stage qualifies since then
        std::optional<Instant> full;         ///< the hold after the start of the run that showed the target
        std::optional<Instant> shown;        ///< the last position's reading at or after that
    };
    const Stage& stageAt(Instant at) const;

    std::vector<Stage> stages_;  ///< in time order; the first begins before everything
    std::optional<Instant> lastCommon_;
};

}  // namespace midden
