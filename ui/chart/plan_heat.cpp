// SPDX-License-Identifier: GPL-3.0-or-later
// What the heat panel shows.
#include <QCoreApplication>
#include <algorithm>
#include <array>
#include <cmath>

#include "ui/chart/plan_parts.h"

namespace midden::ui {

namespace {

constexpr double fewestLines = 2;
constexpr double degreesFahrenheitPerKelvin = 1.8;

QString say(const char* words) {
    return QCoreApplication::translate("ChartPlan", words);
}

/// Steps narrower than a pixel are drawn as one: the mean rate, the widest band.
void take(std::vector<ChartHeatStep>& steps, const ChartHeatStep& step, double secondsPerPixel) {
    if (!steps.empty()) {
        ChartHeatStep& last = steps.back();
        const bool isNear = static_cast<double>((step.interval.from - last.interval.to).count) < secondsPerPixel;
        const bool isNarrow = static_cast<double>(last.interval.length().count) < secondsPerPixel;
        if (isNear && isNarrow) {
            const auto before = static_cast<double>(last.interval.length().count);
            const auto added = static_cast<double>(step.interval.length().count);
            last.rate = (last.rate * before + step.rate * added) / (before + added);
            last.low = std::min(last.low, step.low);
            last.high = std::max(last.high, step.high);
            last.interval.to = step.interval.to;
            return;
        }
    }
    steps.push_back(step);
}

/// Lines at 1, 2 or 5 times a power of ten.
void scale(ChartHeat& heat) {
    double lowest = 0;
    double highest = 0;
    for (const ChartHeatStep& step : heat.steps) {
        lowest = std::min(lowest, step.rate);
        highest = std::max(highest, step.rate);
    }
    // A band as wide as three times its curve is cut off, so that the curve can still be read.
    const double room = std::max(0.1, highest - lowest);
    for (const ChartHeatStep& step : heat.steps) {
        lowest = std::min(lowest, std::max(step.low, -room));
        highest = std::max(highest, std::min(step.high, highest + room / 2));
    }
    const double wanted = (highest - lowest) / (fewestLines + 0.5);
    const double power = std::pow(10, std::floor(std::log10(wanted)));
    constexpr std::array steps{1.0, 2.0, 5.0, 10.0};
    heat.tick = *std::ranges::find_if(steps, [&](double one) { return one * power >= wanted * 0.99; }) * power;
    heat.lowest = std::floor(lowest / heat.tick - 1e-9) * heat.tick;
    heat.highest = std::ceil(highest / heat.tick + 1e-9) * heat.tick;
    heat.decimals = heat.tick < 0.1 ? 2 : heat.tick < 1 ? 1 : 0;
}

}  // namespace

void planHeat(ChartPlan& plan, const BinHeat& heat, const ChartView& view) {
    const double secondsPerPixel = static_cast<double>(view.visible.length().count) / std::max(1.0, view.width);
    const double perKelvin = view.unit == TemperatureUnit::celsius ? 1 : degreesFahrenheitPerKelvin;
    for (const HeatRate& rate : heat.rates) {
        if (rate.to > view.visible.from && rate.from < view.visible.to) {
            take(plan.heat.steps,
                 {{rate.from, rate.to}, rate.rate * perKelvin, rate.low * perKelvin, rate.high * perKelvin},
                 secondsPerPixel);
        }
    }
    if (plan.heat.steps.empty()) {
        return;
    }
    scale(plan.heat);
    plan.heat.caption =
        say("heat it made, %1 per hour if none were lost; a rough sum without drying, steam, wind or lid")
            .arg(plan.unitLabel);
}

}  // namespace midden::ui
