// SPDX-License-Identifier: GPL-3.0-or-later
// Worked cases for the published rules, each with the text whose figures it checks. The arithmetic is in the case.
// Where a case depends on how time between readings is counted, Middenbook's own definition holds: an interval is
// credited whole when both its ends qualify.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "core/criteria/criteria_json.h"
#include "core/criteria/judgement.h"
#include "core/criteria/phrases.h"
#include "core/criteria/words.h"
#include "core/quantities/zone.h"
#include "tests/support/log.h"

using namespace midden;
using namespace midden::testing;

namespace {

const Criterion& shipped(const std::string& id) {
    const auto& all = shippedCriteria();
    return *std::find_if(all.begin(), all.end(), [&](const Criterion& one) { return one.id == id; });
}

Judgement judged(const std::string& id, const BatchRecord& record) {
    return judge(shipped(id), record);
}

/// "not-shown 48 of 72 h, 72 h in all"
std::string told(const std::string& id, const BatchRecord& record) {
    const auto one = judged(id, record);
    return std::string{word(one.verdict)} + " " + durationWords(one.credited) + " of " +
           std::to_string(one.required.count / 3'600) + " h, " + durationWords(one.cumulative) + " in all";
}

using Words = std::vector<std::string>;

Words verdicts(const std::string& id, const std::vector<Points>& logs) {
    Words words;
    for (const auto& points : logs) {
        words.emplace_back(word(judged(id, batch(points)).verdict));
    }
    return words;
}

/// "60 °C for 7 days: 168 h, shown" for each way
Words waysOf(const Judgement& one) {
    Words ways;
    for (const auto& way : one.alternatives) {
        ways.push_back(way.title + ": " + durationWords(way.steps[0].longestRun) + ", " + word(way.verdict));
    }
    return ways;
}

ConditionState turningState(const std::string& id, const BatchRecord& record) {
    return judged(id, record).conditions.at(0).state;
}

/// 45 °C every hour for so many hours, with `hot` hours of it at `degrees`.
Points warmWithHotHours(int hoursLong, int hot, double degrees) {
    auto points = steady(45, hoursLong, 1);
    std::for_each(points.begin() + 10, points.begin() + 11 + hot, [&](auto& point) { point.second = degrees; });
    return points;
}

}  // namespace

TEST_CASE("three days of 55 with one reading below are not consecutive") {
    // 21 CFR 112.54(b)(1), three consecutive days; 40 CFR 503 App. B, B.1. Runs of 24 h and 48 h, 72 h in all.
    const auto record = batch({{0, 56}, {24, 57}, {48, 54.9}, {72, 56}, {96, 57}, {120, 57}});
    CHECK(told("fsma-static", record) == "not-shown 48 h of 72 h, 72 h in all");
    CHECK(told("us503-vessel", record) == "not-shown 48 h of 72 h, 72 h in all");
}

TEST_CASE("exactly 55.0 for exactly 72 h is enough and 54.9 once is not") {
    // 21 CFR 112.54(b)(1) and 40 CFR 503 App. B, B.1: at 55 °C or higher.
    CHECK(judged("us503-vessel", batch(steady(55, 72))).verdict == Verdict::shown);
    auto points = steady(55, 72);
    points[2].second = 54.9;
    CHECK(judged("us503-vessel", batch(points)).verdict == Verdict::notShown);
}

TEST_CASE("a spring clock change takes an hour from three mornings and an autumn one gives one") {
    // Europe/London, 08:00 on 29 March to 1 April 2024: 71 h; on 26 to 29 October 2024: 73 h (IANA time zone database).
    const auto london = TimeZone::named("Europe/London").value();
    const auto mornings = [&](std::initializer_list<WallTime> days) {
        Track core{"core", false, {}};
        for (const auto& day : days) {
            core.samples.emplace_back(std::get<Moment>(london.meaningOf(day)).at, celsius(57));
        }
        return batch({core});
    };
    const auto spring = mornings({{2024, 3, 29, 8}, {2024, 3, 30, 8}, {2024, 3, 31, 8}, {2024, 4, 1, 8}});
    const auto autumn = mornings({{2024, 10, 26, 8}, {2024, 10, 27, 8}, {2024, 10, 28, 8}, {2024, 10, 29, 8}});
    CHECK(told("fsma-static", spring) == "not-shown 71 h of 72 h, 71 h in all");
    CHECK(told("fsma-static", autumn) == "shown 73 h of 72 h, 73 h in all");
}

TEST_CASE("fifteen days need five turnings within them") {
    // 40 CFR 503 App. B, B.1; 7 CFR 205.203(c)(2)(iii); 21 CFR 112.54(b)(2). A turning never changes the verdict.
    const auto states = [](const std::string& id) {
        Words words;
        auto record = batch(steady(57, 360));
        for (const auto& fifth : {std::vector<Aeration>{}, turnedAt({300}), turnedAt({400})}) {
            record.aerations = turnedAt({48, 96, 144, 192});
            record.aerations.insert(record.aerations.end(), fifth.begin(), fifth.end());
            words.push_back(std::string{word(turningState(id, record))} + ", " + word(judged(id, record).verdict));
        }
        return words;
    };
    const Words expected{"not-held, shown", "held, shown", "not-held, shown"};
    for (const std::string id : {"us503-windrow", "nop-windrow", "fsma-turned", "us257-windrow", "us-ca-windrow"}) {
        CAPTURE(id);
        CHECK(states(id) == expected);
    }
}

TEST_CASE("carbon to nitrogen from 25 to 40 with both ends in") {
    // 7 CFR 205.203(c)(2)(i): an initial ratio of between 25:1 and 40:1; the ends taken as included.
    const auto state = [](double ratio) {
        auto record = batch(steady(57, 72));
        auto mix = addition(0, "a mixture", false);
        mix.massKilograms = 100;
        mix.moisturePercent = 60;
        mix.nitrogenPercent = 1.3;
        mix.carbonNitrogen = ratio;
        record.additions = {mix};
        return judged("nop-vessel", record).conditions.at(0).state;
    };
    using State = ConditionState;
    const std::vector<State> found{state(24.9), state(25.0), state(30), state(40.0), state(40.1)};
    CHECK(found == std::vector{State::notHeld, State::held, State::held, State::held, State::notHeld});
}

TEST_CASE("five days of 40 with four hours above 55 within them") {
    // 40 CFR 503 App. B, A.4, as reproduced in 327 IAC 6.1-4-14(a)(4): exceeds 55 °C for four hours.
    CHECK(judged("us503-psrp", batch(warmWithHotHours(120, 4, 56))).verdict == Verdict::shown);
    CHECK(judged("us503-psrp", batch(warmWithHotHours(120, 4, 55))).verdict == Verdict::notShown);
    CHECK(judged("us503-psrp", batch(warmWithHotHours(120, 3, 56))).verdict == Verdict::notShown);
    CHECK(judged("us503-psrp", batch(warmWithHotHours(119, 4, 56))).verdict == Verdict::notShown);
}

TEST_CASE("fourteen days above 40 with an average above 45") {
    // 40 CFR 503.33(b)(5): higher than 40 °C throughout, on average higher than 45 °C.
    CHECK(judged("us503-vector", batch(steady(45.1, 336))).verdict == Verdict::shown);
    CHECK(judged("us503-vector", batch(steady(45, 336))).verdict == Verdict::notShown);
    CHECK(judged("us503-vector", batch(steady(45.1, 335, 5))).verdict == Verdict::notShown);
    auto dipping = steady(50, 336);
    dipping[5].second = 40;
    CHECK(judged("us503-vector", batch(dipping)).verdict == Verdict::notShown);
}

TEST_CASE("one log is shown in the European Union by seven days of 60") {
    // Regulation (EU) 2019/1009, Annex II, CMC 3: 70 °C 3 d, 65 °C 5 d, 60 °C 7 d, 55 °C 14 d. Four days at 65.2, three
    // at 60.5, seven at 56.0; a block's last reading stands for its end.
    Points points;
    for (int day = 0; day <= 14; ++day) {
        points.emplace_back(day * 24.0, day <= 4 ? 65.2 : (day <= 7 ? 60.5 : 56.0));
    }
    const auto eu = judged("eu-cmc3", batch(points));
    CHECK(eu.verdict == Verdict::shown);
    CHECK(waysOf(eu) == Words{"70 °C for 3 days: 0 s, not-shown", "65 °C for 5 days: 96 h, not-shown",
                              "60 °C for 7 days: 168 h, shown", "55 °C for 14 days: 336 h, shown"});
    CHECK(eu.conditions.at(0).state == ConditionState::notRecorded);
}

TEST_CASE("one log is shown in Germany and not in the European Union and the evidence says why") {
    // BioAbfV Annex 2, 2.2.2.1: 65 °C for 3 days is enough there; CMC 3 asks five days of 65 °C.
    const auto record = batch({{0, 66}, {24, 66}, {48, 66}, {72, 66}, {96, 40}});
    const auto germany = judged("de-bioabfv", record);
    CHECK(germany.verdict == Verdict::shown);
    CHECK(germany.alternatives.at(germany.best).title == "65 °C for 3 days");
    const auto europe = judged("eu-cmc3", record);
    CHECK(europe.verdict == Verdict::notShown);
    CHECK(europe.evidence.back().reason == "core 40 °C, below 65 °C");
}

TEST_CASE("three turnings two days apart") {
    // Wales SI 2006/1293 Sch. 1 Part II, housed windrow: 60 °C, 8 days, three turnings not less than two days apart.
    auto record = batch(steady(60, 192));
    record.aerations = turnedAt({48, 96, 144});
    CHECK(turningState("uk-windrow", record) == ConditionState::held);
    record.aerations = turnedAt({48, 72, 144});
    CHECK(turningState("uk-windrow", record) == ConditionState::notHeld);
    CHECK(judged("uk-windrow", record).verdict == Verdict::shown);
}

TEST_CASE("more than a week above 50 means more of both") {
    // WHO guidelines 2006, volume 4, as reported by Practical Action: above 50 °C for more than a week.
    CHECK(judged("who-2006", batch(steady(50, 168))).verdict == Verdict::notShown);
    CHECK(judged("who-2006", batch(steady(50.1, 168))).verdict == Verdict::notShown);
    CHECK(judged("who-2006", batch(steady(50.1, 169, 13))).verdict == Verdict::shown);
}

TEST_CASE("the thermometer's error of one degree makes 55.4 uncertain and leaves 56.0 firm") {
    // Guarded acceptance, JCGM 106:2012: the acceptance limit is the tolerance limit moved in by the guard band.
    CHECK(judged("us503-vessel", batch(steady(55.4, 72), 1)).verdict == Verdict::shownWithinError);
    CHECK(judged("us503-vessel", batch(steady(56.0, 72), 1)).verdict == Verdict::shown);
}

TEST_CASE("131 and 170 degrees Fahrenheit are 55 and 76 and two thirds") {
    // 7 CFR 205.203(c)(2): 131 °F to 170 °F. 131 °F is exactly 55 °C.
    CHECK(toCelsius({1'310'000, TemperatureUnit::fahrenheit}) == celsius(55));
    CHECK(judged("nop-vessel", batch(steady(55, 72))).verdict == Verdict::shown);
    CHECK(judged("nop-vessel", batch(steady(76.6666, 72))).verdict == Verdict::shown);
    CHECK(judged("nop-vessel", batch(steady(76.6667, 72))).verdict == Verdict::notShown);
}

TEST_CASE("a hotter curve counts for every point of the literature curve but nothing between its points") {
    // Feachem and others 1983: 62 °C 1 h, 50 °C 1 d, 46 °C 1 week, 43 °C 1 month.
    CHECK(verdicts("feachem", {steady(62, 1, 0.5), steady(50, 24, 12), steady(46, 168), steady(43, 720)}) ==
          Words(4, "shown"));
    CHECK(verdicts("feachem", {steady(61.9, 1, 0.5), steady(49.9, 167, 1), steady(45.9, 719, 1)}) ==
          Words(3, "not-shown"));
}

namespace {

/// 40 CFR 503.32(a)(3), holding time in days at t °C, as in 15A NCAC 02T .1106 and 327 IAC 6.1-4-13; for teaching only.
double daysForSolids(double celsiusHeld) {
    return 131'700'000 / std::pow(10, 0.1400 * celsiusHeld);
}
double daysForLiquids(double celsiusHeld) {
    return 50'070'000 / std::pow(10, 0.1400 * celsiusHeld);
}

}  // namespace

TEST_CASE("the time a rule by equation asks at 55 and at 60 degrees stays below the three days of the vessel rule") {
    CHECK(daysForSolids(50) == Approx(13.170));
    CHECK(daysForSolids(60) == Approx(0.524307).epsilon(1e-5));
    CHECK(daysForSolids(70) * 24 * 60 == Approx(30.057).epsilon(1e-4));
    CHECK(daysForLiquids(55) == Approx(0.999028).epsilon(1e-5));
    CHECK(daysForLiquids(50) == Approx(5.007));
    CHECK(daysForSolids(55) / daysForLiquids(55) == Approx(2.63032).epsilon(1e-5));
    const auto held = shipped("us503-vessel").alternatives[0].steps[0].hold.hours() / 24;
    CHECK(daysForSolids(55) < held);
}
