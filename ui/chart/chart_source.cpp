// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/chart_source.h"

#include <algorithm>

#include "core/thermal/credit.h"

namespace midden::ui {

namespace {

/// Air temperature may pause for two days before its line is broken: it is only there for orientation.
constexpr Seconds longestPause = days(2);

IntervalSet gapsOf(const BatchReview& review, const std::string& position) {
    IntervalSet found;
    for (const GapReview& gap : review.gaps) {
        if (gap.position == position) {
            found.push_back(gap.interval);
        }
    }
    std::ranges::sort(found);
    return found;
}

bool isMostly(const IntervalSet& silences, const Interval& gap) {
    const auto first = std::ranges::upper_bound(silences, gap.from, {}, &Interval::to);
    Seconds shared{};
    for (auto piece = first; piece != silences.end() && piece->from < gap.to; ++piece) {
        shared = shared + (std::min(piece->to, gap.to) - std::max(piece->from, gap.from));
    }
    return shared.count * 10 >= gap.length().count * 9;
}

/// In time order, without overlaps.
void settle(IntervalSet& set) {
    std::ranges::sort(set);
    IntervalSet settled;
    for (const Interval& piece : set) {
        if (!settled.empty() && piece.from <= settled.back().to) {
            settled.back().to = std::max(settled.back().to, piece.to);
        } else {
            settled.push_back(piece);
        }
    }
    set = std::move(settled);
}

ChartSource::Hours hoursIn(const Judgement& judgement) {
    ChartSource::Hours hours;
    for (const Evidence& piece : judgement.evidence) {
        if (piece.interval.to > piece.interval.from) {
            (piece.credited ? hours.credited : hours.refused).push_back(piece.interval);
        }
    }
    settle(hours.credited);
    settle(hours.refused);
    return hours;
}

void widen(double& lowest, double& highest, const MinMaxPyramid& pyramid) {
    if (pyramid.samples().empty()) {
        return;
    }
    const auto [coldest, warmest] = pyramid.extremes(0, pyramid.samples().size());
    lowest = std::min(lowest, pyramid.samples()[coldest].temperature().value());
    highest = std::max(highest, pyramid.samples()[warmest].temperature().value());
}

}  // namespace

ChartSource::ChartSource(const BatchRecord& record, const BatchReview& review) : record_{record}, review_{review} {
    if (!review.thresholds.empty()) {
        highest_ = review.thresholds.front().threshold.value() + 5;
    }
    for (const Track& track : record.tracks) {
        pyramids_.emplace_back(std::span{track.samples});
        gaps_.push_back(gapsOf(review, track.position));
    }
    pyramids_.emplace_back(std::span{record.outside});
    outsideGaps_ = midden::gaps(record.outside, longestPause);
    for (const MinMaxPyramid& pyramid : pyramids_) {
        widen(lowest_, highest_, pyramid);
    }
    std::ranges::transform(review.criteria, std::back_inserter(hours_), hoursIn);
    findPauses();
}

void ChartSource::findPauses() {
    for (std::size_t i = 0; i < review_.positions.size(); ++i) {
        const IntervalSet own = gapsOf(review_, review_.positions[i]);
        silences_ = i == 0 ? own : intersection(silences_, own);
    }
    // A shorter rest, where one position paused a little earlier than the other, is told by the ribbons.
    std::erase_if(silences_, [](const Interval& piece) { return piece.length() < hours(1); });
    for (const GapReview& gap : review_.gaps) {
        if (!isMostly(silences_, gap.interval)) {
            pauses_[gap.position].push_back(gap.interval);
        }
    }
    for (auto& [position, set] : pauses_) {
        std::ranges::sort(set);
    }
}

}  // namespace midden::ui
