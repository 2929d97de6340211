// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/feeding_advice.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "core/layers/feed_need.h"
#include "core/review/rounds.h"
#include "core/thermal/interval.h"
#include "core/thermal/vent.h"

namespace midden {

namespace {

constexpr Seconds lookedBack = days(28);
constexpr double secondsAWeek = 7 * 86'400.0;

/// A bin tells of itself from so many feeds on, in stretches of so many. Our own choice.
constexpr std::size_t leastFeeds = 10;
constexpr std::size_t feedsAStretch = 4;
/// A stretch that was no warmer than this above the air tells nothing, K. Our own choice.
constexpr double leastExcess = 5;

/// The values that part a triangle over [low, high] with its top at `most` into equal shares, at the middle of each.
constexpr std::size_t shares = 8;
std::array<double, shares> triangle(double low, double most, double high) {
    const double rising = (most - low) / (high - low);
    std::array<double, shares> values{};
    for (std::size_t share = 0; share < shares; ++share) {
        const double part = (static_cast<double>(share) + 0.5) / shares;
        values[share] = part < rising ? low + std::sqrt(part * (high - low) * (most - low))
                                      : high - std::sqrt((1 - part) * (high - low) * (high - most));
    }
    return values;
}

/// W/m²K of the insulation and both air films.
double wallConductance(const Bin& bin) {
    constexpr double film = 0.17;  // m²K/W, as for the time constant
    return 1 / (*bin.insulationMillimetres / 1'000 / *bin.conductivityWattsPerMetreKelvin + film);
}

bool isKnown(const std::optional<double>& value) {
    return value && *value > 0;
}

WeeklyBand bandOf(std::vector<double> values) {
    std::ranges::sort(values);
    const auto at = [&](double part) {
        return values[static_cast<std::size_t>(part * static_cast<double>(values.size() - 1) + 0.5)];
    };
    return {at(0.1), at(0.5), at(0.9)};
}

std::optional<double> meanOutside(const BatchRecord& record, Interval within) {
    double sum = 0;
    int count = 0;
    for (const Sample& sample : record.outside) {
        if (sample.at > within.from && sample.at <= within.to) {
            sum += sample.temperature().value();
            ++count;
        }
    }
    return count == 0 ? std::nullopt : std::optional{sum / count};
}

double kilogramsIn(const BatchRecord& record, Interval within) {
    double sum = 0;
    for (const Addition& addition : record.additions) {
        if (addition.when.at > within.from && addition.when.at <= within.to) {
            sum += addition.massKilograms;
        }
    }
    return sum;
}

/// How much the bin's warmest rounds stood above the air in a stretch, K.
std::optional<double> excessIn(const std::vector<Round>& rounds, const BatchRecord& record, Interval within) {
    const auto outside = meanOutside(record, within);
    const auto first = std::ranges::upper_bound(rounds, within.from, {}, &Round::at);
    const auto last = std::ranges::upper_bound(rounds, within.to, {}, &Round::at);
    if (!outside || first == last) {
        return std::nullopt;
    }
    const double sum =
        std::accumulate(first, last, 0.0, [](double s, const Round& round) { return s + round.warmest.value(); });
    return sum / static_cast<double>(last - first) - *outside;
}

/// What a week of feeding at the rate of each stretch would have to be for the target, were warmth in step with food.
std::vector<double> ownNeeds(const BatchRecord& record, Instant end, double warmerBy, const StallSettings& settings) {
    const std::vector<Instant> feeds = feedTimesOf(record, end);
    if (feeds.size() <= leastFeeds) {
        return {};
    }
    const std::vector<Round> rounds = roundsOf(record, settings.round);
    std::vector<double> needs;
    for (std::size_t first = (feeds.size() - 1) % feedsAStretch; first + feedsAStretch < feeds.size();
         first += feedsAStretch) {
        const Interval stretch{feeds[first], feeds[first + feedsAStretch]};
        const auto excess = excessIn(rounds, record, stretch);
        if (excess && *excess >= leastExcess) {
            // What was fed at its end warms the stretch after it.
            const double fed = kilogramsIn(record, {stretch.from - Seconds{1}, stretch.to - Seconds{1}});
            needs.push_back(fed / static_cast<double>(stretch.length().count) * secondsAWeek * warmerBy / *excess);
        }
    }
    return needs;
}

/// The band, as far as the bin's own past lets it be narrower.
WeeklyBand narrowed(const WeeklyBand& walls, std::vector<double> needs, OwnResponse& own) {
    if (needs.size() * feedsAStretch < leastFeeds - 2) {
        return walls;
    }
    std::ranges::sort(needs);
    const double low = std::max(walls.low, needs.front());
    const double high = std::min(walls.high, needs.back());
    if (low > high) {
        own = OwnResponse::disagrees;
        return walls;
    }
    own = OwnResponse::narrows;
    return {low, std::clamp(needs[needs.size() / 2], low, high), high};
}

}  // namespace

std::vector<Instant> feedTimesOf(const BatchRecord& record, Instant end) {
    std::vector<FedAddition> additions;
    for (const Addition& addition : record.additions) {
        if (addition.when.at > end) {
            continue;
        }
        additions.push_back({addition.when.at, std::max(addition.massKilograms, 1e-6), true});
    }
    std::vector<Instant> times;
    for (const Feed& feed : feedsOf(std::move(additions), LayerRules{})) {
        times.push_back(feed.at);
    }
    return times;
}

double ventShare(double insideCelsius, double outsideCelsius) {
    constexpr double oxygenInAir = 0.2314;          // by mass; from memory
    constexpr double kilojoulesAKilogram = 14'000;  // of oxygen
    constexpr double humidityOutside = 0.8;
    const double gained = moistAirEnthalpy(insideCelsius, 1.0) - moistAirEnthalpy(outsideCelsius, humidityOutside);
    return gained / oxygenInAir / kilojoulesAKilogram;
}

std::optional<WeeklyBand> weeklyBand(const Bin& bin, double targetCelsius, double outsideCelsius) {
    if (!isKnown(bin.volumeLitres) || !isKnown(bin.insulationMillimetres) ||
        !isKnown(bin.conductivityWattsPerMetreKelvin)) {
        return std::nullopt;
    }
    constexpr double withLidAndJoints = 1.27;
    const double edge = std::cbrt(*bin.volumeLitres / 1'000);
    FeedNeed need;
    need.surfaceSquareMetres = 6 * edge * edge;
    need.warmerBy = std::max(0.0, targetCelsius - outsideCelsius);
    need.ventShare = ventShare(targetCelsius, outsideCelsius);
    std::vector<double> weeks;
    for (const double walls : triangle(0.8, 1, 1.25)) {
        need.wallWattsPerSquareMetreKelvin = wallConductance(bin) * withLidAndJoints * walls;
        for (const double hot : triangle(0.3, 0.5, 0.7)) {
            need.hotShare = hot;
            for (const double heat : triangle(1.8, 2.5, 3.6)) {
                need.heatPerKilogram = heat;
                for (const double air : triangle(2, 3, 5)) {
                    need.airTimesNeeded = air;
                    weeks.push_back(kilogramsAWeek(need).value_or(HUGE_VAL));
                }
            }
        }
    }
    const WeeklyBand band = bandOf(std::move(weeks));
    return std::isfinite(band.high) ? std::optional{band} : std::nullopt;
}

FeedingAdvice feedingAdviceOf(const BatchRecord& record, const HoldTarget& target, Instant end) {
    FeedingAdvice advice;
    advice.target = target.threshold;
    advice.outside = meanOutside(record, {end - lookedBack, end});
    const Instant from = std::max(record.batch.started.at - Seconds{1}, end - lookedBack);
    const double weeks = std::max(1.0, static_cast<double>((end - from).count) / secondsAWeek);
    advice.fedAWeek = kilogramsIn(record, {from, end}) / weeks;
    if (!isKnown(record.bin.volumeLitres)) {
        advice.lacking.push_back(AdviceLacking::volume);
    }
    if (!isKnown(record.bin.insulationMillimetres) || !isKnown(record.bin.conductivityWattsPerMetreKelvin)) {
        advice.lacking.push_back(AdviceLacking::insulation);
    }
    if (!advice.outside) {
        advice.lacking.push_back(AdviceLacking::outside);
    }
    if (!advice.lacking.empty()) {
        return advice;
    }
    const auto walls = weeklyBand(record.bin, target.threshold.value(), *advice.outside);
    if (!walls) {
        advice.lacking.push_back(AdviceLacking::tooMuchAir);
        return advice;
    }
    const double warmerBy = target.threshold.value() - *advice.outside;
    advice.week = narrowed(*walls, ownNeeds(record, end, warmerBy, StallSettings{}), advice.own);
    return advice;
}

}  // namespace midden
