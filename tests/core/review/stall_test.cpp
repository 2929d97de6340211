// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/stall.h"

#include <catch2/catch.hpp>

#include "made_record.h"

using namespace midden;
using namespace midden::testing;

TEST_CASE("a bin that is still cold five days after filling has never heated") {
    const auto stalls = stallsOf(coreRecord(daily({12, 20, 28, 31, 33, 34})));
    REQUIRE(stalls.size() == 1);
    CHECK(stalls[0].kind == StallKind::neverHeated);
    CHECK(nameOf(stalls[0].kind) == "never-heated");
    CHECK(stalls[0].from == atHour(0));
    CHECK_FALSE(stalls[0].to);
    CHECK(stalls[0].hoursCredited == 0);
    CHECK(stalls[0].hoursShort == 72);
}

TEST_CASE("the five days count from the first addition and end at any entry of the batch") {
    auto record = coreRecord(daily({12, 20, 28, 31, 33, 34}));
    add(record, 12);
    CHECK(stallsOf(record).empty());
    record.tracks[0].samples = samplesOf(daily({12, 20, 28}));
    aerate(record, 132);
    REQUIRE(stallsOf(record).size() == 1);
    CHECK(stallsOf(record)[0].from == atHour(12));
}

TEST_CASE("a bin first hot at the very entry that ends the five days has heated and one hot later has not") {
    CHECK(stallsOf(coreRecord(daily({12, 20, 28, 31, 40, 45, 50}))).empty());
    const auto stalls = stallsOf(coreRecord(daily({12, 20, 28, 31, 40, 44.9, 45})));
    REQUIRE(stalls.size() == 1);
    CHECK(stalls[0].kind == StallKind::neverHeated);
    CHECK(stalls[0].to == atHour(144));
}

TEST_CASE("one reading alone is never a stall") {
    auto record = coreRecord({{100, 20}});
    aerate(record, 130);
    CHECK(stallsOf(record).empty());
    CHECK(stallsOf(coreRecord({})).empty());
}

TEST_CASE("a bin that goes cold for a day before its hold is done cools early") {
    const auto stalls = stallsOf(coreRecord(daily({20, 58, 60, 44, 40, 47})));
    REQUIRE(stalls.size() == 1);
    CHECK(stalls[0].kind == StallKind::earlyCooling);
    CHECK(nameOf(stalls[0].kind) == "early-cooling");
    CHECK(stalls[0].from == atHour(72));
    CHECK(stalls[0].to == atHour(120));
    CHECK(stalls[0].hoursCredited == 24);
    CHECK(stalls[0].hoursShort == 48);
}

TEST_CASE("two readings below that span a minute less than a day are not yet a stall") {
    CHECK(stallsOf(coreRecord({{0, 58}, {24, 44}, {47.98, 44}})).empty());
    CHECK(stallsOf(coreRecord({{0, 58}, {24, 44}, {48, 44}})).size() == 1);
    CHECK(stallsOf(coreRecord({{0, 58}, {24, 44}})).empty());
}

TEST_CASE("a gap between the cold readings is a gap and not a stall") {
    CHECK(stallsOf(coreRecord({{0, 58}, {24, 44}, {24 + 37, 40}})).empty());
    CHECK(stallsOf(coreRecord({{0, 58}, {24, 44}, {24 + 36, 40}})).size() == 1);
    const auto afterwards = stallsOf(coreRecord({{0, 58}, {24, 44}, {72, 40}, {96, 39}}));
    REQUIRE(afterwards.size() == 1);
    CHECK(afterwards[0].from == atHour(72));
}

TEST_CASE("the thermometer error counts against the target and so decides what cooling is early") {
    CHECK(stallsOf(coreRecord(daily({56, 56, 56, 56, 40, 35, 30}))).empty());
    const auto stalls = stallsOf(coreRecord(daily({55.9, 56, 56, 56, 40, 35, 30})));
    REQUIRE(stalls.size() == 1);
    CHECK(stalls[0].hoursCredited == 48);
    CHECK(stalls[0].hoursShort == 24);
}

