// SPDX-License-Identifier: GPL-3.0-or-later
// What of a batch's record the layers of a fed bin are reckoned from.
#include <algorithm>
#include <catch2/catch.hpp>

#include "core/review/review.h"
#include "core/review/review_text.h"
#include "tests/core/review/made_record.h"

using namespace midden;
using namespace midden::testing;

namespace {

/// Fed 25 L on the first day, which lie 10 cm high in 250 L that are 100 cm high. A thermometer at 3 cm.
BatchRecord fedRecord(const Points& points) {
    auto record = coreRecord(points);
    record.batch.fed = true;
    record.batch.stays = {{start, BinId{1}}};
    record.bin.volumeLitres = 250;
    record.bin.heightCentimetres = 100;
    record.tracks[0].heightCentimetres = 3;
    add(record, 0);
    record.additions[0].volumeLitres = 25;
    return record;
}

void addLevel(BatchRecord& record, double hour, const std::string& centimetres) {
    Observation level;
    level.when.at = atHour(hour);
    level.kind = ObservationKind::level;
    level.value = centimetres;
    record.observations.push_back(level);
}

Points hotFrom(int firstDay, int lastDay) {
    Points points;
    for (int day = firstDay; day <= lastDay; ++day) {
        points.emplace_back(24.0 * day, 67);
    }
    return points;
}

FedReview reviewed(const BatchRecord& record) {
    const auto review = reviewOf(record, {});
    REQUIRE(review.fed);
    return *review.fed;
}

bool lacks(const FedReview& fed, Lacking what) {
    return std::ranges::find(fed.reckoning.lacking, what) != fed.reckoning.lacking.end();
}

}  // namespace

TEST_CASE("only a fed batch is reckoned by layers, by the book's target") {
    auto record = fedRecord(hotFrom(11, 15));
    addLevel(record, 240, "7");
    const auto fed = reviewed(record);
    CHECK(fed.threshold == degrees(55));
    CHECK(fed.hold == hours(72));
    CHECK(fed.asOf == atHour(15 * 24));
    REQUIRE(fed.reckoning.layers.size() == 2);
    CHECK(fed.reckoning.layers[0].atLeast == hours(96));
    CHECK(fed.reckoning.lacking.empty());
    ReviewQuestions hotter;
    hotter.stalls.target = {degrees(65), hours(24), ordinaryMaxGap};
    CHECK(reviewOf(record, hotter).fed->reckoning.layers[0].atLeast == hours(0));
    record.batch.fed = false;
    CHECK_FALSE(reviewOf(record, {}).fed);
}

TEST_CASE("turnings mix everything, forkings to their depth, and other air nothing") {
    auto record = fedRecord(hotFrom(11, 15));
    addLevel(record, 240, "7");
    Aeration aeration;
    aeration.when.at = atHour(13 * 24 + 12);
    const auto layersAfter = [&](AerationKind kind, std::optional<double> depth) {
        aeration.kind = kind;
        aeration.depthCentimetres = depth;
        record.aerations = {aeration};
        return reviewed(record).reckoning.layers.size();
    };
    CHECK(layersAfter(AerationKind::turned, {}) == 1);
    CHECK(layersAfter(AerationKind::turned, 1) == 1);
    CHECK(layersAfter(AerationKind::forked, {}) == 1);
    CHECK(layersAfter(AerationKind::forked, 1) == 2);
    CHECK(layersAfter(AerationKind::poked, {}) == 2);
    CHECK(layersAfter(AerationKind::opened, {}) == 2);
    CHECK(layersAfter(AerationKind::watered, {}) == 2);
}

TEST_CASE("a batch that was moved was turned, and what was read before shows nothing") {
    auto record = fedRecord(hotFrom(11, 15));
    addLevel(record, 240, "7");
    record.batch.stays.push_back({atHour(13 * 24), BinId{2}});
    const auto fed = reviewed(record);
    REQUIRE(fed.reckoning.layers.size() == 1);
    CHECK(fed.reckoning.layers[0].atLeast == hours(0));
    addLevel(record, 13 * 24 + 1, "7");
    const auto measured = reviewed(record);
    CHECK(measured.reckoning.layers[0].atLeast == hours(24));  // the reading on the day of the move comes before it
}

