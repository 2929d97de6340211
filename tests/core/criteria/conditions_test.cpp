// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/criteria/conditions.h"

#include <catch2/catch.hpp>

#include "tests/support/log.h"

using namespace midden;
using namespace midden::testing;

namespace {

Criterion turnedRule(Continuity continuity, std::optional<Seconds> apart = std::nullopt) {
    auto made = defaultTarget();
    auto& step = made.alternatives[0].steps[0];
    step.continuity = continuity;
    step.turnings = TurningsAsked{2, apart};
    return made;
}

ConditionFigures turnings(const Criterion& criterion, const BatchRecord& record) {
    return judge(criterion, record).conditions.at(0);
}

Observation answer(double hour, std::string subject, std::string value) {
    Observation made;
    made.when = afterHours(hour);
    made.kind = ObservationKind::condition;
    made.subject = std::move(subject);
    made.value = std::move(value);
    return made;
}

Criterion withCondition(const Condition& condition) {
    auto made = defaultTarget();
    made.conditions = {condition};
    return made;
}

}  // namespace

TEST_CASE("turnings are counted inside the longest run with its ends included") {
    auto record = batch(steady(60, 96));
    record.aerations = turnedAt({-1, 0, 96, 97});
    const auto figures = turnings(turnedRule(Continuity::consecutive), record);
    CHECK(figures.recorded == 2.0);
    CHECK(figures.required == 2.0);
    CHECK(figures.state == ConditionState::held);
    CHECK(figures.condition == "at least 2 turnings within the time counted");
}

TEST_CASE("turnings of a rule that adds up lie between the first and the last credited instant") {
    auto points = steady(60, 240);
    points[5].second = 40;
    auto record = batch(points);
    record.aerations = turnedAt({0, 120, 240});
    CHECK(turnings(turnedRule(Continuity::cumulative), record).recorded == 3.0);
    CHECK(turnings(turnedRule(Continuity::consecutive), record).recorded == 1.0);
}

TEST_CASE("only turnings far enough apart are counted and as many as can be") {
    auto record = batch(steady(60, 240));
    record.aerations = turnedAt({10, 40, 58, 90, 106});
    CHECK(turnings(turnedRule(Continuity::consecutive, hours(48)), record).recorded == 3.0);
}

TEST_CASE("only a turning is a turning") {
    auto record = batch(steady(60, 96));
    record.aerations = turnedAt({1, 2});
    record.aerations[0].kind = AerationKind::forked;
    record.aerations[1].kind = AerationKind::poked;
    const auto figures = turnings(turnedRule(Continuity::consecutive), record);
    CHECK(figures.recorded == 0.0);
    CHECK(figures.state == ConditionState::notHeld);
}

TEST_CASE("turnings are unrecorded only when no aeration was ever written down") {
    auto record = batch(steady(60, 96));
    CHECK(turnings(turnedRule(Continuity::consecutive), record).state == ConditionState::notRecorded);
    record.aerations = turnedAt({500});
    CHECK(turnings(turnedRule(Continuity::consecutive), record).state == ConditionState::notHeld);
}

TEST_CASE("turnings never change the verdict") {
    auto record = batch(steady(60, 96));
    record.aerations = turnedAt({500});
    CHECK(judge(turnedRule(Continuity::consecutive), record).verdict == Verdict::shown);
}

TEST_CASE("the steward's last answer to a condition stands") {
    const auto rule = withCondition({"curing", "it was cured", {}});
    auto record = batch(steady(60, 96));
    CHECK(judge(rule, record).conditions.at(0).state == ConditionState::notRecorded);
    record.observations = {answer(1, "curing", "no"), answer(2, "curing", "yes"), answer(3, "other", "no")};
    CHECK(judge(rule, record).conditions.at(0).state == ConditionState::held);
    record.observations.push_back(answer(4, "curing", "no"));
    CHECK(judge(rule, record).conditions.at(0).state == ConditionState::notHeld);
    record.observations.push_back(answer(5, "curing", "perhaps"));
    CHECK(judge(rule, record).conditions.at(0).state == ConditionState::notHeld);
}

TEST_CASE("a band of carbon to nitrogen is judged from the mixture and else from the steward's answer") {
    const auto rule = withCondition({"mix", "the mixture was right", CarbonNitrogenBand{25, 40}});
    auto record = batch(steady(60, 96));
    record.observations = {answer(1, "mix", "yes")};
    CHECK(judge(rule, record).conditions.at(0).state == ConditionState::held);
    auto mixed = addition(0, "something from the shed", false);
    mixed.massKilograms = 10;
    mixed.moisturePercent = 50;
    mixed.nitrogenPercent = 1;
    mixed.carbonNitrogen = 41;
    record.additions = {mixed};
    const auto figures = judge(rule, record).conditions.at(0);
    CHECK(figures.state == ConditionState::notHeld);
    CHECK(figures.recorded.value_or(0) == Approx(41));
}

TEST_CASE("conditions of the best way come before those of the criterion") {
    auto rule = withCondition({"curing", "it was cured", {}});
    rule.alternatives[0].conditions = {{"pieces", "small pieces", {}}};
    const auto conditions = judge(rule, batch(steady(60, 96))).conditions;
    REQUIRE(conditions.size() == 2);
    CHECK(conditions[0].id == "pieces");
    CHECK(conditions[1].id == "curing");
}
