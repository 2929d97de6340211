// SPDX-License-Identifier: GPL-3.0-or-later
// The one review of a batch that every face shows: the window, the command line, the certificate.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/criteria/judgement.h"
#include "core/recipe/mixture.h"
#include "core/records/batch_record.h"
#include "core/review/bin_heat.h"
#include "core/review/fed_review.h"
#include "core/review/stall.h"
#include "core/thermal/interval.h"

namespace midden {

/// Time at or above a threshold, for one position or for all of them at once.
struct HoldFigures {
    Seconds credited;
    Seconds longestRun;
    double interpolatedSeconds = 0;
    double longestInterpolatedSeconds = 0;
};

struct PositionHold {
    std::string position;
    HoldFigures figures;
};

struct ThresholdReview {
    Celsius threshold;
    HoldFigures whole;    ///< every monitored position at once
    IntervalSet windows;  ///< the runs of the whole batch
    std::vector<PositionHold> byPosition;
};

struct GapReview {
    std::string position;
    Interval interval;
};

struct Peak {
    Celsius temperature;
    Instant at;
    std::string position;
};

struct BatchReview {
    std::string batch;
    std::string bin;
    Moment started;
    std::optional<Instant> finished;
    std::vector<std::string> positions;        ///< monitored, alphabetically
    std::vector<std::string> spotChecks;       ///< read, but by the steward's word not monitored
    std::vector<std::string> unreadPositions;  ///< set up, never read in this batch
    std::int64_t readings = 0;
    std::int64_t amendedEntries = 0;
    std::int64_t lateEntries = 0;
    std::optional<Peak> peak;
    std::vector<ThresholdReview> thresholds;
    std::vector<GapReview> gaps;
    std::vector<Judgement> criteria;
    std::vector<Stall> stalls;
    BinHeat heat;
    double daysAtTenCelsius = 0;
    std::optional<Mixture> mixture;
    std::optional<FedReview> fed;  ///< of a batch that is fed
};

}  // namespace midden
