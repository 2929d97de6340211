// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/chart_plan.h"

#include <algorithm>
#include <array>

#include "tests/ui/support/made_batch.h"
#include "tests/ui/support/qt_support.h"

using namespace midden;
using namespace midden::ui;
using namespace midden::testing;

namespace {

ChartView viewOf(const BatchRecord& record, double width = 900) {
    ChartView view;
    view.visible = wholeBatch(record);
    view.width = view.columns = width;
    view.zone = *TimeZone::named("Europe/London");
    view.textWidth = [](const QString& text) { return 7.0 * static_cast<double>(text.size()); };
    return view;
}

ChartPlan planOf(const BatchRecord& record, double width = 900) {
    return chartPlan(record, reviewOf(record, {}), viewOf(record, width));
}

BatchRecord coreOnly(std::initializer_list<std::pair<double, double>> points) {
    BatchRecord record = madeRecord();
    Track track{"core", false, {}};
    for (const auto& [hour, celsius] : points) {
        track.samples.push_back(sampleAt(hour, celsius));
    }
    record.tracks.push_back(track);
    return record;
}

/// Every label right of the one before it in its row, none beyond the plot.
bool labelsStandClear(const ChartPlan& plan, const ChartView& view) {
    std::array<double, 2> right{-1, -1};
    return std::ranges::all_of(plan.marks, [&](const ChartMark& mark) {
        if (mark.label.isEmpty()) {
            return true;
        }
        double& taken = right.at(static_cast<std::size_t>(mark.row));
        const bool clear = mark.labelLeft > taken;
        taken = mark.labelLeft + view.textWidth(mark.label);
        return clear && taken <= view.width;
    });
}

/// Counted by the lines of the tips.
qsizetype entriesIn(const ChartPlan& plan) {
    qsizetype entries = 0;
    for (const ChartMark& mark : plan.marks) {
        entries += mark.words.count(QLatin1Char{'\n'}) + 1;
    }
    return entries;
}

}  // namespace

TEST_CASE("a silence in the log is a break in the line and says how long it was") {
    const auto plan = planOf(coreOnly({{0, 60}, {12, 61}, {53, 60}, {65, 60}}));
    REQUIRE(plan.traces.size() == 1);
    CHECK(plan.traces[0].lines.size() == 2);
    REQUIRE(plan.gaps.size() == 1);
    CHECK(plan.gaps[0].position == "");
    CHECK(plan.gaps[0].words == "no reading 41 h");
}

TEST_CASE("a gap too narrow for the sentence runs upwards and one too narrow for a line says nothing") {
    const auto record =
        coreOnly({{0, 60}, {12, 61}, {53, 60}, {80, 60}, {110, 60}, {140, 60}, {170, 60}, {200, 60}, {230, 60}});
    CHECK(planOf(record, 300).gaps[0].words == "no reading 41 h");
    CHECK(planOf(record, 300).gaps[0].stand == Stand::upright);
    CHECK(planOf(record, 900).gaps[0].stand == Stand::lying);
    CHECK(planOf(record, 100).gaps[0].words == "");
}

TEST_CASE("credited windows carry their hours cut off and never rounded up") {
    const auto plan = planOf(coreOnly({{0, 40}, {10, 56}, {22, 58}, {33.99, 55}, {46, 40}}));
    REQUIRE(plan.bands.size() == 1);
    CHECK(plan.bands[0].interval == Interval{afterHours(10), afterHours(33.99)});
    CHECK(plan.bands[0].words == "23 h");
    CHECK(plan.thresholdLabel == "55 °C");
}

