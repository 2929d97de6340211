// SPDX-License-Identifier: GPL-3.0-or-later
// Batches made up for tests.
#pragma once

#include <initializer_list>
#include <string>
#include <utility>
#include <vector>

#include "core/records/batch_record.h"

namespace midden::testing {

/// 1 May 2026 08:00 UTC
constexpr Instant start{1'777'622'400};

inline Moment afterHours(double hours) {
    return {{start.utcSeconds + static_cast<std::int64_t>(hours * 3'600)}, {}};
}

inline Instant atHour(double hours) {
    return afterHours(hours).at;
}

/// Hours since the start and °C, to four decimals.
using Points = std::vector<std::pair<double, double>>;

inline Celsius celsius(double degrees) {
    return Celsius::ofTenThousandths(static_cast<std::int64_t>(degrees * 10'000 + (degrees < 0 ? -0.5 : 0.5)));
}

inline Track track(std::string position, const Points& points, double allowance = 0) {
    Track made{std::move(position), false, {}};
    for (const auto& [hour, degrees] : points) {
        made.samples.emplace_back(atHour(hour), celsius(degrees), celsius(allowance) - Celsius{});
    }
    return made;
}

/// A reading every `every` hours from the start to `until`, both included.
inline Points steady(double degrees, double until, double every = 24) {
    Points points;
    for (double hour = 0; hour <= until + 1e-9; hour += every) {  // NOLINT(clang-analyzer-security.FloatLoopCounter)
        points.emplace_back(hour, degrees);
    }
    return points;
}

inline BatchRecord batch(std::vector<Track> tracks) {
    BatchRecord record;
    record.tracks = std::move(tracks);
    for (const auto& each : record.tracks) {
        record.readings += static_cast<std::int64_t>(each.samples.size());
    }
    return record;
}

inline BatchRecord batch(const Points& points, double allowance = 0) {
    return batch({track("core", points, allowance)});
}

inline Addition addition(double hour, std::string material, std::optional<bool> raw = std::nullopt) {
    Addition made;
    made.when = afterHours(hour);
    made.material = std::move(material);
    made.raw = raw;
    return made;
}

inline Aeration turned(double hour) {
    Aeration made;
    made.when = afterHours(hour);
    return made;
}

inline std::vector<Aeration> turnedAt(std::initializer_list<double> hours) {
    std::vector<Aeration> made;
    for (const double hour : hours) {
        made.push_back(turned(hour));
    }
    return made;
}

}  // namespace midden::testing
