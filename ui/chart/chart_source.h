// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/records/batch_record.h"
#include "core/review/batch_review.h"
#include "ui/chart/decimation.h"

namespace midden::ui {

/// A batch made ready to be drawn at any zoom: keeps references to both, and everything a picture needs that does not
/// change from one to the next, in time order.
class ChartSource {
  public:
    ChartSource(const BatchRecord& record, const BatchReview& review);
    const BatchRecord& record() const { return record_; }
    const BatchReview& review() const { return review_; }
    const std::vector<MinMaxPyramid>& pyramids() const { return pyramids_; }  ///< one a track, then outside air
    /// Where the line of a track is broken.
    const std::vector<IntervalSet>& gaps() const { return gaps_; }
    /// Where the line of outside air is broken.
    const IntervalSet& outsideGaps() const { return outsideGaps_; }
    /// The time in which no monitored position was read.
    const IntervalSet& silences() const { return silences_; }
    /// Gaps of single positions that are not mostly silences, by position.
    const std::map<std::string, IntervalSet>& pauses() const { return pauses_; }

    /// What a criterion's strip is made of.
    struct Hours {
        IntervalSet credited;
        IntervalSet refused;
    };
    const Hours& hoursOf(std::size_t criterion) const { return hours_[criterion]; }  ///< n of the review's criteria
    double lowest() const { return lowest_; }    ///< °C, over everything that is drawn
    double highest() const { return highest_; }  ///< °C

  private:
    void findPauses();

    const BatchRecord& record_;
    const BatchReview& review_;
    std::vector<MinMaxPyramid> pyramids_;
    std::vector<IntervalSet> gaps_;
    IntervalSet outsideGaps_;
    IntervalSet silences_;
    std::map<std::string, IntervalSet> pauses_;
    std::vector<Hours> hours_;
    double lowest_ = 10;
    double highest_ = 60;
};

}  // namespace midden::ui
