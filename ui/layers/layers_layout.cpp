// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/layers/layers_layout.h"

#include <algorithm>
#include <cmath>

#include "ui/layers/layers_plan.h"
#include "ui/layers/layers_words.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr double airAbove = 1.14;  // room for what is dropped in
constexpr double cutShare = 0.085;
constexpr double narrowestCut = 52;
constexpr double widestCut = 84;
constexpr double beforeCut = 48;
constexpr double widestNames = 150;

double highestLitres(const LayersSource& source) {
    double highest = 1;
    for (const LayerColumn& column : source.history.columns) {
        highest = std::max(highest, column.surfaceLitres());
    }
    const double perCm = source.litresPerCm.value_or(0);
    for (const LayerEvent& event : source.history.events) {
        if (event.kind == EventKind::level) {
            highest = std::max(highest, *event.amount * perCm);
        }
    }
    for (const LayersPosition& position : source.positions) {
        highest = std::max(highest, position.heightCm.value_or(0) * perCm);
    }
    return highest * airAbove;
}

Interval visibleOf(const LayersSource& source) {
    if (source.isEmpty()) {
        return {source.asOf - days(1), source.asOf};
    }
    const Instant first = source.history.columns.front().at;
    const Seconds air{std::max<std::int64_t>(3'600, (source.asOf - first).count / 100)};
    return {first - air, source.asOf};
}

double namesWidth(const LayersSource& source, const LayersFrame& frame) {
    double widest = frame.textWidth(QStringLiteral("000.0 °C"));
    if (source.gap) {
        widest = std::max(widest, frame.textWidth(missingWords()));
    }
    for (const LayersPosition& position : source.positions) {
        widest = std::max(widest, frame.textWidth(position.name));
    }
    return std::ceil(std::min(widest, widestNames) + 22);
}

}  // namespace

QString numberOn(const LayersFrame& frame, double number, int decimals) {
    return frame.onPaper ? QString::number(number, 'f', decimals) : words::number(number, decimals);
}

std::vector<LayersKey> legendOf(const LayersSource& source, const LayersFrame& frame, double width) {
    std::vector<LayersKey> keys;
    QPointF place;
    for (std::size_t tone = 0; tone < tones; ++tone) {
        LayersKey key{static_cast<HeatTone>(tone), {}, toneWords(static_cast<HeatTone>(tone))};
        const bool isSeen =
            key.tone != HeatTone::notRaw || !std::ranges::all_of(source.history.origins, &LayerOrigin::raw);
        if (!isSeen) {
            continue;
        }
        const double wide = swatchWidth + besideSwatch + frame.textWidth(key.words);
        if (place.x() > 0 && place.x() + wide > width) {
            place = {0, place.y() + frame.line + 4};
        }
        key.swatch = place;
        place.rx() += wide + betweenKeys;
        keys.push_back(std::move(key));
    }
    return keys;
}

LayersLayout layoutOf(const LayersSource& source, const LayersFrame& frame) {
    LayersLayout layout;
    layout.visible = visibleOf(source);
    layout.topLitres = highestLitres(source);
    const double left = std::ceil(frame.textWidth(QStringLiteral("0000")) + 10);
    const double cutWidth = std::clamp(std::round(frame.size.width() * cutShare), narrowestCut, widestCut);
    const double names = namesWidth(source, frame);
    const double width = std::max(60.0, std::floor(frame.size.width() - left - beforeCut - cutWidth - names));
    const double rows = legendOf(source, frame, width).back().swatch.y();
    const double legendHeight = std::ceil(2 * frame.line + rows + 17);
    const double takenHeight = std::ceil(frame.line + 14);
    const double timesHeight = std::ceil(frame.line + 8);
    const double height =
        std::max(40.0, std::floor(frame.size.height() - legendHeight - takenHeight - timesHeight - 2));
    layout.legend = {left, 3, width, legendHeight - 3};
    layout.plot = {left, legendHeight, width, height};
    layout.taken = {left, layout.plot.bottom(), width, takenHeight};
    layout.times = {left, layout.taken.bottom(), width, timesHeight};
    layout.cut = {layout.plot.right() + beforeCut, layout.plot.top(), cutWidth, height};
    layout.names = {layout.cut.right() + 8, layout.plot.top(), names - 8, height};
    return layout;
}

double LayersLayout::xOf(Instant at) const {
    return plot.left() +
           static_cast<double>((at - visible.from).count) * plot.width() / static_cast<double>(visible.length().count);
}

double LayersLayout::yOf(double litres) const {
    return plot.bottom() - litres / topLitres * plot.height();
}

Instant LayersLayout::instantAt(double x) const {
    const double way = std::clamp((x - plot.left()) / plot.width(), 0.0, 1.0);
    return visible.from + Seconds{std::llround(way * static_cast<double>(visible.length().count))};
}

double LayersLayout::litresAt(double y) const {
    return (plot.bottom() - y) / plot.height() * topLitres;
}

}  // namespace midden::ui
