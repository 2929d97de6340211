// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/typed.h"
#include "tests/ui/support/qt_support.h"
#include "ui/shared/words.h"

using namespace midden;
using namespace midden::ui;

namespace {

const WallTime now{2026, 3, 4, 8, 10, 0};
const TimeZone london = *TimeZone::named("Europe/London");
const Moment today{Instant{1'772'611'800}, {}};

}  // namespace

TEST_CASE("dates and times are read as people write them") {
    const auto [typed, expected] = GENERATE(table<const char*, WallTime>({
        {"18:30", {2026, 3, 4, 18, 30, 0}},
        {"yesterday 18:30", {2026, 3, 3, 18, 30, 0}},
        {"1 March 18:30", {2026, 3, 1, 18, 30, 0}},
        {"Sun 1 March 18:30", {2026, 3, 1, 18, 30, 0}},
        {"1 mar 2025 8:05", {2025, 3, 1, 8, 5, 0}},
        {"28 December 08:00", {2025, 12, 28, 8, 0, 0}},
        {"2026-03-01 18:30", {2026, 3, 1, 18, 30, 0}},
        {"2026-03-01T18:30", {2026, 3, 1, 18, 30, 0}},
        {"2/3/2026 7:00", {2026, 3, 2, 7, 0, 0}},
        {"28.2.2026 07:00", {2026, 2, 28, 7, 0, 0}},
        {"2/28/2026 07:00", {2026, 2, 28, 7, 0, 0}},
    }));
    INFO(typed);
    const auto read = readWallTime(typed, now);
    REQUIRE(read);
    CHECK(*read == expected);
}

TEST_CASE("what is no date or time is refused in words") {
    const QString typed =
        GENERATE("", "noon", "1 March", "25:00", "30 February 08:00", "1/3/26 08:00", "1 Smarch 08:00");
    INFO(typed.toStdString());
    const auto read = readWallTime(typed, now);
    REQUIRE_FALSE(read);
    CHECK_FALSE(read.error().sentence().empty());
}

TEST_CASE("a time the clocks skipped is refused and one they repeated asks for its offset") {
    // London went forward at 01:00 UTC on 30 March 2025 and back at 01:00 UTC on 26 October 2025 (tz database).
    CHECK_FALSE(readMoment("2025-03-30 01:30", london, today));
    CHECK_FALSE(readMoment("2025-10-26 01:30", london, today));
    const auto first = readMoment("2025-10-26 01:30+01:00", london, today);
    const auto second = readMoment("2025-10-26 01:30+00:00", london, today);
    REQUIRE(first);
    REQUIRE(second);
    CHECK((second->at - first->at).count == 3'600);
}

TEST_CASE("what the window writes as a time it reads back") {
    for (const std::int64_t hour : {0, 5'000, 12'345, 20'000}) {
        const Moment moment = london.momentAt(Instant{1'700'000'040} + hours(hour));
        if (moment.at <= today.at) {
            CHECK(readMoment(typedForm(moment), london, today)->at == moment.at);
        }
    }
}

TEST_CASE("amounts take both decimal marks and no thousands") {
    CHECK(*readAmount("4.5") == 4.5);
    CHECK(*readAmount("4,5") == 4.5);
    CHECK(*readAmount(" 12 ") == 12.0);
    for (const char* typed : {"", "-1", "1.234,5", "1e3", "four", "nan"}) {
        CHECK_FALSE(readAmount(typed));
    }
}

TEST_CASE("numbers follow the locale and never show a negative nothing") {
    CHECK(words::degrees(Celsius::ofTenThousandths(585'000), TemperatureUnit::celsius) == "58.5");
    CHECK(words::degrees(Celsius::ofTenThousandths(550'000), TemperatureUnit::fahrenheit) == "131.0");
    CHECK(words::change(Kelvins::ofTenThousandths(25'000), TemperatureUnit::celsius) == "+2.5");
    CHECK(words::change(Kelvins::ofTenThousandths(-300), TemperatureUnit::celsius) == "0.0");
    CHECK(words::change(Kelvins::ofTenThousandths(-5'000), TemperatureUnit::fahrenheit) == QString::fromUtf8("−0.9"));
    QLocale::setDefault(QLocale{QLocale::German, QLocale::Germany});
    CHECK(words::degrees(Celsius::ofTenThousandths(585'000), TemperatureUnit::celsius) == "58,5");
    QLocale::setDefault(QLocale{QLocale::English, QLocale::UnitedKingdom});
}

TEST_CASE("ages are said in the unit that fits") {
    CHECK(words::ago(Seconds{30}) == "just now");
    CHECK(words::ago(minutes(40)) == "40 min ago");
    CHECK(words::ago(hours(23)) == "23 h ago");
    CHECK(words::ago(hours(47)) == "47 h ago");
    CHECK(words::ago(days(3)) == "3 days ago");
    CHECK(words::hoursOf(Seconds{52 * 3'600 + 3'599}, hours(72)) == "52 of 72 h");
}
