// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/plan_parts.h"

#include <QCoreApplication>
#include <QLocale>
#include <algorithm>
#include <map>

#include "ui/chart/entry_words.h"
#include "ui/common/words.h"

namespace midden::ui {

namespace {

constexpr int mostRibbonRows = 3;

QString say(const char* words) {
    return QCoreApplication::translate("ChartPlan", words);
}

bool isVisible(const Interval& interval, const ChartView& view) {
    return interval.to > view.visible.from && interval.from < view.visible.to;
}

/// Words inside the visible part of a stretch: lying where there is room, else upright, else none.
struct Inside {
    QString words;
    Stand stand = Stand::lying;
};

Inside inside(const Interval& interval, const ChartView& view, const QString& words) {
    const double left = std::max(0.0, pixelAt(view, interval.from));
    const double right = std::min(view.width, pixelAt(view, interval.to));
    const double room = right - left - view.textWidth(QStringLiteral("0"));
    if (view.textWidth(words) <= room) {
        return {words};
    }
    return view.textWidth(QStringLiteral("00")) <= room ? Inside{words, Stand::upright} : Inside{};
}

/// Pieces of a set that were drawn as one for want of pixels are not one: their hours may not be written as one.
bool isWhole(const IntervalSet& set, const Interval& piece) {
    return std::ranges::binary_search(set, piece);
}

/// The time in which no monitored position was read.
IntervalSet silences(const BatchReview& review) {
    std::map<std::string, IntervalSet> byPosition;
    for (const GapReview& gap : review.gaps) {
        byPosition[gap.position].push_back(gap.interval);
    }
    IntervalSet silent;
    for (std::size_t i = 0; i < review.positions.size(); ++i) {
        IntervalSet& gaps = byPosition[review.positions[i]];
        std::ranges::sort(gaps);
        silent = i == 0 ? gaps : intersection(silent, gaps);
    }
    // A shorter rest, where one position paused a little earlier than the other, is told by the ribbons.
    std::erase_if(silent, [](const Interval& piece) { return piece.length() < hours(1); });
    return silent;
}

bool isMostly(const IntervalSet& silent, const Interval& gap) {
    const Seconds shared = total(intersection(silent, {gap}));
    return shared.count * 10 >= gap.length().count * 9;
}

struct Extent {
    double left;
    double right;
};

Extent ribbonOf(const ChartGap& gap, const ChartView& view) {
    return {std::max(0.0, pixelAt(view, gap.interval.from)), std::min(view.width, pixelAt(view, gap.interval.to))};
}

double roomFor(const QString& words, const ChartView& view) {
    return view.textWidth(words) + 2 * view.textWidth(QStringLiteral("0"));
}

/// Of the ribbon together with words beside it.
Extent extent(const ChartGap& gap, const ChartView& view) {
    Extent found = ribbonOf(gap, view);
    if (gap.stand == Stand::after) {
        found.right += roomFor(gap.words, view);
    } else if (gap.stand == Stand::before) {
        found.left -= roomFor(gap.words, view);
    }
    return found;
}

Stand standOf(const ChartGap& gap, const ChartView& view) {
    const Extent ribbon = ribbonOf(gap, view);
    const double room = roomFor(gap.words, view);
    if (room <= ribbon.right - ribbon.left) {
        return Stand::lying;
    }
    return ribbon.right + room <= view.width ? Stand::after : Stand::before;
}

bool isRowFree(const ChartPlan& plan, const ChartGap& wanted, const ChartView& view) {
    const Extent own = extent(wanted, view);
    return std::ranges::none_of(plan.gaps, [&](const ChartGap& other) {
        const Extent taken = extent(other, view);
        return !other.position.isEmpty() && other.row == wanted.row && taken.right > own.left && taken.left < own.right;
    });
}

void addRibbon(ChartPlan& plan, const GapReview& gap, const ChartView& view) {
    const QString position = words::text(gap.position);
    const QString words = say("%1: no reading %2").arg(position, words::length(gap.interval.length()));
    ChartGap ribbon{gap.interval, position, words};
    ribbon.stand = standOf(ribbon, view);
    while (ribbon.row < mostRibbonRows && !isRowFree(plan, ribbon, view)) {
        ++ribbon.row;
    }
    if (ribbon.row == mostRibbonRows) {
        ribbon.row = mostRibbonRows - 1;
        ribbon.words.clear();
    }
    plan.ribbonRows = std::max(plan.ribbonRows, ribbon.row + 1);
    plan.gaps.push_back(std::move(ribbon));
}

QString stallWord(StallKind kind) {
    switch (kind) {
        case StallKind::neverHeated:
            return say("never hot");
        case StallKind::earlyCooling:
            return say("stalled");
        case StallKind::handlingDip:
            return say("dip after handling");
    }
    return {};
}

IntervalSet evidenceOf(const Judgement& judgement, bool credited) {
    IntervalSet set;
    for (const Evidence& piece : judgement.evidence) {
        if (piece.credited == credited && piece.interval.to > piece.interval.from) {
            set.push_back(piece.interval);
        }
    }
    std::ranges::sort(set);
    return set;
}

QString stripFigures(const Judgement& judgement) {
    return say("%1, %2").arg(words::hoursOf(judgement.credited, judgement.required), words::verdict(judgement.verdict));
}

}  // namespace

double pixelAt(const ChartView& view, Instant at) {
    return static_cast<double>((at - view.visible.from).count) * view.width /
           static_cast<double>(view.visible.length().count);
}

IntervalSet visiblePieces(const IntervalSet& set, const ChartView& view) {
    const double secondsPerPixel = static_cast<double>(view.visible.length().count) / view.width;
    IntervalSet pieces;
    for (const Interval& interval : set) {
        if (!isVisible(interval, view)) {
            continue;
        }
        if (!pieces.empty() && static_cast<double>((interval.from - pieces.back().to).count) < secondsPerPixel) {
            pieces.back().to = std::max(pieces.back().to, interval.to);
        } else {
            pieces.push_back(interval);
        }
    }
    return pieces;
}

void planThreshold(ChartPlan& plan, const BatchReview& review, const ChartView& view) {
    if (review.thresholds.empty()) {
        return;
    }
    const ThresholdReview& threshold = review.thresholds.front();
    plan.thresholdCelsius = threshold.threshold.value();
    QString number = words::degrees(threshold.threshold, view.unit);
    const QString noTenths = QLocale{}.decimalPoint() + QLatin1Char{'0'};
    if (number.endsWith(noTenths)) {
        number.chop(noTenths.size());
    }
    plan.thresholdLabel = number + QLatin1Char{' '} + words::unitName(view.unit);
    for (const Interval& piece : visiblePieces(threshold.windows, view)) {
        const QString length = isWhole(threshold.windows, piece) ? words::length(piece.length()) : QString{};
        const auto [words, stand] = inside(piece, view, length);
        plan.bands.push_back({piece, words, stand});
    }
}

void planGaps(ChartPlan& plan, const BatchReview& review, const ChartView& view) {
    const IntervalSet silent = silences(review);
    for (const Interval& piece : visiblePieces(silent, view)) {
        const QString length = words::length(piece.length());
        const QString whole = isWhole(silent, piece) ? say("no reading %1").arg(length) : QString{};
        const auto [words, stand] = inside(piece, view, whole);
        plan.gaps.push_back({piece, {}, words, stand});
    }
    for (const GapReview& gap : review.gaps) {
        if (isVisible(gap.interval, view) && !isMostly(silent, gap.interval)) {
            addRibbon(plan, gap, view);
        }
    }
}

void planStalls(ChartPlan& plan, const BatchReview& review, const ChartView& view) {
    const Instant lastEntry = plan.visible.to;
    for (const Stall& stall : review.stalls) {
        const Interval interval{stall.from, stall.to.value_or(std::max(lastEntry, stall.from + hours(1)))};
        if (isVisible(interval, view)) {
            plan.stalls.push_back({interval, stallWord(stall.kind), !stall.to.has_value()});
        }
    }
}

void planStrips(ChartPlan& plan, const BatchReview& review, const ChartView& view) {
    for (const std::string& id : view.criteria) {
        const auto judged =
            std::ranges::find(review.criteria, id, [](const Judgement& one) { return one.criterion.id; });
        if (judged == review.criteria.end()) {
            continue;
        }
        plan.strips.push_back({words::text(id), words::text(judged->criterion.title), stripFigures(*judged),
                               visiblePieces(evidenceOf(*judged, true), view),
                               visiblePieces(evidenceOf(*judged, false), view)});
    }
}

}  // namespace midden::ui
