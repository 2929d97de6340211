// SPDX-License-Identifier: GPL-3.0-or-later
// The next round's temperature as a band whose width is the error the same reckoning made on the rounds before.
#include <algorithm>
#include <cmath>

#include "core/review/outlook.h"
#include "core/thermal/trend.h"

namespace midden {

namespace {

/// Rounds that are looked back on. A bin of last month says little of today.
constexpr std::size_t mostRounds = 60;
/// Half of the trend is carried on: between "as it was" and "as it went", neither of which can be relied on.
constexpr double carriedOn = 0.5;

std::vector<HeatPoint> latest(const std::vector<Round>& rounds) {
    const auto first = rounds.size() > mostRounds ? rounds.end() - mostRounds : rounds.begin();
    std::vector<HeatPoint> points;
    std::transform(first, rounds.end(), std::back_inserter(points), [](const Round& round) {
        return HeatPoint{round.at, round.warmest.value()};
    });
    return points;
}

/// What `known` says of the temperature at `at`, which is later.
double expected(std::span<const HeatPoint> known, Instant at, Seconds window) {
    const auto& last = known.back();
    const auto first =
        std::find_if(known.begin(), known.end(), [&](const HeatPoint& point) { return last.at - point.at <= window; });
    const auto trend = trendOf({first, known.end()});
    return last.celsius + (trend ? carriedOn * trend->perHour * (at - last.at).hours() : 0);
}

double quantile(std::vector<double> values, double part) {
    std::sort(values.begin(), values.end());
    return values[static_cast<std::size_t>(part * static_cast<double>(values.size() - 1) + 0.999)];
}

}  // namespace

std::optional<Projection> projectionOf(const std::vector<Round>& rounds, const OutlookSettings& settings) {
    const auto points = latest(rounds);
    std::vector<double> errors;
    std::vector<double> steps;
    for (std::size_t next = 2; next < points.size(); ++next) {
        const Seconds step = points[next].at - points[next - 1].at;
        if (step <= settings.stalls.target.maxGap) {
            const std::span known{points.begin(), points.begin() + static_cast<std::ptrdiff_t>(next)};
            errors.push_back(std::abs(expected(known, points[next].at, settings.trend) - points[next].celsius));
            steps.push_back(static_cast<double>(step.count));
        }
    }
    if (errors.empty() || errors.size() < settings.leastBackTests) {
        return std::nullopt;
    }
    Projection projection;
    projection.from = points.back();
    projection.at = points.back().at + Seconds{std::llround(quantile(steps, 0.5))};
    projection.error = quantile(errors, 0.8);
    projection.backTests = errors.size();
    const double middle = expected(points, projection.at, settings.trend);
    projection.low = middle - projection.error;
    projection.high = middle + projection.error;
    return projection;
}

}  // namespace midden