TEST_CASE("cooling after the target is shown is ordinary even when fresh material comes later") {
    auto record = coreRecord(daily({60, 60, 60, 60, 40, 35, 30, 30, 30, 30}));
    CHECK(stallsOf(record).empty());
    add(record, 150);
    CHECK(stallsOf(record).empty());
}

TEST_CASE("raw material starts the clock again and clean material does not") {
    auto record = coreRecord(daily({60, 60, 60, 60, 60, 40, 35}));
    add(record, 80, false);
    CHECK(stallsOf(record).empty());
    add(record, 90, true);
    const auto stalls = stallsOf(record);
    REQUIRE(stalls.size() == 1);
    CHECK(stalls[0].from == atHour(120));
    CHECK(stalls[0].hoursCredited == 0);
    CHECK(stalls[0].hoursShort == 72);
}

TEST_CASE("every monitored position must show the target but the warmest decides what is cold") {
    auto record = coreRecord(daily({60, 60, 60, 60, 50, 44, 40}));
    record.tracks.push_back({"side", false, samplesOf(daily({50, 50, 50, 50, 46, 46, 40}))});
    CHECK(stallsOf(record).empty());
    record.tracks[1].samples.emplace_back(atHour(168), degrees(39), Kelvins{});
    REQUIRE(stallsOf(record).size() == 1);
    CHECK(stallsOf(record)[0].from == atHour(144));
    record.tracks[1].spotCheck = true;
    CHECK(stallsOf(record).empty());
}

TEST_CASE("readings within the hour are one round and the warmest speaks for it") {
    const auto stalls = stallsOf(coreRecord({{0, 58}, {24, 43}, {24.5, 44}, {25, 46}, {48, 40}, {72, 40}}));
    REQUIRE(stalls.size() == 1);
    CHECK(stalls[0].from == atHour(48));
}

TEST_CASE("a dip soon after handling and soon over is a handling dip") {
    const auto points = daily({58, 58, 44, 40, 50});
    auto record = coreRecord(points);
    aerate(record, 24,
           GENERATE(AerationKind::turned, AerationKind::forked, AerationKind::opened, AerationKind::watered));
    const auto stalls = stallsOf(record);
    REQUIRE(stalls.size() == 1);
    CHECK(nameOf(stalls[0].kind) == "handling-dip");
    CHECK(stalls[0].to == atHour(96));
    auto fed = coreRecord(points);
    add(fed, 30);
    CHECK(stallsOf(fed)[0].kind == StallKind::handlingDip);
}

TEST_CASE("poking explains no dip and neither does handling a day and a minute before or a dip that lasts") {
    const auto points = daily({58, 58, 44, 40, 50});
    auto poked = coreRecord(points);
    aerate(poked, 30, AerationKind::poked);
    CHECK(stallsOf(poked)[0].kind == StallKind::earlyCooling);
    auto early = coreRecord(points);
    aerate(early, 23.98);
    CHECK(stallsOf(early)[0].kind == StallKind::earlyCooling);
    auto late = coreRecord(daily({58, 58, 44, 40, 40, 50}));
    aerate(late, 30);
    CHECK(stallsOf(late)[0].kind == StallKind::earlyCooling);
    auto open = coreRecord(daily({58, 58, 44, 40}));
    aerate(open, 30);
    CHECK(stallsOf(open)[0].kind == StallKind::earlyCooling);
}

TEST_CASE("one mistyped reading raises nothing") {
    CHECK(stallsOf(coreRecord(daily({20, 55, 58, 6.0, 60, 60, 60, 60, 50, 40, 35}))).empty());
    CHECK(stallsOf(coreRecord(daily({20, 55, 58, -58, 60, 60, 60, 60, 50, 40, 35}))).empty());
}
