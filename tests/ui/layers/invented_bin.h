// SPDX-License-Identifier: GPL-3.0-or-later
// Fed bins for pictures: fed, levelled, forked, drawn from and read by rule, with nothing left to chance.
#pragma once

#include <cmath>

#include "tests/core/layers/made_bins.h"
#include "ui/layers/layers_source.h"

namespace midden::testing {

inline double openShare(double days) {
    return 0.3 + 0.7 * std::exp(-days / 20);
}

/// The litres a plain bin would hold then.
inline double litresIn(const FedRecord& entries, double day) {
    double litres = 0;
    for (const FedAddition& addition : entries.additions) {
        const double age = day - (addition.at - firstDay).hours() / 24;
        litres += age >= 0 ? addition.litres * openShare(age) : 0;
    }
    for (const Drawing& drawing : entries.drawings) {
        litres -= (drawing.at - firstDay).hours() / 24 <= day ? drawing.litres : 0;
    }
    return std::max(litres, 0.0);
}

/// Hottest a hand and a half under the surface, once there is enough of it; the first month is cool.
inline double degreesAt(const FedRecord& entries, double day, double height) {
    const double surface = litresIn(entries, day) / 2.5;
    const double depth = surface - height;
    const double warmth = std::min(1.0, 0.35 + day / 75) * (1 + 0.06 * std::sin(day / 3.1));
    return 16 + 50 * warmth * std::exp(-std::pow((depth - 20) / 24, 2));
}

inline void readTwiceADay(MadeBin& bin, int days, const std::vector<double>& heights) {
    for (const double height : heights) {
        bin.heightsCm.push_back(height);
        bin.samples.emplace_back();
        for (int half = 1; half < 2 * days; ++half) {
            const double day = half / 2.0 + 0.02 * (half % 5);
            const auto tenths = std::llround(10 * degreesAt(bin.entries, day, height));
            bin.samples.back().emplace_back(dayNumber(day), Celsius::ofTenThousandths(tenths * 1'000),
                                            Kelvins::ofTenThousandths(5'000));
        }
    }
}

/// Of five months: fed twice a week, forked once, three harvests, a level every week.
inline MadeBin gardenBin() {
    auto bin = emptyBin();
    for (int feed = 0; feed < 43; ++feed) {
        bin.entries.additions.push_back({dayNumber(feed * 3.5), 14.0 + feed % 3, true});
    }
    bin.entries.hatchTopCm = 14;
    bin.entries.mixings = {{dayNumber(72.3), true, 25.0}};
    bin.entries.drawings = {{dayNumber(108.4), 28}, {dayNumber(130.4), 28}, {dayNumber(139.4), 28}};
    for (int week = 1; week <= 21; ++week) {
        const double day = week * 7 - 0.4;
        bin.entries.levels.push_back({dayNumber(day), std::round(litresIn(bin.entries, day) / 2.5)});
    }
    readTwiceADay(bin, 150, {22, 45, 72});
    bin.entries.asOf = dayNumber(150);
    return bin;
}

/// Ten feeds, one layer each.
inline MadeBin tenLayers() {
    auto bin = emptyBin();
    for (int feed = 0; feed < 10; ++feed) {
        bin.entries.additions.push_back({dayNumber(feed * 4), 12, feed != 2});
    }
    for (int day = 3; day < 48; day += 5) {
        bin.entries.levels.push_back({dayNumber(day), std::round(litresIn(bin.entries, day) / 2.5)});
    }
    bin.entries.hatchTopCm = 10;
    readTwiceADay(bin, 48, {12, 30});
    bin.entries.asOf = dayNumber(48);
    return bin;
}

inline MadeBin thousandLayers() {
    auto bin = emptyBin();
    for (int feed = 0; feed < 1'000; ++feed) {
        bin.entries.additions.push_back({dayNumber(feed * 0.55), 0.6, true});
    }
    for (int day = 5; day < 550; day += 10) {
        bin.entries.levels.push_back({dayNumber(day), std::round(litresIn(bin.entries, day) / 2.5)});
    }
    readTwiceADay(bin, 550, {20, 38, 56});
    bin.entries.asOf = dayNumber(550);
    return bin;
}

inline ui::LayersPtr sourceOf(const MadeBin& bin) {
    const std::vector<QString> names{QStringLiteral("base"), QStringLiteral("core"), QStringLiteral("top")};
    return ui::layersSource(bin.record(), names);
}

}  // namespace midden::testing
