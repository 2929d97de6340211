// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/certificate/chart_frame.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "ui/certificate/paper_font.h"

namespace midden::ui {

namespace {

/// Every instant that has to be on the chart.
template <class Visit>
void eachInstant(const BatchRecord& record, Visit visit) {
    visit(record.batch.started.at);
    for (const auto& track : record.tracks) {
        if (!track.samples.empty()) {
            visit(track.samples.front().at);
            visit(track.samples.back().at);
        }
    }
    for (const auto& addition : record.additions) {
        visit(addition.when.at);
    }
    for (const auto& aeration : record.aerations) {
        visit(aeration.when.at);
    }
    if (record.finished) {
        visit(*record.finished);
    }
}

Interval wholeOf(const BatchRecord& record) {
    Interval whole{record.batch.started.at, record.batch.started.at};
    eachInstant(record, [&](Instant at) { whole = {std::min(whole.from, at), std::max(whole.to, at)}; });
    whole.to = std::max(whole.to, whole.from + hours(6));
    const Seconds air{whole.length().count / 80};
    return {whole.from - air, whole.to + air};
}

Instant midnightOf(WallTime day, const TimeZone& zone) {
    day.hour = day.minute = day.second = 0;
    const auto meaning = zone.meaningOf(day);
    if (const auto* moment = std::get_if<Moment>(&meaning)) {
        return moment->at;
    }
    if (const auto* two = std::get_if<TwoTimes>(&meaning)) {
        return two->earlier.at;
    }
    day.hour = 1;  // the clocks went forward at midnight: the day begins at one
    const auto later = zone.meaningOf(day);
    const auto* moment = std::get_if<Moment>(&later);
    return moment != nullptr ? moment->at : instantOf(day, {});
}

QString dateLabel(Moment moment) {
    static constexpr std::array months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                       "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    const auto wall = wallTimeOf(moment);
    return QStringLiteral("%1 %2").arg(wall.day).arg(
        QLatin1String{months.at(static_cast<std::size_t>(wall.month - 1))});
}

/// Days from one date to the next, so that labels of this width do not meet.
int daysApart(Seconds length, double width) {
    constexpr double labelWidth = 13 * mm;
    for (const int step : {1, 2, 4, 7, 14, 28, 56, 91, 182}) {
        if (width * step * 86'400 / static_cast<double>(length.count) >= labelWidth) {
            return step;
        }
    }
    return 364;
}

}  // namespace

ChartFrame::ChartFrame(const PaperChart& chart, const QRectF& plot)
    : plot_{plot}, zone_{chart.zone}, visible_{wholeOf(chart.record)}, highest_{66} {
    for (const auto& pyramid : *chart.pyramids) {
        const auto samples = pyramid.samples();
        if (!samples.empty()) {
            const auto [coldest, warmest] = pyramid.extremes(0, samples.size());
            lowest_ = std::min(lowest_, samples[coldest].temperature().value());
            highest_ = std::max(highest_, samples[warmest].temperature().value());
        }
    }
    for (const auto& threshold : chart.review.thresholds) {
        highest_ = std::max(highest_, threshold.threshold.value());
    }
    lowest_ = std::floor(lowest_ / 10) * 10;
    highest_ = std::ceil((highest_ + 4) / 10) * 10;
}

double ChartFrame::x(Instant at) const {
    const auto part = static_cast<double>((at - visible_.from).count) / static_cast<double>(visible_.length().count);
    return plot_.left() + part * plot_.width();
}

double ChartFrame::y(double celsius) const {
    return plot_.bottom() - (celsius - lowest_) / (highest_ - lowest_) * plot_.height();
}

QRectF ChartFrame::column(const Interval& interval) const {
    return QRectF{QPointF{x(interval.from), plot_.top()}, QPointF{x(interval.to), plot_.bottom()}}.intersected(plot_);
}

std::vector<FrameTick> ChartFrame::degrees() const {
    const int step = highest_ - lowest_ > 100 ? 20 : 10;
    std::vector<FrameTick> ticks;
    for (int t = static_cast<int>(lowest_); t <= static_cast<int>(highest_); t += step) {
        auto label = QString::number(t);
        label.replace(QLatin1Char{'-'}, QChar{0x2212});
        ticks.push_back({static_cast<double>(t), label});
    }
    return ticks;
}

std::vector<FrameTick> ChartFrame::dates() const {
    return datesOver(visible_, zone_, plot_.width());
}

std::vector<FrameTick> datesOver(const Interval& visible, const TimeZone& zone, double width) {
    std::vector<FrameTick> ticks;
    const int step = daysApart(visible.length(), width);
    auto day = instantOf(wallTimeOf(zone.momentAt(visible.from)), {});  // walks the calendar, not the clock
    for (; ticks.size() < 1'000; day = day + days(step)) {
        const auto midnight = midnightOf(wallTimeOf({day, {}}), zone);
        if (midnight > visible.to) {
            break;
        }
        if (midnight >= visible.from) {
            ticks.push_back({static_cast<double>(midnight.utcSeconds), dateLabel(zone.momentAt(midnight))});
        }
    }
    return ticks;
}

}  // namespace midden::ui
