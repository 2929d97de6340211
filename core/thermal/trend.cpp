// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/trend.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace midden {

namespace {

double median(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    if (values.size() % 2 == 1) {
        return *middle;
    }
    return (*middle + *std::max_element(values.begin(), middle)) / 2;
}

}  // namespace

std::optional<Instant> Trend::reaches(double level, Instant from) const {
    const double above = at(from) - level;
    constexpr double tooFar = 24.0 * 365;  // hours; a year ahead is never
    if (above < 0 || perHour >= 0 || above / -perHour > tooFar) {
        return std::nullopt;
    }
    return from + Seconds{std::llround(above / -perHour * 3'600)};
}

std::optional<Trend> trendOf(std::span<const HeatPoint> points) {
    std::vector<double> slopes;
    for (std::size_t i = 0; i < points.size(); ++i) {
        for (std::size_t j = i + 1; j < points.size(); ++j) {
            if (points[i].at != points[j].at) {
                slopes.push_back((points[j].celsius - points[i].celsius) / (points[j].at - points[i].at).hours());
            }
        }
    }
    if (slopes.empty()) {
        return std::nullopt;
    }
    Trend trend{points.front().at, 0, median(std::move(slopes))};
    std::vector<double> rests;
    for (const auto& point : points) {
        rests.emplace_back(point.celsius - trend.perHour * (point.at - trend.origin).hours());
    }
    trend.atOrigin = median(std::move(rests));
    return trend;
}

std::optional<Instant> fallsThrough(std::span<const HeatPoint> points, double level, Instant deadline) {
    if (points.size() < 3) {
        return std::nullopt;
    }
    const Instant last = points.back().at;
    const auto crossing = [&](std::span<const HeatPoint> some) {
        const auto trend = trendOf(some);
        const auto at = trend ? trend->reaches(level, last) : std::nullopt;
        return at && *at <= deadline ? at : std::nullopt;
    };
    std::vector<HeatPoint> rest{points.begin() + 1, points.end()};
    for (std::size_t left = 0; left < points.size(); ++left) {
        if (!crossing(rest)) {
            return std::nullopt;
        }
        if (left < rest.size()) {
            rest[left] = points[left];
        }
    }
    return crossing(points);
}

}  // namespace midden
