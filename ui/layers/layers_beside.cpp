// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/layers/layers_beside.h"

#include <QCoreApplication>
#include <algorithm>

#include "ui/layers/layers_words.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr double thinnestSeamed = 3;

QString tr(const char* words) {
    return QCoreApplication::translate("LayersPlan", words);
}

/// "96 h", "96–110 h"
QString hoursBetween(Seconds least, Seconds most) {
    const auto whole = [](Seconds time) { return QString::number(time.count / 3'600); };
    return whole(least) == whole(most) ? tr("%1 h").arg(whole(least)) : tr("%1–%2 h").arg(whole(least), whole(most));
}

QString degreesOn(const LayersFrame& frame, Celsius temperature) {
    return frame.onPaper ? numberOn(frame, temperature.value(), 1) + QStringLiteral(" °C")
                         : words::withUnit(temperature, frame.unit);
}

double yWithin(const LayersPlan& plan, double litres) {
    return std::clamp(plan.layout.yOf(litres), plan.layout.plot.top(), plan.layout.plot.bottom());
}

/// From the top down words keep clear of one another; those pushed below the floor push back up.
void spread(std::vector<LayersThermometer>& thermometers, double apart, double lowest) {
    std::ranges::sort(thermometers, {}, &LayersThermometer::y);
    for (std::size_t i = 0; i < thermometers.size(); ++i) {
        auto& each = thermometers[i];
        each.labelY = i == 0 ? each.y : std::max(each.y, thermometers[i - 1].labelY + apart);
    }
    double free = lowest;
    for (auto each = thermometers.rbegin(); each != thermometers.rend(); ++each) {
        each->labelY = std::min(each->labelY, free);
        free = each->labelY - apart;
    }
}

}  // namespace

void planCut(LayersPlan& plan, const LayersSource& source, const LayersFrame& frame) {
    plan.cutTitle = tr("now");
    const auto& layers = source.now().layers;
    const auto& origins = source.history.origins;
    const QRectF cut = plan.layout.cut;
    for (std::size_t first = 0; first < layers.size();) {
        const HeatTone tone = toneOf(layers[first], origins[layers[first].id]);
        Seconds least = layers[first].atLeast;
        Seconds most = least;
        auto last = first;
        while (last + 1 < layers.size() && toneOf(layers[last + 1], origins[layers[last + 1].id]) == tone) {
            ++last;
            least = std::min(least, layers[last].atLeast);
            most = std::max(most, layers[last].atLeast);
        }
        const double top = plan.layout.yOf(layers[last].toLitres);
        const double bottom = plan.layout.yOf(layers[first].fromLitres);
        LayersCut part{tone, {cut.left(), top, cut.width(), bottom - top}, {}};
        const QString label = tone == HeatTone::notRaw ? QString{} : hoursBetween(least, most);
        if (source.litresPerCm && part.area.height() >= frame.line && frame.textWidth(label) <= cut.width() - 4) {
            part.label = label;
        }
        plan.cut.push_back(part);
        first = last + 1;
    }
    for (std::size_t i = 1; i < layers.size(); ++i) {
        const double y = plan.layout.yOf(layers[i].fromLitres);
        if (plan.layout.yOf(layers[i - 1].fromLitres) - y >= thinnestSeamed) {
            plan.cutSeams.push_back(y);
        }
    }
    if (!layers.empty()) {
        plan.bucketTop = yWithin(plan, std::min(bucketLitres, source.now().surfaceLitres()));
        plan.bucketLabel = tr("%1 L").arg(numberOn(frame, bucketLitres, 0));
    }
    if (source.hatchTopCm > 0 && source.litresPerCm) {
        plan.hatchTop = yWithin(plan, source.hatchTopCm * *source.litresPerCm);
        plan.hatchLabel = tr("hatch");
    }
}

void planThermometers(LayersPlan& plan, const LayersSource& source, const LayersFrame& frame) {
    if (!source.litresPerCm) {
        return;
    }
    for (const LayersPosition& position : source.positions) {
        if (position.heightCm) {
            const double y = plan.layout.yOf(*position.heightCm * *source.litresPerCm);
            plan.thermometers.push_back({position.look, y, y, position.name,
                                         position.last ? degreesOn(frame, position.last->temperature()) : QString{},
                                         false});
        }
    }
    if (source.gap) {
        const double y = plan.layout.yOf(source.gap->helpsAtCm * *source.litresPerCm);
        plan.thermometers.push_back({0, y, y, missingWords(), {}, true});
    }
    spread(plan.thermometers, 2 * frame.line, plan.layout.plot.bottom() - frame.line);
}

}  // namespace midden::ui
