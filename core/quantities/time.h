// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "core/quantities/result.h"

namespace midden {

/// The length of a stretch of time, in whole seconds. A day is 24 hours, always.
struct Seconds {
    std::int64_t count = 0;

    constexpr double hours() const { return static_cast<double>(count) / 3'600.0; }
    constexpr auto operator<=>(const Seconds&) const = default;
    constexpr Seconds& operator+=(Seconds other) {
        count += other.count;
        return *this;
    }
    friend constexpr Seconds operator+(Seconds a, Seconds b) { return {a.count + b.count}; }
    friend constexpr Seconds operator-(Seconds a, Seconds b) { return {a.count - b.count}; }
};

constexpr Seconds minutes(std::int64_t count) {
    return {count * 60};
}
constexpr Seconds hours(std::int64_t count) {
    return {count * 3'600};
}
constexpr Seconds days(std::int64_t count) {
    return {count * 86'400};
}

/// A point in time: seconds since 1970-01-01T00:00:00Z, leap seconds not counted.
struct Instant {
    std::int64_t utcSeconds = 0;

    constexpr auto operator<=>(const Instant&) const = default;
    friend constexpr Seconds operator-(Instant a, Instant b) { return {a.utcSeconds - b.utcSeconds}; }
    friend constexpr Instant operator+(Instant at, Seconds later) { return {at.utcSeconds + later.count}; }
    friend constexpr Instant operator-(Instant at, Seconds earlier) { return {at.utcSeconds - earlier.count}; }
};

/// How far local clocks stood ahead of UTC, in minutes, from −18 h to +18 h.
struct UtcOffset {
    std::int16_t minutes = 0;

    constexpr auto operator<=>(const UtcOffset&) const = default;
};

/// An instant and the offset it was written down with, so that it can be shown as it was written.
struct Moment {
    Instant at;
    UtcOffset offset;

    constexpr auto operator<=>(const Moment&) const = default;
};

/// A date and time of day without a zone, as read off a wall clock.
struct WallTime {
    int year = 1970;
    int month = 1;
    int day = 1;
    int hour = 0;
    int minute = 0;
    int second = 0;

    auto operator<=>(const WallTime&) const = default;
};

/// Is it a date of the calendar and a time of day? (No 24:00, no leap second.)
bool isReal(const WallTime& wall);
/// The instant at which a clock standing still at `offset` shows `wall`. `wall` must be real.
Instant instantOf(const WallTime& wall, UtcOffset offset);
WallTime wallTimeOf(Moment moment);

/// "2026-03-01T08:00:00Z"
std::string isoUtc(Instant at);
/// "2026-03-01T08:00:00+01:00"
std::string isoLocal(Moment moment);
/// "1 March 2026 08:00"
std::string longDateTime(Moment moment);
/// "1 March 2026"
std::string longDate(Moment moment);
/// "1 March", for sentences about a batch whose year is plain
std::string shortDate(Moment moment);

/// A time as ISO 8601 writes it: date and time joined by `T` or a space, seconds optional, offset optional.
struct IsoTime {
    WallTime wall;
    bool hasOffset = false;
    UtcOffset offset;
};
Result<IsoTime> parseIsoTime(std::string_view text);

/// No entry lies before the first or at the second: 0000-01-01 and 10000-01-01, UTC.
constexpr Instant beginningOfTime{-62'167'219'200};
constexpr Instant endOfTime{253'402'300'800};

}  // namespace midden
