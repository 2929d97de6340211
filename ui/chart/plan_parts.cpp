// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/plan_parts.h"

#include <QCoreApplication>
#include <QLocale>
#include <algorithm>
#include <array>
#include <limits>
#include <optional>

#include "ui/chart/entry_words.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr int mostRibbonRows = 3;

QString say(const char* words) {
    return QCoreApplication::translate("ChartPlan", words);
}

bool isVisible(const Interval& interval, const ChartView& view) {
    return interval.to > view.visible.from && interval.from < view.visible.to;
}

struct BookSummary {
    QString words;
    Stand stand = Stand::lying;
};

/// Words inside the visible part of a stretch: lying where there is room, else upright, else none. There may be a
/// thousand stretches without room for any, so words are only asked for where there is some.
class Inscriber {
  public:
    explicit Inscriber(const ChartView& view) : view_{view}, digit_{view.textWidth(QStringLiteral("0"))} {}

    template <class Words>
    BookSummary inside(const Interval& interval, const Words& wordsOf) const {
        const double left = std::max(0.0, pixelAt(view_, interval.from));
        const double right = std::min(view_.width, pixelAt(view_, interval.to));
        const double room = right - left - digit_;
        if (room < 2 * digit_) {
            return {};
        }
        const QString words = wordsOf();
        return {words, view_.textWidth(words) <= room ? Stand::lying : Stand::upright};
    }

  private:
    const ChartView& view_;
    double digit_;
};

/// Pieces of a set that were drawn as one for want of pixels are not one: their hours may not be written as one.
bool isWhole(const IntervalSet& set, const Interval& piece) {
    return std::ranges::binary_search(set, piece);
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

/// A gap of a single position; its length is written where it was not drawn together with others.
struct Ribbon {
    ChartGap gap;
    bool isWhole = false;
};

void writeLength(Ribbon& ribbon, const ChartView& view) {
    ChartGap& gap = ribbon.gap;
    if (ribbon.isWhole) {
        gap.words = say("%1: no reading %2").arg(gap.position, words::length(gap.interval.length()));
        gap.stand = standOf(gap, view);
    }
}

/// Which rows of ribbons are taken, and up to where.
class RibbonRows {
  public:
    RibbonRows() { taken_.fill(std::numeric_limits<double>::lowest()); }
    /// The first in which something stands clear of the one before.
    std::optional<int> rowFor(const Extent& extent) const {
        const auto row = std::ranges::find_if(taken_, [&](double right) { return right <= extent.left; });
        return row == taken_.end() ? std::nullopt : std::optional{static_cast<int>(row - taken_.begin())};
    }
    void take(int row, const Extent& extent) { taken_.at(static_cast<std::size_t>(row)) = extent.right; }

  private:
    std::array<double, mostRibbonRows> taken_{};
};

/// Ribbons come in time order. Words are only made where there is a row for the ribbon itself.
void placeRibbon(Ribbon& ribbon, RibbonRows& rows, const ChartView& view) {
    ChartGap& gap = ribbon.gap;
    gap.row = mostRibbonRows - 1;
    if (!rows.rowFor(ribbonOf(gap, view))) {
        return;
    }
    writeLength(ribbon, view);
    const Extent own = extent(gap, view);
    if (const auto row = rows.rowFor(own)) {
        gap.row = *row;
        rows.take(*row, own);
    } else {
        gap.words.clear();
    }
}

void planRibbons(ChartPlan& plan, const ChartSource& source, const ChartView& view) {
    std::vector<Ribbon> ribbons;
    for (const auto& [position, pauses] : source.pauses()) {
        for (const Interval& piece : visiblePieces(pauses, view)) {
            ribbons.push_back({{piece, words::text(position), {}}, isWhole(pauses, piece)});
        }
    }
    std::ranges::stable_sort(ribbons, {}, [](const Ribbon& ribbon) { return ribbon.gap.interval; });
    RibbonRows rows;
    for (Ribbon& ribbon : ribbons) {
        placeRibbon(ribbon, rows, view);
        plan.ribbonRows = std::max(plan.ribbonRows, ribbon.gap.row + 1);
        plan.gaps.push_back(std::move(ribbon.gap));
    }
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
    const auto first = std::ranges::upper_bound(set, view.visible.from, {}, &Interval::to);
    for (auto piece = first; piece != set.end() && piece->from < view.visible.to; ++piece) {
        if (!pieces.empty() && static_cast<double>((piece->from - pieces.back().to).count) < secondsPerPixel) {
            pieces.back().to = std::max(pieces.back().to, piece->to);
        } else {
            pieces.push_back(*piece);
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
    const Inscriber inscriber{view};
    for (const Interval& piece : visiblePieces(threshold.windows, view)) {
        const auto [words, stand] = inscriber.inside(
            piece, [&] { return isWhole(threshold.windows, piece) ? words::length(piece.length()) : QString{}; });
        plan.bands.push_back({piece, words, stand});
    }
}

void planGaps(ChartPlan& plan, const ChartSource& source, const ChartView& view) {
    const IntervalSet& silent = source.silences();
    const Inscriber inscriber{view};
    for (const Interval& piece : visiblePieces(silent, view)) {
        const auto [words, stand] = inscriber.inside(piece, [&] {
            return isWhole(silent, piece) ? say("no reading %1").arg(words::length(piece.length())) : QString{};
        });
        plan.gaps.push_back({piece, {}, words, stand});
    }
    planRibbons(plan, source, view);
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

void planStrips(ChartPlan& plan, const ChartSource& source, const ChartView& view) {
    const auto& criteria = source.review().criteria;
    for (const std::string& id : view.criteria) {
        const auto judged = std::ranges::find(criteria, id, [](const Judgement& one) { return one.criterion.id; });
        if (judged == criteria.end()) {
            continue;
        }
        const auto& hours = source.hoursOf(static_cast<std::size_t>(judged - criteria.begin()));
        plan.strips.push_back({words::text(id), words::text(judged->criterion.title), stripFigures(*judged),
                               visiblePieces(hours.credited, view), visiblePieces(hours.refused, view)});
    }
}

}  // namespace midden::ui
