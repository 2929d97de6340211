// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/layers/layers_marks.h"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "ui/chart/ticks.h"

namespace midden::ui {

namespace {

constexpr double marksApart = 8;
constexpr double leastTickGap = 2.2;  // lines of text

QString tr(const char* words) {
    return QCoreApplication::translate("LayersPlan", words);
}

/// As they stand once all that happens at that instant has happened.
const LayerColumn& columnAfter(const LayersSource& source, Instant at) {
    const auto& columns = source.history.columns;
    auto column = std::ranges::lower_bound(columns, at, {}, &LayerColumn::at);
    if (column == columns.end()) {
        return columns.back();
    }
    const auto next = std::next(column);
    return next != columns.end() && !next->follows ? *next : *column;
}

const LayerColumn& columnBefore(const LayersSource& source, Instant at) {
    const auto& columns = source.history.columns;
    const auto later = std::ranges::lower_bound(columns, at, {}, &LayerColumn::at);
    if (later != columns.end() && later->at == at) {
        return *later;
    }
    return later == columns.begin() ? columns.front() : *std::prev(later);
}

QString litresWords(const LayersFrame& frame, double litres) {
    return tr("%1 L").arg(numberOn(frame, litres, litres < 10 && litres != std::round(litres) ? 1 : 0));
}

/// One more event of this kind: its own mark, or one with the mark before.
void addMark(LayersPlan& plan, EventKind kind, QPointF place) {
    const auto same =
        std::find_if(plan.marks.rbegin(), plan.marks.rend(), [&](const LayersMark& mark) { return mark.kind == kind; });
    if (same != plan.marks.rend() && place.x() - same->place.x() < marksApart) {
        ++same->count;
        return;
    }
    plan.marks.push_back({kind, place, 1, {}});
}

void addFault(LayersPlan& plan, const LayersSource& source, const LayerEvent& event, const LayersFrame& frame) {
    const double surface = columnBefore(source, event.at).surfaceLitres();
    const double perCm = source.litresPerCm.value_or(0);
    const bool isPartly = event.kind == EventKind::forked && event.amount && perCm > 0;
    const double bottom = isPartly ? std::max(0.0, surface - *event.amount * perCm) : 0;
    QString label = event.kind == EventKind::turned ? tr("turned") : tr("forked");
    if (isPartly) {
        label = tr("forked %1 cm").arg(numberOn(frame, *event.amount, 0));
    }
    plan.faults.push_back(
        {plan.layout.xOf(event.at), plan.layout.yOf(surface), plan.layout.yOf(bottom), std::move(label)});
}

/// How much was taken is written where there is room.
void labelHarvests(LayersPlan& plan, const LayersSource& source, const LayersFrame& frame) {
    double free = plan.layout.plot.left();
    auto event = source.history.events.begin();
    for (LayersMark& mark : plan.marks) {
        if (mark.kind != EventKind::drawn) {
            continue;
        }
        double litres = 0;
        for (int taken = 0; taken < mark.count; ++event) {
            if (event->kind == EventKind::drawn) {
                litres += *event->amount;
                ++taken;
            }
        }
        const QString label = litresWords(frame, litres);
        const double width = frame.textWidth(label);
        if (mark.place.x() - width / 2 >= free) {
            mark.label = label;
            free = mark.place.x() + width / 2 + 8;
        }
    }
}

/// Faults whose words would run into those of the one before go without.
void thinFaultLabels(LayersPlan& plan, const LayersFrame& frame) {
    double free = plan.layout.plot.left() - frame.line;
    for (LayersFault& fault : plan.faults) {
        const double half = frame.textWidth(fault.label) / 2 + 4;
        if (fault.x - half < free) {
            fault.label.clear();
        } else {
            free = fault.x + half;
        }
    }
}

std::vector<LayersTick> datesOf(const LayersPlan& plan, const LayersFrame& frame) {
    if (frame.dates) {
        return frame.dates(plan.layout.visible);
    }
    ChartView view;
    view.visible = plan.layout.visible;
    view.width = plan.layout.plot.width();
    view.zone = frame.zone;
    view.textWidth = frame.textWidth;
    std::vector<LayersTick> dates;
    for (const ChartTick& tick : timeTicks(view)) {
        dates.push_back({tick.value, tick.label});
    }
    return dates;
}

double niceStep(double least) {
    const double power = std::pow(10, std::floor(std::log10(least)));
    for (const double digit : {1.0, 2.0, 5.0}) {
        if (digit * power >= least) {
            return digit * power;
        }
    }
    return 10 * power;
}

}  // namespace

void planEvents(LayersPlan& plan, const LayersSource& source, const LayersFrame& frame) {
    const double perCm = source.litresPerCm.value_or(0);
    for (const LayerEvent& event : source.history.events) {
        const double x = plan.layout.xOf(event.at);
        switch (event.kind) {
            case EventKind::feed:
                addMark(plan, event.kind, {x, plan.layout.yOf(columnAfter(source, event.at).surfaceLitres())});
                break;
            case EventKind::level:
                if (perCm > 0) {
                    addMark(plan, event.kind, {x, plan.layout.yOf(*event.amount * perCm)});
                }
                break;
            case EventKind::drawn:
                addMark(plan, event.kind, {x, plan.layout.plot.bottom()});
                break;
            case EventKind::turned:
            case EventKind::forked:
                addFault(plan, source, event, frame);
                break;
        }
    }
    labelHarvests(plan, source, frame);
    thinFaultLabels(plan, frame);
}

void planAxes(LayersPlan& plan, const LayersSource& source, const LayersFrame& frame) {
    for (LayersTick tick : datesOf(plan, frame)) {
        tick.place = plan.layout.xOf(Instant{static_cast<std::int64_t>(tick.place)});
        plan.times.push_back(std::move(tick));
    }
    const double perUnit = source.litresPerCm.value_or(1);
    plan.unitLabel = source.litresPerCm ? tr("cm") : tr("L");
    const double highest = plan.layout.topLitres / perUnit;
    const double most = std::max(1.0, plan.layout.plot.height() / (leastTickGap * frame.line));
    const double step = niceStep(highest / most);
    for (int i = 0; i * step <= highest; ++i) {
        if (plan.layout.yOf(i * step * perUnit) < plan.layout.plot.top() + frame.line / 2) {
            break;  // the unit stands there
        }
        plan.heights.push_back({plan.layout.yOf(i * step * perUnit), numberOn(frame, i * step, step < 1 ? 1 : 0)});
    }
}

}  // namespace midden::ui
