// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quantities/time.h"

#include <catch2/catch.hpp>

#include "core/quantities/zone.h"

using namespace midden;

namespace {
Instant utc(int year, int month, int day, int hour = 0) {
    return instantOf({year, month, day, hour, 0, 0}, {});
}
}  // namespace

TEST_CASE("ISO times are read with T or a space, with or without seconds and offset") {
    const std::string text =
        GENERATE("2026-03-01T08:00:00Z", "2026-03-01 08:00Z", "2026-03-01T09:00+01:00", "2026-03-01T09:00:00+0100",
                 "2026-03-01 03:00:00 -05", "2026-03-01T08:00:00.000Z");
    INFO(text);
    const auto parsed = parseIsoTime(text);
    REQUIRE(parsed);
    CHECK(parsed->hasOffset);
    CHECK(isoUtc(instantOf(parsed->wall, parsed->offset)) == "2026-03-01T08:00:00Z");
}

TEST_CASE("what is not a time is refused") {
    const std::string text = GENERATE(
        "", "2026-03-01", "2026-02-29T08:00", "2026-13-01T08:00", "2026-03-01T24:00", "2026-03-01T08:60",
        "2026-03-01T08:00:60", "2026-03-01T08:00:00.5Z", "2026-03-01T8:00", "26-03-01T08:00", "2026-03-01T08:00+25:00",
        "2026-03-01T08:00+18:01", "2026-03-01T08:00-18:59", "2026-03-01T08:00+19", "0000-01-01T00:00+00:01",
        "9999-12-31T23:59:59-00:01", "2026-03-01T08:00Zjunk", "2026-03-01_08:00", "1/3/2026 08:00");
    INFO(text);
    CHECK_FALSE(parseIsoTime(text));
}

TEST_CASE("an instant is shown as it was written") {
    const Moment moment{utc(2026, 7, 1, 7), {60}};
    CHECK(isoLocal(moment) == "2026-07-01T08:00:00+01:00");
    CHECK(longDateTime(moment) == "1 July 2026 08:00");
    CHECK(shortDate({utc(2025, 12, 31, 23), {60}}) == "1 January");
    CHECK(isoLocal({utc(2026, 7, 1, 7), {-210}}) == "2026-07-01T03:30:00-03:30");
}

// Durations on instants across both clock changes; the published check case 17 of the time-temperature dossier is in
// tests/published.
TEST_CASE("a night on which the clocks change is 23 or 25 hours long") {
    const auto london = TimeZone::named("Europe/London").value();
    const auto at = [&](int month, int day) {
        return std::get<Moment>(london.meaningOf({2024, month, day, 8, 0, 0})).at;
    };
    CHECK((at(3, 31) - at(3, 30)).hours() == 23);
    CHECK((at(10, 27) - at(10, 26)).hours() == 25);
}

TEST_CASE("a wall time can be missing or come twice") {
    const auto london = TimeZone::named("Europe/London").value();
    CHECK(std::holds_alternative<NoSuchTime>(london.meaningOf({2024, 3, 31, 1, 30, 0})));
    const auto twice = london.meaningOf({2024, 10, 27, 1, 30, 0});
    REQUIRE(std::holds_alternative<TwoTimes>(twice));
    CHECK(std::get<TwoTimes>(twice).later.at - std::get<TwoTimes>(twice).earlier.at == hours(1));
    CHECK(london.momentAt(utc(2024, 7, 1)).offset == UtcOffset{60});
    CHECK_FALSE(TimeZone::named("Europe/Nowhere"));
}

TEST_CASE("a clock may stand up to 18 hours from UTC") {
    CHECK(parseIsoTime("2026-03-01T08:00+18:00")->offset.minutes == 1'080);
    CHECK(parseIsoTime("2026-03-01T08:00-18:00")->offset.minutes == -1'080);
}

// Asked without any zone of the database, as on a computer that has none.
TEST_CASE("UTC is known by itself") {
    const auto utcZone = TimeZone::utc();
    CHECK(utcZone.name() == "UTC");
    CHECK(TimeZone::named("UTC")->name() == "UTC");
    const Instant summer = utc(2026, 7, 1, 12);
    CHECK(utcZone.momentAt(summer) == Moment{summer, {}});
    CHECK(std::get<Moment>(utcZone.meaningOf({2026, 7, 1, 12, 0, 0})) == Moment{summer, {}});
}
