// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include "tests/core/store/books.h"

using namespace midden;
using namespace midden::trial;
using Kind = LogbookError::Kind;

TEST_CASE("a batch stands in its bin from its start until and with its finish") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    Batch batch = batchIn(bin, "spring", 0);
    batch.finished = at(10);
    const auto id = std::get<BatchId>(book.apply(Put<Batch>{batch}).id);
    CHECK_FALSE(book.occupant(bin, at(-1).at));
    CHECK(book.occupant(bin, at(0).at) == id);
    CHECK(book.occupant(bin, at(10).at) == id);
    CHECK_FALSE(book.occupant(bin, at(10).at + Seconds{1}));
}

TEST_CASE("the next batch takes the bin over") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    const auto spring = putBatch(book, bin, "spring", 0);
    const auto summer = putBatch(book, bin, "summer", 100);
    CHECK(book.occupant(bin, at(99).at) == spring);
    CHECK(book.occupant(bin, at(100).at) == summer);
    CHECK(book.record(spring).finished == at(100).at);
    CHECK_FALSE(book.record(summer).finished);
    CHECK_FALSE(shown(book, spring).finished);
}

TEST_CASE("a batch moves on and its readings with it") {
    auto book = Logbook::inMemory();
    const auto north = putBin(book, "North");
    const auto south = putBin(book, "South");
    const auto id = putBatch(book, north, "spring", 0);
    putReading(book, north, "core", 1, 50);
    Batch batch = shown(book, id);
    batch.stays.push_back({at(24).at, south});
    book.apply(Amend<Batch>{id, batch, "turned over"});
    putReading(book, south, "core", 25, 52);
    putReading(book, north, "core", 26, 15);
    CHECK(book.occupant(north, at(23).at) == id);
    CHECK_FALSE(book.occupant(north, at(24).at));
    CHECK(book.occupant(south, at(24).at) == id);
    const auto record = book.record(id);
    CHECK(record.binName == "South");
    REQUIRE(record.tracks.size() == 1);
    REQUIRE(record.tracks[0].samples.size() == 2);
    CHECK(record.tracks[0].samples[1].at == at(25).at);
    CHECK(record.amendedEntries == 0);  // a move is no correction
}

TEST_CASE("a batch cannot take the entries of another") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    const auto spring = putBatch(book, bin, "spring", 0);
    putReading(book, bin, "core", 48, 60);
    CHECK(refusalOf([&] { putBatch(book, bin, "summer", 47); }) == Kind::refused);
    CHECK(book.batches().size() == 1);
    // A reading belongs to who stands there at that very second, so that the last one would change hands.
    CHECK(refusalOf([&] { putBatch(book, bin, "summer", 48); }) == Kind::refused);
    Batch summer = batchIn(bin, "summer", 48);
    summer.started.at = summer.stays[0].since = at(48).at + Seconds{1};
    CHECK_FALSE(refusalOf([&] { book.apply(Put<Batch>{summer}); }));
    CHECK(book.record(spring).readings == 1);
    // Before it, with a finish inside its time: the readings there are not the newcomer's to claim.
    Batch winter = batchIn(bin, "winter", -48);
    winter.finished = at(50);
    putReading(book, bin, "core", 24, 60);
    CHECK(refusalOf([&] { book.apply(Put<Batch>{winter}); }) == Kind::refused);
    winter.finished = at(0);
    CHECK_FALSE(refusalOf([&] { book.apply(Put<Batch>{winter}); }));
    CHECK(book.record(spring).readings == 2);
}

TEST_CASE("additions too keep another batch out of the bin") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    const auto spring = putBatch(book, bin, "spring", 0);
    book.apply(Put<Addition>{additionTo(spring, 30, "grass clippings", 2)});
    CHECK(refusalOf([&] { putBatch(book, bin, "summer", 29); }) == Kind::refused);
    CHECK_FALSE(refusalOf([&] { putBatch(book, bin, "summer", 30); }));
}

TEST_CASE("two batches cannot come to a bin at once") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    putBatch(book, bin, "spring", 0);
    CHECK(refusalOf([&] { putBatch(book, bin, "summer", 0); }) == Kind::refused);
    CHECK(refusalOf([&] { putBatch(book, putBin(book, "South"), "spring", 9); }) == Kind::refused);
}

