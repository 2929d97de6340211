// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <catch2/catch.hpp>

#include "core/criteria/judgement.h"
#include "core/criteria/words.h"
#include "tests/support/log.h"

using namespace midden;
using namespace midden::testing;

namespace {

WrittenTemperature degrees(std::int32_t whole) {
    return {whole * 10'000, TemperatureUnit::celsius};
}

Step step(std::int32_t threshold, std::int64_t hold, Continuity continuity = Continuity::consecutive) {
    Step made;
    made.threshold = degrees(threshold);
    made.hold = hours(hold);
    made.continuity = continuity;
    return made;
}

Criterion criterion(std::vector<Alternative> alternatives) {
    Criterion made;
    made.id = "trial";
    made.title = "a trial";
    made.alternatives = std::move(alternatives);
    return made;
}

Criterion criterion(const Step& only) {
    return criterion({Alternative{"only", {only}, {}}});
}

}  // namespace

TEST_CASE("the target is shown at exactly its limits and not a minute sooner") {
    CHECK(judge(defaultTarget(), batch(steady(55, 72))).verdict == Verdict::shown);
    auto points = steady(55, 72);
    points.back().first -= 1.0 / 60;
    const auto early = judge(defaultTarget(), batch(points));
    CHECK(early.verdict == Verdict::notShown);
    CHECK(early.credited == hours(72) - minutes(1));
    CHECK(early.required == hours(72));
    CHECK(judge(defaultTarget(), batch(steady(54.9999, 72))).verdict == Verdict::notShown);
}

TEST_CASE("a gap longer than the rule allows is not credited") {
    CHECK(judge(defaultTarget(), batch({{0, 60}, {36, 60}, {72, 60}})).verdict == Verdict::shown);
    CHECK(judge(defaultTarget(), batch({{0, 60}, {36.01, 60}, {72, 60}})).verdict == Verdict::notShown);
}

TEST_CASE("the longest time between readings follows the hold unless the step has its own") {
    CHECK(maxGapFor(step(55, 72)) == hours(36));
    CHECK(maxGapFor(step(55, 71)) == hours(26));
    CHECK(maxGapFor(step(55, 48)) == hours(26));
    CHECK(maxGapFor(step(55, 47)) == minutes(23 * 60 + 30));
    auto own = step(55, 72);
    own.maxGap = hours(12);
    CHECK(maxGapFor(own) == hours(12));
}

TEST_CASE("every monitored position must hold at once") {
    const auto hot = steady(60, 96);
    auto side = hot;
    side[1].second = 54.9;
    const auto one = judge(defaultTarget(), batch({track("core", hot), track("side", side)}));
    CHECK(one.verdict == Verdict::notShown);
    CHECK(one.credited == hours(48));
    SECTION("but not one that is only spot checked") {
        auto record = batch({track("core", hot), track("side", side)});
        record.tracks[1].spotCheck = true;
        CHECK(judge(defaultTarget(), record).credited == hours(96));
    }
}

TEST_CASE("nothing is shown without readings") {
    const auto none = judge(defaultTarget(), batch(std::vector<Track>{}));
    CHECK(none.verdict == Verdict::notShown);
    CHECK(none.credited == Seconds{});
    CHECK(none.evidence.empty());
    CHECK(judge(defaultTarget(), batch(Points{{0, 60}})).evidence.empty());
}

TEST_CASE("raw material starts the clock anew") {
    auto record = batch(steady(60, 168));
    record.additions = {addition(0, "grass"), addition(50, "vegetable scraps")};
    const auto judged = judge(defaultTarget(), record);
    CHECK(judged.credited == hours(96));
    CHECK(judged.cumulative == hours(96));
    CHECK(judged.restartedBy == "raw material added 3 May: vegetable scraps");
    CHECK(judged.restartedAt == atHour(50));
    REQUIRE(judged.evidence.size() == 2);
    CHECK(judged.evidence[0].interval == Interval{atHour(0), atHour(72)});
    CHECK(judged.evidence[0].reason == "raw material added 3 May: vegetable scraps");
    CHECK_FALSE(judged.evidence[0].credited);
    CHECK(judged.evidence[1].credited);
}

TEST_CASE("a raw addition at the instant of a reading lets that reading count") {
    auto record = batch(steady(60, 120));
    record.additions = {addition(48, "scraps")};
    CHECK(judge(defaultTarget(), record).credited == hours(72));
}

TEST_CASE("what goes in before the first reading restarts nothing") {
    auto record = batch(steady(60, 72));
    record.additions = {addition(-1, "scraps"), addition(0, "grass")};
    CHECK_FALSE(judge(defaultTarget(), record).restartedBy);
    CHECK(judge(defaultTarget(), record).verdict == Verdict::shown);
}

TEST_CASE("what is not raw does not restart the clock") {
    auto record = batch(steady(60, 72));
    record.additions = {addition(30, "grass", false), addition(40, "straw")};
    CHECK(judge(defaultTarget(), record).verdict == Verdict::shown);
    SECTION("unless the entry itself says that it is") {
        record.additions[1].raw = true;
        CHECK(judge(defaultTarget(), record).verdict == Verdict::notShown);
    }
    SECTION("but what nobody knows is raw") {
        record.additions[1].material = "something from the shed";
        CHECK(judge(defaultTarget(), record).verdict == Verdict::notShown);
    }
    SECTION("and the group's own materials are asked first") {
        const auto& straw = *builtInMaterials().find("straw");
        auto own = straw;
        own.raw = true;
        const auto table = Materials::parse(tableOf({own}));
        REQUIRE(table);
        CHECK(judge(defaultTarget(), record, builtInMaterials().with(*table)).verdict == Verdict::notShown);
    }
}

TEST_CASE("raw material after the last reading leaves nothing credited") {
    auto record = batch(steady(60, 96));
    record.additions = {addition(97, "scraps"), addition(97, "grass")};
    const auto judged = judge(defaultTarget(), record);
    CHECK(judged.credited == Seconds{});
    CHECK(judged.restartedBy == "raw material added 5 May: scraps, grass");
    REQUIRE(judged.evidence.size() == 1);
    CHECK(judged.evidence[0].interval == Interval{atHour(0), atHour(96)});
}

TEST_CASE("a rule that adds up is reached by its total and a silent one by its longest run") {
    Points points = steady(60, 144);
    points[2].second = 50;
    CHECK(judge(criterion(step(55, 96, Continuity::cumulative)), batch(points)).verdict == Verdict::shown);
    const auto silent = judge(criterion(step(55, 96, Continuity::silent)), batch(points));
    CHECK(silent.verdict == Verdict::notShown);
    CHECK(silent.credited == hours(72));
    CHECK(silent.cumulative == hours(96));
    CHECK(judge(criterion(step(55, 96, Continuity::consecutive)), batch(points)).verdict == Verdict::notShown);
}

TEST_CASE("exceeding a temperature or a time takes more than reaching it") {
    auto above = step(50, 72);
    above.exceeds = true;
    CHECK(judge(criterion(above), batch(steady(50, 72))).verdict == Verdict::notShown);
    CHECK(judge(criterion(above), batch(steady(50.0001, 72))).verdict == Verdict::shown);
    auto longer = step(50, 72);
    longer.holdExceeds = true;
    CHECK(judge(criterion(longer), batch(steady(50, 72))).verdict == Verdict::notShown);
    CHECK(judge(criterion(longer), batch(steady(50, 73, 1))).verdict == Verdict::shown);
}

TEST_CASE("a band is left at its top as at its bottom") {
    auto band = step(55, 72);
    band.threshold = {1'310'000, TemperatureUnit::fahrenheit};
    band.ceiling = WrittenTemperature{1'700'000, TemperatureUnit::fahrenheit};
    auto record = batch(steady(60, 72));
    const auto at170F = toCelsius({1'700'000, TemperatureUnit::fahrenheit});
    record.tracks[0].samples[1] = Sample{atHour(24), at170F};
    CHECK(judge(criterion(band), record).verdict == Verdict::shown);
    record.tracks[0].samples[1] = Sample{atHour(24), at170F + Kelvins::ofParts(1)};
    const auto over = judge(criterion(band), record);
    CHECK(over.verdict == Verdict::notShown);
    CHECK(over.evidence[0].reason == "core 76.6667 °C, just above 76.6667 °C (170 °F)");
}

TEST_CASE("the thermometer's own error is held against the readings") {
    CHECK(judge(defaultTarget(), batch(steady(56, 72), 1)).verdict == Verdict::shown);
    CHECK(judge(defaultTarget(), batch(steady(55.9999, 72), 1)).verdict == Verdict::shownWithinError);
    CHECK(judge(defaultTarget(), batch(steady(54.9999, 72), 1)).verdict == Verdict::notShown);
    auto band = step(55, 72);
    band.ceiling = degrees(76);
    CHECK(judge(criterion(band), batch(steady(75, 72), 1)).verdict == Verdict::shown);
    CHECK(judge(criterion(band), batch(steady(75.5, 72), 1)).verdict == Verdict::shownWithinError);
}

TEST_CASE("of several ways the best verdict stands for the criterion and then the largest part of the hold") {
    const auto ways = criterion({Alternative{"hot", {step(65, 100)}, {}}, Alternative{"warm", {step(55, 400)}, {}}});
    const auto hotter = judge(ways, batch(steady(66, 72)));
    CHECK(hotter.best == 0);
    CHECK(hotter.required == hours(100));
    const auto cooler = judge(ways, batch(steady(56, 72)));
    CHECK(cooler.best == 1);
    CHECK(cooler.credited == hours(72));
    CHECK(cooler.alternatives[0].steps[0].longestRun == Seconds{});
    const auto reached = judge(ways, batch(steady(60, 400, 20)));
    CHECK(reached.best == 1);
    CHECK(reached.verdict == Verdict::shown);
    CHECK(reached.alternatives[0].verdict == Verdict::notShown);
}

TEST_CASE("time at a higher temperature counts for every cooler way") {
    const auto ways = criterion({Alternative{"hot", {step(65, 72)}, {}}, Alternative{"warm", {step(55, 72)}, {}}});
    const auto judged = judge(ways, batch(steady(66, 72)));
    CHECK(judged.alternatives[0].verdict == Verdict::shown);
    CHECK(judged.alternatives[1].verdict == Verdict::shown);
}

TEST_CASE("a step within another counts only inside a qualifying run of that one") {
    auto inner = step(55, 4, Continuity::silent);
    inner.withinStep = 0;
    const auto both = criterion({Alternative{"both", {step(40, 120), inner}, {}}});
    auto points = steady(45, 240, 1);
    std::for_each(points.begin() + 10, points.begin() + 15, [](auto& point) { point.second = 56; });
    CHECK(judge(both, batch(points)).verdict == Verdict::shown);
    points[20].second = 39;  // the hot hours now lie in a run that is too short
    const auto apart = judge(both, batch(points));
    CHECK(apart.alternatives[0].steps[0].verdict == Verdict::shown);
    CHECK(apart.alternatives[0].steps[1].longestRun == Seconds{});
}

TEST_CASE("a judgement is told in a sentence that claims no more than the readings do") {
    CHECK(verdictSentence(judge(criterion(step(55, 72)), batch(steady(60, 72)))) ==
          "The readings reached the time–temperature figures of “a trial”.");
    CHECK(verdictSentence(judge(criterion(step(55, 72)), batch(steady(50, 72)))) ==
          "The readings did not reach the time–temperature figures of “a trial”.");
    CHECK(verdictSentence(judge(criterion(step(55, 72)), batch(steady(55, 72), 1))) ==
          "As read, the readings reached the time–temperature figures of “a trial”; with the thermometer's own error "
          "held against them they did not.");
}

TEST_CASE("several criteria are judged in the order they come") {
    const std::vector<Criterion> two{criterion(step(55, 72)), defaultTarget()};
    const auto judged = judgeAll(two, batch(steady(60, 72)));
    REQUIRE(judged.size() == 2);
    CHECK(judged[0].criterion.id == "trial");
    CHECK(judged[1].criterion.id == "target");
    CHECK(std::string{word(judged[1].verdict)} == "shown");
}
