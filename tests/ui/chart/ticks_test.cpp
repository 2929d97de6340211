// SPDX-License-Identifier: GPL-3.0-or-later
// When the clocks change in Europe/London: IANA time zone database, region Europe, rule EU
// (last Sunday of March and of October, 01:00 UTC): 29 March 2026 and 25 October 2026.
#include "ui/chart/ticks.h"

#include <algorithm>
#include <set>

#include "tests/ui/support/qt_support.h"

using namespace midden;
using namespace midden::ui;

namespace {

Instant utc(int month, int day, int hour, int minute = 0) {
    return instantOf({2026, month, day, hour, minute}, {});
}

/// Every letter is seven wide.
ChartView londonView(Instant from, Instant to, double width) {
    ChartView view;
    view.visible = {from, to};
    view.width = width;
    view.zone = *TimeZone::named("Europe/London");
    view.textWidth = [](const QString& text) { return 7.0 * static_cast<double>(text.size()); };
    return view;
}

std::vector<Instant> instants(const std::vector<ChartTick>& ticks) {
    std::vector<Instant> found;
    found.reserve(ticks.size());
    for (const ChartTick& tick : ticks) {
        found.push_back({static_cast<std::int64_t>(tick.value)});
    }
    return found;
}

QStringList labels(const std::vector<ChartTick>& ticks) {
    QStringList found;
    for (const ChartTick& tick : ticks) {
        found.append(tick.label);
    }
    return found;
}

bool areReadable(const std::vector<ChartTick>& ticks, const ChartView& view) {
    const QStringList words = labels(ticks);
    const double pixels = view.width / static_cast<double>(view.visible.length().count);
    const auto collide = [&](const ChartTick& a, const ChartTick& b) {
        return (b.value - a.value) * pixels < (view.textWidth(a.label) + view.textWidth(b.label)) / 2;
    };
    const bool unique = std::set<QString>(words.begin(), words.end()).size() == ticks.size();
    return unique && std::ranges::adjacent_find(ticks, collide) == ticks.end();
}

}  // namespace

TEST_CASE("midnights stay local midnights across the change to summer time") {
    const auto ticks = timeTicks(londonView(utc(3, 27, 12), utc(3, 31, 12), 800));
    CHECK(labels(ticks) == QStringList{"28 Mar 2026", "29 Mar", "30 Mar", "31 Mar"});
    CHECK(instants(ticks) == std::vector{utc(3, 28, 0), utc(3, 29, 0), utc(3, 29, 23), utc(3, 30, 23)});
}

TEST_CASE("midnights stay local midnights across the change to winter time") {
    const auto ticks = timeTicks(londonView(utc(10, 23, 12), utc(10, 27, 12), 800));
    CHECK(labels(ticks) == QStringList{"24 Oct 2026", "25 Oct", "26 Oct", "27 Oct"});
    CHECK(instants(ticks) == std::vector{utc(10, 23, 23), utc(10, 24, 23), utc(10, 26, 0), utc(10, 27, 0)});
}

TEST_CASE("the hour that is skipped in March has no mark") {
    const auto ticks = timeTicks(londonView(utc(3, 28, 23), utc(3, 29, 4), 900));
    CHECK(labels(ticks) == QStringList{"Sat 28 Mar 23:00", "Sun 29 Mar 00:00", "Sun 29 Mar 02:00", "Sun 29 Mar 03:00",
                                       "Sun 29 Mar 04:00", "Sun 29 Mar 05:00"});
}

TEST_CASE("the hour that comes twice in October is marked twice and told apart") {
    const auto ticks = timeTicks(londonView(utc(10, 24, 23), utc(10, 25, 3), 900));
    CHECK(labels(ticks) == QStringList{"Sun 25 Oct 00:00", "Sun 25 Oct 01:00 UTC+1", "Sun 25 Oct 01:00 UTC+0",
                                       "Sun 25 Oct 02:00", "Sun 25 Oct 03:00"});
    CHECK(instants(ticks)[1] == utc(10, 25, 0));
    CHECK(instants(ticks)[2] == utc(10, 25, 1));
}

TEST_CASE("at every zoom labels are unique and stand clear of one another") {
    const Instant start = utc(1, 15, 7, 13);
    const double width = GENERATE(260.0, 800.0, 2'400.0);
    for (std::int64_t length = 600; length < 40LL * 365 * 86'400; length = length * 5 / 4) {
        const ChartView view = londonView(start, start + Seconds{length}, width);
        INFO("over " << length << " s on " << width << " pixels: " << labels(timeTicks(view)).join("|").toStdString());
        CHECK(areReadable(timeTicks(view), view));
    }
}

TEST_CASE("weeks are marked on Mondays and months on their first") {
    const auto weeks = timeTicks(londonView(utc(3, 1, 8), utc(4, 30, 8), 700));
    CHECK(labels(weeks).first() == "2 Mar 2026");
    CHECK(labels(weeks).at(1) == "9 Mar");
    const auto months = timeTicks(londonView(utc(1, 1, 8), utc(12, 30, 8), 800));
    CHECK(labels(months).contains("Apr 2026"));
}

TEST_CASE("temperature marks are round in the unit shown") {
    CHECK(labels(temperatureTicks(0, 80, TemperatureUnit::celsius)) ==
          QStringList{"0", "10", "20", "30", "40", "50", "60", "70", "80"});
    const auto fahrenheit = temperatureTicks(0, 80, TemperatureUnit::fahrenheit);
    CHECK(labels(fahrenheit) == QStringList{"40", "60", "80", "100", "120", "140", "160"});
    CHECK(fahrenheit[3].value == Approx(37.7777778));
}
