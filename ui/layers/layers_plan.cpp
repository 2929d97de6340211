// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/layers/layers_plan.h"

#include "ui/layers/layers_beside.h"
#include "ui/layers/layers_marks.h"
#include "ui/layers/layers_strips.h"
#include "ui/layers/layers_words.h"

namespace midden::ui {

HeatTone toneOf(const LayerThen& layer, const LayerOrigin& origin) {
    if (!origin.raw) {
        return HeatTone::notRaw;
    }
    if (layer.atLeast.count <= 0) {
        return HeatTone::none;
    }
    auto tone = static_cast<std::uint8_t>(HeatTone::some);
    for (const int contour : contourHours) {
        tone = static_cast<std::uint8_t>(tone + (layer.atLeast >= hours(contour) ? 1 : 0));
    }
    return static_cast<HeatTone>(tone);
}

LayersPlan layersPlan(const LayersSource& source, const LayersFrame& frame) {
    LayersPlan plan;
    plan.layout = layoutOf(source, frame);
    planAxes(plan, source, frame);
    plan.hotAt = hotAtWords(source, frame.unit);
    plan.legend = legendOf(source, frame, plan.layout.plot.width());
    for (LayersKey& key : plan.legend) {
        key.swatch += plan.layout.legend.topLeft() + QPointF{0, frame.line + 3};
    }
    if (source.isEmpty()) {
        return plan;
    }
    planHeap(plan, source);
    planEvents(plan, source, frame);
    planCut(plan, source, frame);
    planThermometers(plan, source, frame);
    return plan;
}

}  // namespace midden::ui