TEST_CASE("windows drawn as one for want of pixels do not have their hours written as one") {
    BatchRecord record = coreOnly({{0, 56}, {24, 56}, {25, 40}, {26, 56}, {50, 56}});
    CHECK(planOf(record, 900).bands.size() == 2);
    record.tracks[0].samples.push_back(sampleAt(24 * 30, 20));
    record.tracks[0].samples.push_back(sampleAt(24 * 300, 20));
    const auto plan = planOf(record, 3'000);
    REQUIRE(plan.bands.size() == 1);
    CHECK(plan.bands[0].words == "");
}

TEST_CASE("a pause of one position while others were read is a ribbon of its own") {
    const auto record = sixtyDays();
    const auto plan = planOf(record);
    const auto ribbon = std::ranges::find(plan.gaps, QString{"base"}, &ChartGap::position);
    REQUIRE(ribbon != plan.gaps.end());
    CHECK(ribbon->interval.length() == hours(96));
    CHECK(ribbon->words.startsWith("base"));
    const auto silence = std::ranges::find(plan.gaps, QString{}, &ChartGap::position);
    REQUIRE(silence != plan.gaps.end());
    CHECK(std::ranges::count(plan.gaps, QString{}, &ChartGap::position) == 1);
}

TEST_CASE("the core wears the first look and the others follow alphabetically") {
    const auto plan = planOf(sixtyDays());
    REQUIRE(plan.traces.size() == 3);
    CHECK(plan.traces[0].position == "base");
    CHECK(plan.traces[0].look == 1);
    CHECK(plan.traces[1].look == 0);
    CHECK(plan.traces[2].look == 2);
}

TEST_CASE("labels of the lane never run into each other and nothing in it is lost") {
    const auto record = sixtyDays();
    const double width = GENERATE(120.0, 300.0, 600.0, 1'800.0);
    const auto plan = planOf(record, width);
    CHECK(labelsStandClear(plan, viewOf(record, width)));
    CHECK(entriesIn(plan) == 10);
}

TEST_CASE("a stall is a bracket with its word and one still open runs to the edge") {
    const auto record = coreOnly({{0, 20}, {24, 50}, {48, 60}, {72, 40}, {96, 38}, {120, 30}, {144, 28}});
    const auto plan = planOf(record);
    REQUIRE(plan.stalls.size() == 1);
    CHECK(plan.stalls[0].word == "stalled");
    CHECK(plan.stalls[0].open);
    CHECK(plan.stalls[0].interval.from == afterHours(72));
}

TEST_CASE("one reading is a picture too") {
    const auto plan = planOf(coreOnly({{0, 21.5}}));
    REQUIRE(plan.traces[0].lines.size() == 1);
    CHECK(plan.traces[0].lines[0].size() == 1);
    CHECK(plan.traces[0].everyReadingDrawn);
    CHECK(plan.visible.length() >= hours(6));
    CHECK(plan.lowestCelsius < 21.5);
    CHECK(plan.highestCelsius > 55);
}

TEST_CASE("a batch without any entry still has a stretch of time to show") {
    const auto plan = planOf(madeRecord());
    CHECK(plan.visible.length() >= hours(6));
    CHECK(plan.traces.empty());
    CHECK_FALSE(plan.timeTicks.empty());
}

TEST_CASE("a line of half a million readings is handed over as at most four points a slice of a column") {
    BatchRecord record = madeRecord();
    record.tracks.push_back(madeTrack("core", 0, 1.0 / 60, 500'000));
    const auto plan = planOf(record);
    std::size_t points = 0;
    for (const ChartLine& line : plan.traces[0].lines) {
        points += line.size();
    }
    CHECK(points <= 4 * slicesAColumn * 900 + 2);
    CHECK(points > 900);
    CHECK_FALSE(plan.traces[0].everyReadingDrawn);
}

TEST_CASE("temperatures are marked in the unit of the book") {
    auto view = viewOf(sixtyDays());
    view.unit = TemperatureUnit::fahrenheit;
    const auto record = sixtyDays();
    const auto plan = chartPlan(record, reviewOf(record, {}), view);
    CHECK(plan.thresholdLabel == "131 °F");
    CHECK(plan.unitLabel == "°F");
}
