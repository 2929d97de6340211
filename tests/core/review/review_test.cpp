// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/review.h"

#include <rapidcheck.h>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "core/review/review_json.h"
#include "core/review/review_text.h"

using namespace midden;
using namespace midden::literals;

namespace {

struct Point {
    double hour;
    double celsius;
};

Track track(const std::string& position, const std::vector<Point>& points) {
    Track made{position};
    for (const auto& [hour, celsius] : points) {
        made.samples.emplace_back(Instant{static_cast<std::int64_t>(hour * 3'600)},
                                  Celsius::ofTenThousandths(static_cast<std::int64_t>(celsius * 10'000)), 1_K);
    }
    return made;
}

BatchRecord recordOf(std::vector<Track> tracks) {
    BatchRecord record;
    record.batch.name = "First";
    record.binName = "North";
    record.tracks = std::move(tracks);
    for (const auto& one : record.tracks) {
        record.readings += static_cast<std::int64_t>(one.samples.size());
    }
    return record;
}

BatchReview review(const BatchRecord& record, Celsius threshold = 55_degC) {
    return reviewOf(record, {{threshold}, hours(36), {}});
}

/// Readings of one position, hours apart by 1 to 48, between 30 and 70 °C.
Track anyTrack() {
    Track made{"core"};
    std::int64_t at = 0;
    for (const int step : *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 48 * 4'000))) {
        at += (1 + step / 4'000) * 3'600;
        made.samples.emplace_back(Instant{at}, Celsius::ofTenThousandths(300'000 + (step % 4'000) * 100));
    }
    return made;
}

}  // namespace

TEST_CASE("the whole batch counts only while every position is hot") {
    const auto answer =
        review(recordOf({track("core", {{0, 60}, {24, 61}, {48, 60}}), track("side", {{0, 54}, {24, 56}, {48, 55}})}));
    REQUIRE(answer.thresholds.size() == 1);
    const auto& at55 = answer.thresholds[0];
    CHECK(at55.whole.credited == hours(24));
    CHECK(at55.whole.longestRun == hours(24));
    REQUIRE(at55.windows.size() == 1);
    CHECK(at55.windows[0].from == Instant{24 * 3'600});
    REQUIRE(at55.byPosition.size() == 2);
    CHECK(at55.byPosition[0].figures.credited == hours(48));
    CHECK(at55.byPosition[1].figures.interpolatedSeconds == Approx(36 * 3'600));
    CHECK(answer.peak->temperature == 61_degC);
    CHECK(answer.peak->position == "core");
}

TEST_CASE("a spot check is named and does not take part") {
    auto record = recordOf({track("core", {{0, 60}, {24, 60}}), track("lid", {{0, 30}})});
    record.tracks[1].spotCheck = true;
    const auto answer = review(record);
    CHECK(answer.positions == std::vector<std::string>{"core"});
    CHECK(answer.spotChecks == std::vector<std::string>{"lid"});
    CHECK(answer.thresholds[0].whole.credited == hours(24));
}

TEST_CASE("thresholds come back in the order asked and gaps by the gap asked") {
    const auto record = recordOf({track("core", {{0, 60}, {30, 60}, {70, 60}})});
    const auto answer = reviewOf(record, {{60_degC, 40_degC, 60_degC}, hours(30), {}});
    REQUIRE(answer.thresholds.size() == 3);
    CHECK(answer.thresholds[1].threshold == 40_degC);
    REQUIRE(answer.gaps.size() == 1);
    CHECK(answer.gaps[0].interval.length() == hours(40));
}

TEST_CASE("a batch without readings has a review that says nothing") {
    const auto answer = review(recordOf({}));
    CHECK_FALSE(answer.peak);
    CHECK(answer.thresholds[0].whole.credited == Seconds{});
    CHECK(answer.thresholds[0].byPosition.empty());
    CHECK_THAT(reviewText(answer, TimeZone::utc()), Catch::Contains("no readings yet"));
}

TEST_CASE("review JSON has the documented shape") {
    const auto answer = review(recordOf({track("core", {{0, 60}, {24, 60}, {72, 50}})}));
    const auto json = nlohmann::json::parse(reviewJson({&answer, 1}));
    CHECK(json["format"] == "middenbook.review/1");
    const auto& batch = json["batches"][0];
    CHECK(batch["batch"] == "First");
    CHECK(batch["started"] == "1970-01-01T00:00:00Z");
    CHECK(batch["finished"].is_null());
    CHECK(batch["peak"] == nlohmann::json{{"celsius", 60.0}, {"at", "1970-01-01T00:00:00Z"}, {"position", "core"}});
    CHECK(batch["thresholds"][0]["celsius"] == 55.0);
    CHECK(batch["thresholds"][0]["credited_hours"] == 24.0);
    CHECK(batch["thresholds"][0]["windows"][0]["to"] == "1970-01-02T00:00:00Z");
    CHECK(batch["thresholds"][0]["by_position"][0]["position"] == "core");
    CHECK(batch["gaps"][0] ==
          nlohmann::json{
              {"position", "core"}, {"from", "1970-01-02T00:00:00Z"}, {"to", "1970-01-04T00:00:00Z"}, {"hours", 48.0}});
    CHECK(batch["equivalents"]["days_at_10_celsius"] == Approx(32));
    CHECK(batch["mixture"].is_null());
    CHECK(batch["stalls"].is_array());
    CHECK(batch["criteria"].is_array());
    CHECK(batch["heat"]["time_constant"]["basis"] == "assumed");
    CHECK(batch["heat"]["self_heating"].is_null());
    CHECK(batch["heat"]["limits"].get<std::string>() == heatBalanceLimits({}, TauBasis::assumed));
}

TEST_CASE("the JSON of a stall tells heat and remedies as the text does") {
    auto record = recordOf({track("core", {{0, 52}, {24, 52}, {48, 52}, {72, 52}, {96, 40}, {120, 32}, {144, 26}})});
    record.outside = track("", {{0, 12}, {48, 12}, {96, 12}, {144, 12}}).samples;
    Observation tried;
    tried.kind = ObservationKind::remedy;
    tried.when.at = {100 * 3'600};
    tried.value = "turned";
    record.observations.push_back(tried);
    const auto answer = review(record);
    const auto json = nlohmann::json::parse(reviewJson({&answer, 1}));
    const auto& stall = json["batches"][0]["stalls"][0];
    CHECK(stall["heat"]["change"] == "stopped");
    CHECK(stall["heat"]["words"] == "Heat-making has stopped.");
    CHECK(stall["heat"]["excess_celsius"] == Approx(14));
    CHECK(stall["remedies"][0]["outcome"] == "too-early-to-say");
    CHECK(stall["remedies"][0]["at"] == "1970-01-05T04:00:00Z");
    const auto& heat = json["batches"][0]["heat"]["self_heating"];
    CHECK(heat["low"] <= heat["celsius_per_hour"]);
    CHECK(heat["celsius_per_hour"] <= heat["high"]);
    const auto text = reviewText(answer, TimeZone::utc());
    CHECK_THAT(text, Catch::Contains(stall["remedies"][0]["words"].get<std::string>()));
    CHECK_THAT(text, Catch::Contains(json["batches"][0]["heat"]["words"].get<std::string>()));
}

TEST_CASE("law: raising the threshold never adds time", "[random]") {
    CHECK(rc::check([] {
        const auto record = recordOf({anyTrack()});
        const auto low = review(record, Celsius::ofTenThousandths(*rc::gen::inRange(300'000, 700'000)));
        const auto high = review(record, low.thresholds[0].threshold + 1_K);
        RC_ASSERT(high.thresholds[0].whole.credited <= low.thresholds[0].whole.credited);
        RC_ASSERT(high.thresholds[0].whole.interpolatedSeconds <= low.thresholds[0].whole.interpolatedSeconds + 1e-3);
    }));
}

TEST_CASE("law: shifting all instants shifts all windows", "[random]") {
    CHECK(rc::check([] {
        auto shifted = recordOf({anyTrack()});
        const auto before = review(shifted).thresholds[0];
        const Seconds shift{*rc::gen::inRange(-100'000'000, 100'000'000)};
        for (auto& sample : shifted.tracks[0].samples) {
            sample.at = sample.at + shift;
        }
        const auto after = review(shifted).thresholds[0];
        RC_ASSERT(after.windows.size() == before.windows.size());
        for (std::size_t i = 0; i < after.windows.size(); ++i) {
            RC_ASSERT(after.windows[i].from == before.windows[i].from + shift);
            RC_ASSERT(after.windows[i].to == before.windows[i].to + shift);
        }
    }));
}

TEST_CASE("law: a qualifying reading inside a credited interval changes nothing", "[random]") {
    CHECK(rc::check([] {
        const auto record = recordOf({anyTrack()});
        const auto before = review(record).thresholds[0];
        RC_PRE(!before.windows.empty());
        const auto window = *rc::gen::elementOf(before.windows);
        const auto at = window.from + Seconds{*rc::gen::inRange<std::int64_t>(1, window.length().count)};
        auto more = record;
        auto& samples = more.tracks[0].samples;
        const auto place = std::find_if(samples.begin(), samples.end(), [&](const Sample& s) { return s.at >= at; });
        RC_PRE(place->at != at);
        samples.insert(place, Sample{at, 58_degC});
        const auto after = review(more).thresholds[0];
        RC_ASSERT(after.windows == before.windows);
    }));
}

TEST_CASE("law: credited time never exceeds interpolated time", "[random]") {
    CHECK(rc::check([] {
        const auto at55 = review(recordOf({anyTrack()})).thresholds[0];
        RC_ASSERT(static_cast<double>(at55.whole.credited.count) <= at55.whole.interpolatedSeconds + 1e-3);
        RC_ASSERT(at55.whole.longestRun <= at55.whole.credited);
    }));
}

TEST_CASE("what leaves with air is told as far as it is known, and whether the balance has it") {
    Bin bin;
    CHECK(heatBalanceLimits(bin, TauBasis::wall).find("Left out, too, is the heat that leaves with air") !=
          std::string::npos);
    CHECK(heatBalanceLimits(bin, TauBasis::wall).find("carries about 83 W") != std::string::npos);
    CHECK(heatBalanceLimits(bin, TauBasis::coolDowns).find("Not told apart is the heat") != std::string::npos);
    CHECK(heatBalanceLimits(bin, TauBasis::wall).find("poor picture") == std::string::npos);
    bin.volumeLitres = 300;
    bin.ventSquareCentimetres = 20;
    bin.ventRiseCentimetres = 80;
    CHECK(heatBalanceLimits(bin, TauBasis::wall).find("at up to 7.4 m³ an hour") != std::string::npos);
    CHECK(heatBalanceLimits(bin, TauBasis::wall).find("The shorter end of the range has it.") != std::string::npos);
    bin.airChangesPerHour = 2;
    CHECK(heatBalanceLimits(bin, TauBasis::wall)
              .find("0.6 m³ an hour: at 55 °C, with 10 °C outside, that carries about 50 W. It is in the reckoning.") !=
          std::string::npos);
    CHECK(heatBalanceLimits(bin, TauBasis::coolDowns).find("is in the cool-downs") != std::string::npos);
    CHECK(heatBalanceLimits(bin, TauBasis::assumed).find("It is left out") != std::string::npos);
    bin.insulationMillimetres = 0;
    CHECK(heatBalanceLimits(bin, TauBasis::wall).find("poor picture") != std::string::npos);
}
