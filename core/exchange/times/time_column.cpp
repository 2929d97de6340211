// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/times/time_column.h"

#include <fmt/core.h>

#include <algorithm>

namespace midden {

namespace {

constexpr std::size_t dateLength = 10;    // "2026-03-01"
constexpr std::size_t minuteLength = 16;  // "2026-03-01T08:00"

/// Two digits; more than any hour or minute when they are not there.
int twoDigits(std::string_view text, std::size_t at) {
    const int tens = text[at] - '0';
    const int ones = text[at + 1] - '0';
    return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? tens * 10 + ones : 100;
}

Problem neverHappened(std::string_view text, const TimeZone& zone) {
    return {fmt::format("the clocks of {} went forward over \"{}\": it never happened", zone.name(), text),
            "a time that was, or times with their offset from UTC"};
}

constexpr std::int64_t endOfYear9999 = 253'402'300'800;

bool isInRange(Moment moment) {
    const auto local = moment.at.utcSeconds + moment.offset.minutes * 60;
    return moment.at.utcSeconds >= 0 && local >= 0 && moment.at.utcSeconds < endOfYear9999 && local < endOfYear9999;
}

}  // namespace

FileResult<Moment> TimeColumn::read(const CsvTable& table, const std::optional<Instant>& previous) {
    const auto text = table.text(column_);
    if (const auto seconds = secondsOfTheDay(text)) {
        return Moment{{midnight_ + *seconds}, offset_};
    }
    return readSlowly(table, text, previous);
}

/// What the clock showed, if the time is written like the last one read and of the same day.
std::optional<std::int32_t> TimeColumn::secondsOfTheDay(std::string_view text) const {
    const bool sameDay = text.size() >= minuteLength && text.substr(0, dateLength) == day_ &&
                         (text[dateLength] == 'T' || text[dateLength] == ' ') && text[13] == ':';
    if (!sameDay) {
        return std::nullopt;
    }
    const int hour = twoDigits(text, 11);
    const int minute = twoDigits(text, 14);
    auto rest = text.substr(minuteLength);
    int second = 0;
    if (rest.size() >= 3 && rest[0] == ':') {
        second = twoDigits(rest, 1);
        rest.remove_prefix(3);
    }
    if (rest != offsetText_ || hour > 23 || minute > 59 || second > 59) {
        return std::nullopt;
    }
    return hour * 3'600 + minute * 60 + second;
}

FileResult<Moment> TimeColumn::readSlowly(const CsvTable& table, std::string_view text,
                                          const std::optional<Instant>& previous) {
    auto written = parseWrittenTime(text);
    if (!written) {
        return table.refuse(std::move(written.error()));
    }
    if (written->orderOpen && !order_) {
        auto settled = settledOrder(table);
        if (!settled) {
            return tl::unexpected{std::move(settled.error())};
        }
        order_ = *settled;
    }
    written->wall = written->in(order_.value_or(DateOrder::dayFirst));
    if (!isReal(written->wall)) {
        return table.refuse({fmt::format("\"{}\" is not in the calendar", text), "a day that exists"});
    }
    auto moment = written->hasOffset
                      ? FileResult<Moment>{Moment{instantOf(written->wall, written->offset), written->offset}}
                      : momentOf(table, written->wall, previous);
    if (moment && !isInRange(*moment)) {
        return table.refuse({fmt::format("\"{}\" is out of range", text), "a year from 1970 to 9999"});
    }
    if (moment) {
        remember(text, *written, *moment);
    }
    return moment;
}

FileResult<Moment> TimeColumn::momentOf(const CsvTable& table, const WallTime& wall,
                                        const std::optional<Instant>& previous) {
    if (!zone_) {
        auto refusal = table.refuse({"the time has no offset from UTC",
                                     "--zone with the name of the local time, such as --zone Europe/London"});
        refusal.value().wrongUsage = true;
        return refusal;
    }
    const auto meaning = zone_->meaningOf(wall);
    if (std::holds_alternative<NoSuchTime>(meaning)) {
        return table.refuse(neverHappened(table.text(column_), *zone_));
    }
    if (const auto* twice = std::get_if<TwoTimes>(&meaning)) {
        firstTwiceCome_ = twiceCome_++ == 0 ? table.line() : firstTwiceCome_;
        return previous && twice->earlier.at <= *previous ? twice->later : twice->earlier;
    }
    return std::get<Moment>(meaning);
}

bool TimeColumn::offsetHoldsAllDay(const WallTime& wall) const {
    WallTime begin = wall;
    begin.hour = begin.minute = begin.second = 0;
    WallTime end = wall;
    end.hour = 23;
    end.minute = end.second = 59;
    const auto first = zone_->meaningOf(begin);
    const auto last = zone_->meaningOf(end);
    const auto* a = std::get_if<Moment>(&first);
    const auto* b = std::get_if<Moment>(&last);
    return a != nullptr && b != nullptr && a->offset == b->offset;
}

void TimeColumn::remember(std::string_view text, const WrittenTime& written, Moment moment) {
    const bool iso = text.size() >= minuteLength && text[4] == '-' && text[13] == ':';
    if (!iso || (!written.hasOffset && !offsetHoldsAllDay(written.wall))) {
        day_.clear();
        return;
    }
    day_ = text.substr(0, dateLength);
    const auto rest = text.substr(minuteLength);
    offsetText_ = written.hasOffset ? rest.substr(std::min(rest.size(), rest.find_first_of("Zz+- "))) : "";
    offset_ = moment.offset;
    const auto& wall = written.wall;
    midnight_ = moment.at.utcSeconds - wall.hour * 3'600 - wall.minute * 60 - wall.second;
    if (midnight_ < 86'400 || midnight_ > endOfYear9999 - 2 * 86'400) {
        day_.clear();  // so near the ends of the calendar every row is checked
    }
}

FileResult<DateOrder> TimeColumn::settledOrder(const CsvTable& table) const {
    std::uint64_t dayFirst = 0;
    std::uint64_t monthFirst = 0;
    std::uint64_t undecided = 0;
    table.visitColumn(column_, [&](std::string_view text, std::uint64_t line) {
        const auto written = parseWrittenTime(text);
        const auto note = [&](std::uint64_t& first, bool is) { first = first == 0 && is ? line : first; };
        if (written) {
            note(dayFirst, written->settlesDayFirst());
            note(monthFirst, written->settlesMonthFirst());
            note(undecided, written->isUndecided());
        }
    });
    if (dayFirst > 0 && monthFirst > 0) {
        return table.refuseAt(std::max(dayFirst, monthFirst),
                              {fmt::format("line {} has the day first and line {} the month", dayFirst, monthFirst),
                               "one order in the whole file, best as in 2026-03-01"});
    }
    if (dayFirst == 0 && monthFirst == 0 && undecided > 0) {
        return table.refuseAt(undecided,
                              {"nothing in the file settles which number is the day and which the month",
                               "dates such as 2026-03-01, or at least one row with a day after the 12th of its month"});
    }
    return monthFirst > 0 ? DateOrder::monthFirst : DateOrder::dayFirst;
}

}  // namespace midden
