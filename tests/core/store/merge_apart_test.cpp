// SPDX-License-Identifier: GPL-3.0-or-later
// Copies in which the same bins and batches were begun apart.
#include <catch2/catch.hpp>

#include "tests/core/store/stewards.h"

using namespace midden;
using namespace midden::trial;

namespace {

BinId north(const Logbook& book) {
    return book.binNamed("North")->id;
}
BatchId spring(const Logbook& book) {
    return book.batchNamed("spring")->id;
}

}  // namespace

TEST_CASE("books begun apart are brought together by the names of their bins and batches") {
    auto one = Logbook::inMemory();
    auto other = Logbook::inMemory();
    for (Logbook* book : {&one, &other}) {
        if (book == &other) {
            putBin(*book, "South");  // so that the numbers differ
        }
        putBatch(*book, putBin(*book, "North"), "spring", 0);
    }
    putReading(one, north(one), "core", 1, 50);
    putReading(other, north(other), "core", 2, 51);
    CHECK(one.merge(other).conflicts.empty());
    CHECK(one.record(spring(one)).readings == 2);
    CHECK(one.batches().size() == 1);
    CHECK(one.bins().size() == 2);
}

TEST_CASE("of different batches that come to one bin at once the first by name stands there and people are told") {
    const Stewards stewards;
    auto ada = stewards.ada();
    auto grace = stewards.grace();
    putBatch(ada, north(ada), "summer", 50);
    putReading(ada, north(ada), "core", 51, 60);
    putBatch(grace, north(grace), "autumn", 50);
    const auto conflicts = ada.merge(grace).conflicts;
    REQUIRE(conflicts.size() == 1);
    CHECK_FALSE(conflicts[0].isChoice);
    CHECK(ada.record(ada.batchNamed("autumn")->id).readings == 1);
    CHECK(ada.record(ada.batchNamed("summer")->id).readings == 0);
    CHECK(ada.check({}).faults.empty());
    CHECK(ada.merge(grace).conflicts.empty());
    grace.merge(ada);
    CHECK(everything(grace) == everything(ada));
    Batch later = *ada.batchNamed("autumn");
    later.started = at(60);
    later.stays.front().since = later.started.at;
    ada.apply(Amend<Batch>{later.id, later, "it came later"});
    CHECK(ada.record(ada.batchNamed("summer")->id).readings == 1);
}

TEST_CASE("a bin set up twice under one name is one whatever their keys") {
    for (int trial = 0; trial < 8; ++trial) {  // keys are random
        auto one = Logbook::inMemory();
        auto other = Logbook::inMemory();
        auto third = Logbook::inMemory();
        putBatch(one, putBin(one, "North"), "spring", 0);
        putBatch(other, putBin(other, "East"), "spring", 10);
        putBatch(third, putBin(third, "North"), "summer", 20);
        one.merge(other);
        one.merge(third);
        CHECK(one.record(spring(one)).binName == "North");
    }
}
