// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/pointing.h"

#include <QLineF>
#include <cmath>

#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr double reach = 24;  // pixels

struct Nearest {
    double distance = reach;
    QString position;
    Instant at;
};

void lookAlong(const ChartTrace& trace, const ChartLayout& layout, QPointF at, Nearest& nearest) {
    for (const ChartLine& line : trace.lines) {
        for (const ChartPoint& point : line) {
            const QPointF place{layout.xOf(point.at), layout.yOf(point.celsius)};
            const double distance = QLineF{place, at}.length();
            if (distance < nearest.distance && layout.plot.adjusted(-1, -1, 1, 1).contains(place)) {
                nearest = {distance, trace.position, point.at};
            }
        }
    }
}

}  // namespace

std::optional<ReadingSpot> readingNear(const LoadedBatch& batch, const ChartPlan& plan, const ChartLayout& layout,
                                       QPointF at) {
    Nearest nearest;
    for (const ChartTrace& trace : plan.traces) {
        lookAlong(trace, layout, at, nearest);
    }
    if (nearest.distance >= reach) {
        return {};
    }
    return spotOf(batch, words::utf8(nearest.position), nearest.at);
}

const ChartMark* laneMarkNear(const ChartPlan& plan, const ChartLayout& layout, QPointF at) {
    if (!layout.lane.contains(at)) {
        return nullptr;
    }
    for (const ChartMark& mark : plan.marks) {
        if (std::abs(layout.xOf(mark.at) - at.x()) <= 8) {
            return &mark;
        }
    }
    return nullptr;
}

const ChartStall* stallNear(const ChartPlan& plan, const ChartLayout& layout, QPointF at) {
    if (!layout.stalls.contains(at)) {
        return nullptr;
    }
    const auto found = std::ranges::find_if(plan.stalls, [&](const ChartStall& stall) {
        return at.x() >= layout.xOf(stall.interval.from) - 6 && at.x() <= layout.xOf(stall.interval.to) + 6;
    });
    return found == plan.stalls.end() ? nullptr : &*found;
}

QString stripNear(const ChartPlan& plan, const ChartLayout& layout, QPointF at) {
    for (std::size_t i = 0; i < layout.strips.size(); ++i) {
        if (layout.strips[i].contains(at)) {
            return plan.strips[i].id;
        }
    }
    return {};
}

}  // namespace midden::ui