TEST_CASE("litres are measured, else by the material's bulk density, else assumed, and the review says so") {
    auto record = fedRecord(hotFrom(1, 2));
    add(record, 24);
    record.additions[1].material = "something nobody knows";
    add(record, 48);
    record.additions[2].material = "something nobody knows";
    add(record, 72, false);
    const auto fed = reviewed(record);
    const auto* chips = builtInMaterials().find("wood chips");
    REQUIRE(chips != nullptr);
    REQUIRE(chips->bulkDensity);
    REQUIRE(fed.assumed.size() == 2);
    CHECK(fed.assumed[0].material == "something nobody knows");
    CHECK(fed.assumed[0].from == LitresFrom::assumed);
    CHECK(fed.assumed[0].additions == 2);
    CHECK(fed.assumed[0].litres == Approx(2 * 8 / 0.40));
    CHECK(fed.assumed[1].from == LitresFrom::density);
    CHECK(fed.assumed[1].litres == Approx(8'000 / chips->bulkDensity->typical));
    CHECK_FALSE(fed.reckoning.layers.back().raw);
    const auto text = reviewText(reviewOf(record, {}), TimeZone::utc());
    CHECK(text.find("2 feeds of something nobody knows, taken as 40.0 L at 0.40 kg per litre") != std::string::npos);
    CHECK(text.find("1 feed of wood chips, taken as") != std::string::npos);
}

TEST_CASE("what is missing is told: volume, height, positions, levels that are old or disagree") {
    auto record = fedRecord(hotFrom(11, 15));
    record.bin.volumeLitres.reset();
    record.tracks[0].heightCentimetres.reset();
    const auto none = reviewed(record);
    CHECK(lacks(none, Lacking::binVolume));
    CHECK(lacks(none, Lacking::anyLevel));
    CHECK(none.positionsWithoutHeight == std::vector<std::string>{"core"});

    auto old = fedRecord(hotFrom(11, 30));
    addLevel(old, 240, "7");
    CHECK(lacks(reviewed(old), Lacking::recentLevel));
    CHECK(reviewText(reviewOf(old, {}), TimeZone::utc()).find("no level in the last 14 days") != std::string::npos);

    auto odd = fedRecord(hotFrom(11, 15));
    addLevel(odd, 240, "90");
    CHECK(lacks(reviewed(odd), Lacking::agreement));
}

TEST_CASE("entries written late or out of order are reckoned in their own time") {
    auto record = fedRecord(hotFrom(11, 25));
    addLevel(record, 240, "7");
    Harvest harvest;
    harvest.when.at = atHour(16 * 24);
    harvest.volumeLitres = 5;
    record.harvests = {harvest};
    add(record, 5 * 24);
    record.additions[1].volumeLitres = 10;
    const auto inOrder = reviewed(record);
    std::swap(record.additions[0], record.additions[1]);
    const auto mixedUp = reviewed(record);
    REQUIRE(inOrder.reckoning.layers.size() == mixedUp.reckoning.layers.size());
    for (std::size_t i = 0; i < inOrder.reckoning.layers.size(); ++i) {
        CHECK(inOrder.reckoning.layers[i].fedFrom == mixedUp.reckoning.layers[i].fedFrom);
        CHECK(inOrder.reckoning.layers[i].atLeast == mixedUp.reckoning.layers[i].atLeast);
        CHECK(inOrder.reckoning.layers[i].litres == Approx(mixedUp.reckoning.layers[i].litres));
    }
    REQUIRE(mixedUp.reckoning.harvests.size() == 1);
}

TEST_CASE("of many layers the lowest are told in words and the others counted") {
    auto record = fedRecord(hotFrom(1, 2));
    for (int day = 1; day <= 40; ++day) {
        add(record, 24.0 * day);
        record.additions.back().volumeLitres = 2;
    }
    const auto text = reviewText(reviewOf(record, {}), TimeZone::utc());
    CHECK(text.find("  and 21 layers above") != std::string::npos);
}
