// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/bin_heat.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "core/criteria/gap_rule.h"
#include "core/thermal/vent.h"

namespace midden {

namespace {

/// Both as for credited time. How long an outside reading speaks: common practice, no source.
constexpr HeatSettings settings{.maxGap = ordinaryMaxGap, .outsideReach = ordinaryMaxGap};

/// How long before a stall, and how long before its end, are looked at. Our own choice.
constexpr Seconds before = days(4);
constexpr Seconds lately = days(3);
/// Less heat than this part of what it was is falling; less than that part has stopped. Our own choice.
constexpr double stillUnchanged = 0.75;
constexpr double asGoodAsNothing = 0.25;
/// So much colder outside is a change in the weather, K. Our own choice.
constexpr double colder = 4;

std::vector<HeatPoint> pointsOf(const std::vector<Sample>& samples) {
    std::vector<HeatPoint> points;
    points.reserve(samples.size());
    for (const auto& sample : samples) {
        points.push_back({sample.at, sample.temperature().value()});
    }
    return points;
}

double median(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// Values of what ended after `within.from` and by `within.to`.
template <class Items, class End, class Value>
std::vector<double> valuesIn(const Items& items, Interval within, End endOf, Value valueOf) {
    std::vector<double> values;
    for (const auto& item : items) {
        if (endOf(item) > within.from && endOf(item) <= within.to) {
            values.push_back(valueOf(item));
        }
    }
    return values;
}

/// The excess over the air that the heat made would hold, q·τ, K.
std::optional<double> heldExcess(const BinHeat& heat, Interval within) {
    const auto rates = valuesIn(
        heat.rates, within, [](const HeatRate& rate) { return rate.to; },
        [](const HeatRate& rate) { return rate.rate; });
    return rates.empty() ? std::nullopt : std::optional{median(rates) * heat.tau.hours};
}

std::optional<double> meanOutside(const BinHeat& heat, Interval within) {
    const auto read = valuesIn(
        heat.series.outside, within, [](const HeatPoint& point) { return point.at; },
        [](const HeatPoint& point) { return point.celsius; });
    return read.empty()
               ? std::nullopt
               : std::optional{std::accumulate(read.begin(), read.end(), 0.0) / static_cast<double>(read.size())};
}

/// Heat and air before a stall and during it.
struct Comparison {
    double heldBefore = 0;
    double heldNow = 0;
    double outsideDrop = 0;
};

std::optional<Comparison> compare(const BinHeat& heat, const Stall& stall, Instant end) {
    const Interval earlier{stall.from - before, stall.from - Seconds{1}};
    const Interval now{std::max(stall.from, end - lately), end};
    const auto heldBefore = heldExcess(heat, earlier);
    const auto heldNow = heldExcess(heat, now);
    const auto outsideBefore = meanOutside(heat, earlier);
    const auto outsideNow = meanOutside(heat, now);
    if (!heldBefore || !heldNow || !outsideBefore || !outsideNow || *heldBefore <= 0) {
        return std::nullopt;
    }
    return Comparison{*heldBefore, *heldNow, *outsideBefore - *outsideNow};
}

HeatChange changeOf(const Comparison& comparison) {
    const double part = comparison.heldNow / comparison.heldBefore;
    if (part >= stillUnchanged) {
        return HeatChange::unchanged;
    }
    return part <= asGoodAsNothing ? HeatChange::stopped : HeatChange::falling;
}

std::string sentenceOf(HeatChange change, const Comparison& comparison) {
    switch (change) {
        case HeatChange::unknown:
            return {};
        case HeatChange::unchanged:
            return comparison.outsideDrop >= colder
                       ? fmt::format("The weather turned: it is {:.0f} °C colder outside. The heat made is unchanged.",
                                     comparison.outsideDrop)
                       : "The heat made is unchanged.";
        case HeatChange::falling:
            return fmt::format(
                "Heat-making is falling: enough to hold the bin {:.0f} °C above the air outside, before it was {:.0f} "
                "°C.",
                std::max(0.0, comparison.heldNow), comparison.heldBefore);
        case HeatChange::stopped:
            return "Heat-making has stopped.";
    }
    return {};
}

/// How much heat leaves with the air of a bin at 55 °C with 10 °C outside, and whether the balance has it.
std::string airWords(const Bin& bin, TauBasis basis) {
    constexpr double warm = 55;
    constexpr double cool = 10;
    const auto air = airThrough(bin, warm, cool);
    if (!air) {
        return fmt::format(
            "{} the heat that leaves with air, for nobody knows how much goes through: each cubic metre an hour that "
            "goes out saturated at {:.0f} °C, with {:.0f} °C outside, carries about {:.0f} W.",
            basis == TauBasis::coolDowns ? "Not told apart is" : "Left out, too, is", warm, cool,
            ventWatts(1, warm, cool));
    }
    const auto carried =
        fmt::format("{:.1f} m³ an hour: at {:.0f} °C, with {:.0f} °C outside, that carries about {:.0f} W",
                    air->cubicMetresAnHour, warm, cool, ventWatts(air->cubicMetresAnHour, warm, cool));
    const auto within = basis == TauBasis::coolDowns ? "What leaves with air is in the cool-downs it was taken from."
                        : basis == TauBasis::assumed ? "It is left out, for nothing is known of the walls."
                        : air->isMost                ? "The shorter end of the range has it."
                                                     : "It is in the reckoning.";
    return air->isMost
               ? fmt::format("Through its openings air can go at up to {}. A heap in the way lets far less through. {}",
                             carried, within)
               : fmt::format("By its changes of air it breathes out {}. {}", carried, within);
}

HeatSeries seriesOf(const BatchRecord& record, const std::vector<Round>& rounds) {
    HeatSeries series;
    series.bin.reserve(rounds.size());
    for (const auto& round : rounds) {
        series.bin.push_back({round.at, round.warmest.value()});
    }
    series.outside = pointsOf(record.outside);
    for (const auto& addition : record.additions) {
        series.disturbances.push_back(addition.when.at);
    }
    for (const auto& aeration : record.aerations) {
        series.disturbances.push_back(aeration.when.at);
    }
    std::sort(series.disturbances.begin(), series.disturbances.end());
    return series;
}

}  // namespace

BinHeat heatOf(const BatchRecord& record, const std::vector<Round>& rounds) {
    BinHeat heat{seriesOf(record, rounds), assumedTimeConstant, {}, {}};
    if (const auto fitted = timeConstantOfCoolDowns(heat.series, settings)) {
        heat.tau = *fitted;
    } else if (const auto reckoned = timeConstantOfWall(record.bin)) {
        heat.tau = *reckoned;
    }
    heat.rates = heatRates(heat.series, heat.tau, settings);
    heat.limits = heatBalanceLimits(record.bin, heat.tau.basis);
    return heat;
}

StallHeat heatDuring(const BinHeat& heat, const Stall& stall, Instant end) {
    StallHeat found;
    const auto next = std::find_if(heat.series.bin.rbegin(), heat.series.bin.rend(),
                                   [&](const HeatPoint& point) { return point.at <= end; });
    if (next != heat.series.bin.rend()) {
        if (const auto outside = outsideAt(heat.series.outside, next->at, settings.outsideReach)) {
            found.excess = next->celsius - *outside;
        }
    }
    const auto latest = std::find_if(heat.rates.rbegin(), heat.rates.rend(),
                                     [&](const HeatRate& rate) { return rate.to <= end && rate.to >= stall.from; });
    if (latest != heat.rates.rend()) {
        found.rate = *latest;
        found.tau = heat.tau;
    }
    if (const auto comparison = compare(heat, stall, end)) {
        found.change = changeOf(*comparison);
        found.isWeather = found.change == HeatChange::unchanged && comparison->outsideDrop >= colder;
        found.sentence = sentenceOf(found.change, *comparison);
    }
    return found;
}

std::string wordsOf(const TimeConstant& tau) {
    auto range = fmt::format("about {:.0f} h ({:.0f} to {:.0f})", tau.hours, tau.low, tau.high);
    switch (tau.basis) {
        case TauBasis::coolDowns:
            return range + fmt::format(", from a cool-down of {} readings", tau.readings);
        case TauBasis::wall:
            return range +
                   ", reckoned from volume and insulation: the material's heat capacity over the wall's heat loss";
        case TauBasis::assumed:
            return range + ", assumed: nothing is known of the bin's insulation yet";
    }
    return range;
}

std::string wordsOf(const BinHeat& heat) {
    if (heat.rates.empty()) {
        return {};
    }
    const auto& rate = heat.rates.back();
    return fmt::format("It warmed itself by about {:.2f} °C per hour ({:.2f} to {:.2f}), had nothing been lost",
                       rate.rate, rate.low, rate.high);
}

std::string heatBalanceLimits(const Bin& bin, TauBasis basis) {
    std::string words =
        "The bin is taken as one lump: that its middle is hotter than its edge, steam, wind, drying and slumping are "
        "left out, and one outside reading stands for the air of a day. ";
    words += airWords(bin, basis);
    if (isPoorLump(bin)) {
        words += " Its walls are bare: the edge is far colder than the middle, and one lump is a poor picture of it.";
    }
    return words;
}

}  // namespace midden
