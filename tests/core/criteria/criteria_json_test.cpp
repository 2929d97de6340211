// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/criteria/criteria_json.h"

#include <catch2/catch.hpp>

using namespace midden;

namespace {

const std::string stepText = R"({"at_least": "55 °C", "hours": 72, "continuity": "silent"})";

std::string criterionWith(const std::string& step, const std::string& more = "") {
    return R"({"id": "own", "title": "Own", "jurisdiction": "the group",
               "source": {"document": "minutes of 3 May", "checked": "agreed"}, "scope": "us", "method": "bin",
               "alternatives": [{"title": "only", "steps": [)" +
           step + "]}]" + more + "}";
}

std::string refusal(const std::string& text) {
    const auto criterion = parseGroupCriterion(text);
    return criterion ? "" : criterion.error().sentence();
}

std::string replaced(std::string text, const std::string& was, const std::string& becomes) {
    text.replace(text.find(was), was.size(), becomes);
    return text;
}

const std::string stepRefused = "criterion \"own\", alternative 1, step 1: ";

}  // namespace

TEST_CASE("the criteria that ship can be read and have the agreed names") {
    const auto& shipped = shippedCriteria();
    for (const std::string id : {"us503-vessel", "us503-windrow", "us503-psrp", "us503-vector", "nop-vessel",
                                 "nop-windrow", "fsma-static", "fsma-turned", "eu-cmc3", "de-bioabfv", "uk-reactor",
                                 "uk-windrow", "ca-vessel", "ca-windrow", "who-2006", "feachem"}) {
        CAPTURE(id);
        CHECK(std::any_of(shipped.begin(), shipped.end(), [&](const Criterion& one) { return one.id == id; }));
    }
}

TEST_CASE("every criterion that ships comes back from its own text") {
    for (const auto& criterion : shippedCriteria()) {
        CAPTURE(criterion.id);
        const auto text = criterionText(criterion);
        const auto again = parseCriteria(R"({"format": "middenbook.criteria/1", "criteria": [)" + text + "]}");
        REQUIRE(again);
        CHECK(criterionText(again->at(0)) == text);
    }
}

TEST_CASE("a criterion of the group says that it is one") {
    const auto own = parseGroupCriterion(criterionWith(stepText));
    REQUIRE(own);
    CHECK(own->ofTheGroup);
    CHECK(own->alternatives[0].steps[0].continuity == Continuity::silent);
    CHECK(parseGroupCriterion(criterionText(*own)));
}

TEST_CASE("every field of a step is read") {
    const auto own = parseGroupCriterion(criterionWith(
        stepText + R"(, {"above": "131 °F", "at_most": "170 °F", "more_than_hours": 0.5, "continuity": "consecutive",
                        "mean_at_least": "60 °C", "turnings": {"count": 3, "apart_hours": 48}, "max_gap_hours": 12,
                        "within_step": 1})"));
    REQUIRE(own);
    const auto& step = own->alternatives[0].steps[1];
    CHECK(step.threshold == WrittenTemperature{1'310'000, TemperatureUnit::fahrenheit});
    CHECK(step.exceeds);
    CHECK(step.ceiling == WrittenTemperature{1'700'000, TemperatureUnit::fahrenheit});
    CHECK(step.hold == minutes(30));
    CHECK(step.holdExceeds);
    CHECK(step.continuity == Continuity::consecutive);
    CHECK_FALSE(step.mean->exceeds);
    CHECK(step.turnings->count == 3);
    CHECK(step.turnings->minimumSpacing == hours(48));
    CHECK(step.maxGap == hours(12));
    CHECK(step.withinStep == 0);
    CHECK(criterionText(parseGroupCriterion(criterionText(*own)).value()) == criterionText(*own));
}

TEST_CASE("a wrong field of a step is named with what was found and what was expected") {
    const std::vector<std::vector<std::string>> cases{
        {"\"55 °C\"", "\"warm\"", "at_least: found \"warm\"; expected a temperature such as 58.5"},
        {"\"55 °C\"", "\"55\"",
         "at_least: found \"55\"; expected a temperature with its unit, such as 55 °C or 131 °F"},
        {"\"55 °C\"", "55", "at_least: found 55; expected words in quotation marks"},
        {"\"55 °C\"", "\"250 °C\"", "at_least: found \"250 °C\"; expected a value from -60 to 150 °C"},
        {"72", "\"72\"", "hours: found \"72\"; expected a number from 0.016666666666666666 to 87840"},
        {"72", "-1", "hours: found -1; expected a number from 0.016666666666666666 to 87840"},
        {"\"hours\": 72, ", "", "found none of \"hours\" and \"more_than_hours\"; expected exactly one of them"},
        {"\"hours\"", "\"above\": \"50 °C\", \"hours\"",
         "found both of \"at_least\" and \"above\"; expected exactly one of them"},
        {"\"silent\"", "\"quiet\"", "continuity: found \"quiet\"; expected consecutive, cumulative or silent"},
        {"\"hours\"", "\"at_most\": \"55 °C\", \"hours\"",
         "at_most: found \"55 °C\"; expected a temperature above the threshold"},
        {"\"hours\"", "\"within_step\": 1, \"hours\"",
         "within_step: found 1; expected the number of an earlier step of the same alternative, counted from 1"},
        {"\"hours\"", "\"colour\": 1, \"hours\"",
         "field \"colour\" is not known; expected only the fields of the format"}};
    for (const auto& one : cases) {
        CHECK(refusal(criterionWith(replaced(stepText, one[0], one[1]))) == stepRefused + one[2]);
    }
}

TEST_CASE("an average does not go with adding up") {
    const auto text = R"({"at_least": "40 °C", "hours": 72, "continuity": "cumulative", "mean_above": "45 °C"})";
    CHECK(refusal(criterionWith(text)) ==
          stepRefused + "continuity: found \"cumulative\"; expected consecutive or silent beside an average");
}

TEST_CASE("turnings are counted in whole numbers") {
    const auto text = R"({"at_least": "40 °C", "hours": 72, "continuity": "silent", "turnings": {"count": 2.5}})";
    CHECK(refusal(criterionWith(text)) ==
          "criterion \"own\", alternative 1, step 1, turnings: count: found 2.5; expected a whole number");
}

TEST_CASE("a wrong criterion is refused in words") {
    const auto good = criterionWith(stepText);
    CHECK(refusal("{").substr(0, 21) == "the text is not JSON:");
    CHECK(refusal("[]") == "criterion: found []; expected an object in braces");
    CHECK(refusal(replaced(good, "\"own\"", "\"Our own\"")) ==
          "criterion: id: found \"Our own\"; expected small letters, digits and hyphens");
    CHECK(refusal(replaced(good, "\"own\"", "\"target\"")) ==
          "criterion \"target\": the id is taken; expected an id of its own");
    CHECK(refusal(replaced(good, "\"own\"", "\"eu-cmc3\"")) ==
          "criterion \"eu-cmc3\": the id is taken; expected an id of its own");
    CHECK(refusal(replaced(good, "\"scope\": \"us\", ", "")) ==
          "criterion \"own\": field \"scope\" is missing; expected a field \"scope\"");
    CHECK(refusal(criterionWith("")) ==
          "criterion \"own\", alternative 1: steps: found []; expected a list in square brackets with at least one "
          "entry");
}

TEST_CASE("one condition asks the same question everywhere") {
    CHECK(refusal(criterionWith(stepText, R"(, "conditions": [{"id": "curing", "words": "left alone"}])")) ==
          "criterion \"own\", condition \"curing\": found \"left alone\"; expected the words this condition has "
          "elsewhere, \"the hot phase was followed by an adequate curing phase\"");
}

TEST_CASE("a band of carbon to nitrogen has its ends in order") {
    CHECK(refusal(criterionWith(
              stepText,
              R"(, "conditions": [{"id": "mix", "words": "w", "carbon_nitrogen": {"least": 40, "most": 25}}])")) ==
          "criterion \"own\", condition 1, carbon_nitrogen: most: found 25; expected no less than \"least\"");
}

TEST_CASE("a file must say its format") {
    const auto wrong = parseCriteria(R"({"format": "other/1", "criteria": []})");
    REQUIRE_FALSE(wrong);
    CHECK(wrong.error().sentence() == "criteria: format: found \"other/1\"; expected \"middenbook.criteria/1\"");
}