TEST_CASE("a start nobody gave stands at the earliest entry") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    Batch batch = batchIn(bin, "spring", 48);
    batch.startGiven = false;
    const auto id = std::get<BatchId>(book.apply(Put<Batch>{batch}).id);
    CHECK(shown(book, id).started.at == at(48).at);

    const auto early = book.apply(Put<Reading>{readingOf({bin, "core"}, 24, 50)});
    CHECK(shown(book, id).started.at == at(24).at);
    CHECK(shown(book, id).stays[0].since == at(24).at);
    CHECK(book.occupant(bin, at(24).at) == id);
    CHECK(book.record(id).readings == 1);

    book.apply(Put<Addition>{additionTo(id, 12, "straw", 1)});
    CHECK(shown(book, id).started.at == at(12).at);
    const RawReading bulk[] = {{at(6).at, 500'000}};
    book.addReadings({{bin, "core"}}, bulk);
    CHECK(shown(book, id).started.at == at(6).at);

    // Written back as it was shown, nothing moves for good.
    Batch renamed = shown(book, id);
    renamed.name = "early spring";
    book.apply(Amend<Batch>{id, renamed, ""});
    book.apply(Withdraw<Reading>{{{bin, "core"}, at(6).at}, ""});
    CHECK(shown(book, id).started.at == at(12).at);
    book.apply(early.inverse);
    CHECK(shown(book, id).started.at == at(12).at);
}

TEST_CASE("an entry in the time of another batch moves no start") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    Batch spring = batchIn(bin, "spring", 0);
    spring.finished = at(10);
    const auto first = std::get<BatchId>(book.apply(Put<Batch>{spring}).id);
    Batch summer = batchIn(bin, "summer", 48);
    summer.startGiven = false;
    const auto second = std::get<BatchId>(book.apply(Put<Batch>{summer}).id);
    putReading(book, bin, "core", 5, 50);
    CHECK(shown(book, second).started.at == at(48).at);
    CHECK(book.occupant(bin, at(5).at) == first);
    putReading(book, bin, "core", 11, 50);
    CHECK(shown(book, second).started.at == at(11).at);
    CHECK(book.record(first).readings == 1);
    CHECK(book.record(second).readings == 1);
}

TEST_CASE("a given start stays where it was given") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    const auto id = putBatch(book, bin, "spring", 48);
    putReading(book, bin, "core", 24, 50);
    CHECK(shown(book, id).started.at == at(48).at);
    CHECK(book.record(id).readings == 0);
    CHECK_FALSE(book.occupant(bin, at(24).at));
}

TEST_CASE("unsound batches are refused") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    Batch batch = batchIn(bin, "spring", 0);
    batch.finished = at(-1);
    CHECK(refusalOf([&] { book.apply(Put<Batch>{batch}); }) == Kind::refused);
    batch.finished.reset();
    batch.stays.clear();
    CHECK(refusalOf([&] { book.apply(Put<Batch>{batch}); }) == Kind::refused);
    batch.stays = {{at(0).at, bin}, {at(0).at, bin}};
    CHECK(refusalOf([&] { book.apply(Put<Batch>{batch}); }) == Kind::refused);
    batch.stays = {{at(0).at, BinId{99}}};
    CHECK(refusalOf([&] { book.apply(Put<Batch>{batch}); }) == Kind::refused);
    CHECK(book.batches().empty());
}

TEST_CASE("what others hang on cannot be withdrawn") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    const auto probe = putProbe(book, "long one");
    const auto batch = putBatch(book, bin, "spring", 0);
    Reading reading = readingOf({bin, "core"}, 1, 50);
    reading.probe = probe;
    book.apply(Put<Reading>{reading});
    book.apply(Put<Addition>{additionTo(batch, 1, "straw", 1)});
    CHECK(refusalOf([&] { book.apply(Withdraw<Bin>{bin, ""}); }) == Kind::refused);
    CHECK(refusalOf([&] { book.apply(Withdraw<Probe>{probe, ""}); }) == Kind::refused);
    CHECK(refusalOf([&] { book.apply(Withdraw<Batch>{batch, ""}); }) == Kind::refused);
    CHECK(refusalOf([&] { book.apply(Withdraw<Batch>{BatchId{99}, ""}); }) == Kind::refused);
}
