// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/chart_plan.h"

#include <algorithm>
#include <cmath>

#include "ui/chart/chart_source.h"
#include "ui/chart/plan_parts.h"
#include "ui/chart/ticks.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

/// Readings are drawn with their marks while these can still be told apart.
constexpr double pixelsPerMark = 7;

/// Where there is no room for all, about so far apart.
constexpr double pixelsBetweenMarks = 110;

/// Where a line is broken, asked from left to right.
class Breaks {
  public:
    Breaks(const IntervalSet& gaps, Instant from)
        : next_{std::ranges::lower_bound(gaps, from, {}, &Interval::from)}, end_{gaps.end()} {}

    bool isOneBetween(Instant from, Instant to) {
        while (next_ != end_ && next_->from < from) {
            ++next_;
        }
        return next_ != end_ && next_->to <= to;
    }

  private:
    IntervalSet::const_iterator next_;
    IntervalSet::const_iterator end_;
};

std::vector<ChartLine> linesOf(const MinMaxPyramid& pyramid, const IntervalSet& gaps, const ChartView& view) {
    std::vector<ChartLine> lines;
    const auto samples = pyramid.samples();
    const auto columns = static_cast<std::size_t>(std::max(1.0, view.columns));
    const auto drawn = decimated(pyramid, view.visible, columns * slicesAColumn);
    if (drawn.empty()) {
        return lines;
    }
    Breaks breaks{gaps, samples[drawn.front()].at};
    for (const std::size_t index : drawn) {
        const Sample& sample = samples[index];
        if (lines.empty() || breaks.isOneBetween(lines.back().back().at, sample.at)) {
            lines.emplace_back();
        }
        lines.back().push_back({sample.at, sample.temperature().value()});
    }
    return lines;
}

/// Readings inside the visible stretch.
std::size_t readingsIn(std::span<const Sample> samples, Interval visible) {
    const auto at = [](const Sample& sample) { return sample.at; };
    const auto first = std::ranges::lower_bound(samples, visible.from, {}, at);
    const auto last = std::ranges::upper_bound(samples, visible.to, {}, at);
    return static_cast<std::size_t>(last - first);
}

/// Alphabetical, "core" first, as everywhere in the window.
std::size_t lookOf(const std::vector<Track>& tracks, std::size_t index) {
    const auto core = std::ranges::find(tracks, "core", &Track::position);
    const auto corePlace = static_cast<std::size_t>(core - tracks.begin());
    if (index == corePlace) {
        return 0;
    }
    return core != tracks.end() && index < corePlace ? index + 1 : index;
}

bool hasRoomForMarks(const ChartSource& source, const ChartView& view) {
    return std::ranges::all_of(source.pyramids(), [&](const MinMaxPyramid& pyramid) {
        return static_cast<double>(readingsIn(pyramid.samples(), view.visible)) * pixelsPerMark <= view.width;
    });
}

/// The first reading drawn in each of equal stretches of time, counted from a fixed instant so that marks move with the
/// lines; each trace at a place of its own.
std::vector<ChartPoint> markedNowAndThen(const ChartTrace& trace, std::size_t traces, const ChartView& view) {
    const double secondsPerPixel = static_cast<double>(view.visible.length().count) / view.width;
    std::int64_t step = 60;
    while (static_cast<double>(step) < secondsPerPixel * pixelsBetweenMarks) {
        step *= 2;
    }
    const auto asideName = step * static_cast<std::int64_t>(trace.look) / static_cast<std::int64_t>(traces);
    std::vector<ChartPoint> marked;
    std::optional<std::int64_t> last;
    for (const ChartLine& line : trace.lines) {
        for (const ChartPoint& point : line) {
            const std::int64_t stretch = (point.at.utcSeconds - asideName) / step;
            if (last && *last != stretch) {
                marked.push_back(point);
            }
            last = stretch;
        }
    }
    return marked;
}

std::vector<ChartTrace> tracesOf(const ChartSource& source, const ChartView& view) {
    const bool marks = hasRoomForMarks(source, view);
    std::vector<ChartTrace> traces;
    const auto& tracks = source.record().tracks;
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        const MinMaxPyramid& pyramid = source.pyramids()[i];
        ChartTrace trace;
        trace.position = words::text(tracks[i].position);
        trace.look = lookOf(tracks, i);
        trace.spotCheck = tracks[i].spotCheck;
        trace.lines = linesOf(pyramid, source.gaps()[i], view);
        trace.everyReadingDrawn = marks;
        if (!marks) {
            trace.marked = markedNowAndThen(trace, tracks.size(), view);
        }
        traces.push_back(std::move(trace));
    }
    return traces;
}

std::vector<ChartLine> outsideOf(const ChartSource& source, const ChartView& view) {
    const MinMaxPyramid& pyramid = source.pyramids().back();
    return linesOf(pyramid, source.outsideGaps(), view);
}

template <class Entries>
void takeIn(std::optional<Interval>& whole, const Entries& entries) {
    for (const auto& entry : entries) {
        const Instant at = entry.when.at;
        whole = whole ? Interval{std::min(whole->from, at), std::max(whole->to, at)} : Interval{at, at};
    }
}

}  // namespace

Interval wholeBatch(const BatchRecord& record) {
    std::optional<Interval> whole;
    for (const Track& track : record.tracks) {
        if (!track.samples.empty()) {
            const Interval read{track.samples.front().at, track.samples.back().at};
            whole = whole ? Interval{std::min(whole->from, read.from), std::max(whole->to, read.to)} : read;
        }
    }
    takeIn(whole, record.additions);
    takeIn(whole, record.aerations);
    takeIn(whole, record.observations);
    takeIn(whole, record.harvests);
    const Interval found = whole.value_or(Interval{record.batch.started.at, record.batch.started.at});
    const Seconds air{std::max(hours(3).count, found.length().count / 40)};
    return {found.from - air, found.to + air};
}

ChartPlan chartPlan(const ChartSource& source, const ChartView& view) {
    ChartPlan plan;
    plan.visible = view.visible;
    plan.lowestCelsius = std::floor(source.lowest() / 10) * 10;
    plan.highestCelsius = std::ceil((source.highest() + 2) / 10) * 10;
    plan.unitLabel = words::unitName(view.unit);
    plan.temperatureTicks = temperatureTicks(plan.lowestCelsius, plan.highestCelsius, view.unit);
    plan.timeTicks = timeTicks(view);
    plan.traces = tracesOf(source, view);
    plan.outside = outsideOf(source, view);
    planThreshold(plan, source.review(), view);
    planGaps(plan, source, view);
    planLane(plan, source.record(), view);
    planStalls(plan, source.review(), view);
    planStrips(plan, source, view);
    if (view.withHeat) {
        planHeat(plan, source.review().heat, view);
    }
    if (view.projection) {
        const Projection& band = *view.projection;
        plan.forecast = {band.from.at, band.from.celsius, band.at, band.low, band.high};
    }
    return plan;
}

ChartPlan chartPlan(const BatchRecord& record, const BatchReview& review, const ChartView& view) {
    return chartPlan(ChartSource{record, review}, view);
}

}  // namespace midden::ui
