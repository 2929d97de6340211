// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quantities/time.h"

#include <fmt/core.h>

#include <array>
#include <chrono>

namespace midden {

namespace {

std::chrono::year_month_day dateOf(const WallTime& wall) {
    return std::chrono::year{wall.year} / std::chrono::month{static_cast<unsigned>(wall.month)} /
           std::chrono::day{static_cast<unsigned>(wall.day)};
}

/// Walks over a text, taking what it expects and remembering whether it was there.
class Scanner {
  public:
    explicit Scanner(std::string_view text) : rest_{text} {}

    bool take(char c) {
        if (rest_.empty() || rest_.front() != c) {
            return false;
        }
        rest_.remove_prefix(1);
        return true;
    }
    /// Exactly `digits` digits; -1 when they are not there.
    int number(std::size_t digits) {
        if (rest_.size() < digits) {
            return -1;
        }
        int value = 0;
        for (const char c : rest_.substr(0, digits)) {
            if (c < '0' || c > '9') {
                return -1;
            }
            value = value * 10 + (c - '0');
        }
        rest_.remove_prefix(digits);
        return value;
    }
    bool atEnd() const { return rest_.empty(); }
    bool digitNext() const { return !rest_.empty() && rest_.front() >= '0' && rest_.front() <= '9'; }
    bool takeZeros() {
        bool any = false;
        while (take('0')) {
            any = true;
        }
        return any;
    }

  private:
    std::string_view rest_;
};

/// No place on Earth is further from UTC, and a book holds no more.
constexpr int mostOffsetMinutes = 18 * 60;

/// "Z", "+01", "+0100" or "+01:00"
bool takeOffset(Scanner& scan, UtcOffset& offset) {
    if (scan.take('Z') || scan.take('z')) {
        offset = {};
        return true;
    }
    const bool behind = scan.take('-');
    if (!behind && !scan.take('+')) {
        return false;
    }
    const int hour = scan.number(2);
    const bool colon = scan.take(':');
    const int minute = colon || scan.digitNext() ? scan.number(2) : 0;
    if (hour < 0 || minute < 0 || minute > 59 || hour * 60 + minute > mostOffsetMinutes) {
        return false;
    }
    offset.minutes = static_cast<std::int16_t>((hour * 60 + minute) * (behind ? -1 : 1));
    return true;
}

bool takeDate(Scanner& scan, WallTime& wall) {
    wall.year = scan.number(4);
    const bool first = scan.take('-');
    wall.month = scan.number(2);
    const bool second = scan.take('-');
    wall.day = scan.number(2);
    return first && second && wall.year >= 0 && wall.month >= 0 && wall.day >= 0;
}

bool takeTimeOfDay(Scanner& scan, WallTime& wall) {
    wall.hour = scan.number(2);
    const bool colon = scan.take(':');
    wall.minute = scan.number(2);
    wall.second = 0;
    if (scan.take(':')) {
        wall.second = scan.number(2);
        if ((scan.take('.') || scan.take(',')) && !scan.takeZeros()) {
            return false;  // a reading is kept to the second, so a fraction would be lost
        }
    }
    return colon && wall.hour >= 0 && wall.minute >= 0 && wall.second >= 0;
}

constexpr std::array<const char*, 12> monthNames{"January", "February", "March",     "April",   "May",      "June",
                                                 "July",    "August",   "September", "October", "November", "December"};

std::string monthOf(const WallTime& wall) {
    return monthNames.at(static_cast<std::size_t>(wall.month - 1));
}

bool isInYears0To9999(Instant at) {
    return at.utcSeconds >= -62'167'219'200 && at.utcSeconds < 253'402'300'800;
}

std::string isoWall(const WallTime& w) {
    return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}", w.year, w.month, w.day, w.hour, w.minute, w.second);
}

}  // namespace

bool isReal(const WallTime& wall) {
    return wall.year >= 0 && wall.month >= 1 && wall.day >= 1 && dateOf(wall).ok() && wall.hour >= 0 &&
           wall.hour <= 23 && wall.minute >= 0 && wall.minute <= 59 && wall.second >= 0 && wall.second <= 59;
}

Instant instantOf(const WallTime& wall, UtcOffset offset) {
    const auto midnight = std::chrono::sys_days{dateOf(wall)}.time_since_epoch().count() * std::int64_t{86'400};
    return {midnight + wall.hour * 3'600 + wall.minute * 60 + wall.second - offset.minutes * 60};
}

WallTime wallTimeOf(Moment moment) {
    const std::chrono::sys_seconds local{std::chrono::seconds{moment.at.utcSeconds + moment.offset.minutes * 60}};
    const auto day = std::chrono::floor<std::chrono::days>(local);
    const std::chrono::year_month_day date{day};
    const std::chrono::hh_mm_ss time{local - day};
    return {static_cast<int>(date.year()),
            static_cast<int>(static_cast<unsigned>(date.month())),
            static_cast<int>(static_cast<unsigned>(date.day())),
            static_cast<int>(time.hours().count()),
            static_cast<int>(time.minutes().count()),
            static_cast<int>(time.seconds().count())};
}

std::string isoUtc(Instant at) {
    return isoWall(wallTimeOf({at, {}})) + "Z";
}

std::string isoLocal(Moment moment) {
    const int ahead = moment.offset.minutes;
    const int size = ahead < 0 ? -ahead : ahead;
    return isoWall(wallTimeOf(moment)) + fmt::format("{}{:02}:{:02}", ahead < 0 ? '-' : '+', size / 60, size % 60);
}

std::string longDateTime(Moment moment) {
    const auto wall = wallTimeOf(moment);
    return fmt::format("{} {:02}:{:02}", longDate(moment), wall.hour, wall.minute);
}

std::string longDate(Moment moment) {
    return fmt::format("{} {}", shortDate(moment), wallTimeOf(moment).year);
}

std::string shortDate(Moment moment) {
    const auto wall = wallTimeOf(moment);
    return fmt::format("{} {}", wall.day, monthOf(wall));
}

Result<IsoTime> parseIsoTime(std::string_view text) {
    const auto wrong = [&](const char* what) {
        return refused(fmt::format("\"{}\" {}", text, what), "a date and time such as 2026-03-01T08:00:00+01:00");
    };
    IsoTime parsed;
    Scanner scan{text};
    if (!takeDate(scan, parsed.wall) || !(scan.take('T') || scan.take('t') || scan.take(' ')) ||
        !takeTimeOfDay(scan, parsed.wall)) {
        return wrong("is not a date and time");
    }
    if (!scan.atEnd()) {
        scan.take(' ');
        if (!takeOffset(scan, parsed.offset) || !scan.atEnd()) {
            return wrong("does not end in an offset from UTC of at most 18 hours");
        }
        parsed.hasOffset = true;
    }
    if (!isReal(parsed.wall)) {
        return wrong("is not in the calendar");
    }
    if (!isInYears0To9999(instantOf(parsed.wall, parsed.offset))) {
        return wrong("is out of range: UTC has the years 0 to 9999 here");
    }
    return parsed;
}

}  // namespace midden
