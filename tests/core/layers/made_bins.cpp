// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/layers/made_bins.h"

#include <algorithm>
#include <cmath>
#include <random>

namespace midden::testing {

namespace {

class Dice {
  public:
    explicit Dice(std::uint64_t seed) : engine_{seed} {}

    /// From `least` to the one before `end`.
    int from(int least, int end) {
        return least + static_cast<int>(engine_() % static_cast<std::uint64_t>(end - least));
    }
    bool oneIn(int chances) { return from(0, chances) == 0; }
    /// Tenths.
    double tenths(double least, double end) {
        return from(static_cast<int>(least * 10), static_cast<int>(end * 10)) / 10.0;
    }

  private:
    std::mt19937_64 engine_;
};

/// What a simple bin would hold then: no cut, no models side by side. Only so that levels make some sense.
double litresAt(const FedRecord& entries, Instant at) {
    double litres = 0;
    for (const auto& addition : entries.additions) {
        if (addition.at <= at) {
            const double age = (at - addition.at).hours() / 24;
            litres += addition.litres * (0.3 + 0.7 * std::exp(-age / 20));
        }
    }
    for (const auto& drawing : entries.drawings) {
        litres -= drawing.at <= at ? drawing.litres * 0.9 : 0;
    }
    return std::max(litres, 0.0);
}

void feed(MadeBin& bin, Dice& dice, int length) {
    const int meals = dice.from(1, 4);
    for (int hour = dice.from(0, 30); hour < length; hour += dice.from(1, 120)) {
        for (int meal = dice.from(0, meals); meal >= 0; --meal) {
            const auto at = firstDay + hours(hour + meal * dice.from(0, 13));
            bin.entries.additions.push_back({at, dice.tenths(0.2, dice.oneIn(6) ? 60 : 15), !dice.oneIn(5)});
        }
    }
}

void moveLayers(MadeBin& bin, Dice& dice, int length) {
    for (int moves = dice.from(0, 6); moves > 0; --moves) {
        const auto at = firstDay + hours(dice.from(0, length));
        const int kind = dice.from(0, 5);
        if (kind == 0) {
            bin.entries.mixings.push_back({at, false, {}});
        } else if (kind < 3) {
            const auto depth = dice.oneIn(4) ? std::nullopt : std::optional{dice.tenths(1, 50)};
            bin.entries.mixings.push_back({at, true, depth});
        } else {
            bin.entries.drawings.push_back({at, dice.tenths(1, dice.oneIn(8) ? 300 : 25)});
        }
    }
}

void level(MadeBin& bin, Dice& dice, int length) {
    const double perCm = bin.entries.litresPerCm().value_or(2.5);
    for (int hour = dice.from(0, 100); hour < length; hour += dice.from(12, dice.oneIn(4) ? 500 : 200)) {
        const auto at = firstDay + hours(hour);
        const double off = dice.oneIn(6) ? dice.tenths(0.3, 2.5) : 0.9 + 0.02 * dice.from(0, 11);
        bin.entries.levels.push_back({at, std::round(litresAt(bin.entries, at) / perCm * off * 10) / 10});
    }
}

std::vector<Sample> readings(Dice& dice, int length) {
    std::vector<Sample> samples;
    const int usual = dice.from(48, 72);
    const int step = dice.from(2, 20);
    const bool together = dice.oneIn(2);
    for (int hour = together ? 0 : dice.from(0, 20); hour < length;) {
        const auto allowance = Kelvins::ofTenThousandths(dice.oneIn(3) ? 5'000 : 10'000);
        const int tenths = usual * 10 + dice.from(-60, 61);
        samples.emplace_back(firstDay + hours(hour), Celsius::ofTenThousandths(std::int64_t{1'000} * tenths),
                             allowance);
        hour += dice.oneIn(30) ? 40 : together ? step : dice.from(1, 2 * step);
    }
    return samples;
}

}  // namespace

FedRecord MadeBin::record() const {
    auto made = entries;
    made.positions.clear();
    for (std::size_t i = 0; i < samples.size(); ++i) {
        made.positions.push_back({heightsCm[i], samples[i]});
    }
    return made;
}

MadeBin emptyBin() {
    using namespace literals;
    MadeBin bin;
    bin.entries.binLitres = 250;
    bin.entries.binHeightCm = 100;
    bin.entries.threshold = 55_degC;
    bin.entries.hold = hours(72);
    return bin;
}

MadeBin someBin(std::uint64_t seed) {
    Dice dice{seed};
    auto bin = emptyBin();
    const int length = 24 * dice.from(dice.oneIn(3) ? 2 : 14, 45);
    bin.entries.asOf = firstDay + hours(dice.oneIn(4) ? dice.from(1, length) : length + 40);
    bin.entries.hold = hours(dice.from(10, 100));
    bin.entries.binHeightCm = dice.tenths(50, 120);
    if (dice.oneIn(15)) {
        bin.entries.binHeightCm.reset();
    }
    bin.entries.hatchTopCm = dice.oneIn(2) ? 0 : dice.tenths(0, 30);
    feed(bin, dice, length);
    moveLayers(bin, dice, length);
    level(bin, dice, length);
    for (int positions = dice.from(1, 5); positions > 0; --positions) {
        const auto height = dice.oneIn(12) ? std::nullopt : std::optional{dice.tenths(0, 45)};
        bin.heightsCm.push_back(height);
        bin.samples.push_back(readings(dice, length));
    }
    return bin;
}

}  // namespace midden::testing
