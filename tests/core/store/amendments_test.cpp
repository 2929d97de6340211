// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/core/store/books.h"

using namespace midden;
using namespace midden::trial;

namespace {

struct Spring {
    Spring() {
        book.setHand("Ada", [this] { return now; });
        bin = putBin(book, "North");
        batch = putBatch(book, bin, "spring", 0);
    }
    Amendment last() const { return book.amendments(batch).back(); }
    std::int64_t amended() const { return book.record(batch).amendedEntries; }

    Instant now = at(50).at;
    Logbook book = Logbook::inMemory();
    BinId bin{};
    BatchId batch{};
};

}  // namespace

TEST_CASE("a corrected reading stays in the book struck through") {
    Spring spring;
    const auto id = putReading(spring.book, spring.bin, "core", 1, 58.5);
    auto corrected = *spring.book.reading(id);
    corrected.written = degrees(55.5);
    spring.book.setHand("Grace", [] { return at(60).at; });
    spring.book.apply(Amend<Reading>{id, corrected, "misread"});

    REQUIRE(spring.book.amendments(spring.batch).size() == 1);
    const auto amendment = spring.last();
    CHECK(amendment.kind == EntryKind::reading);
    CHECK(amendment.batch == spring.batch);
    CHECK(amendment.at == at(1).at);
    CHECK(amendment.subject == "core, North");
    CHECK(amendment.was == "58.5 °C");
    CHECK(amendment.became == "55.5 °C");
    CHECK(amendment.amended == at(60).at);
    CHECK(amendment.who == "Grace");
    CHECK(amendment.why == "misread");
    CHECK(spring.amended() == 1);
}

TEST_CASE("a withdrawn reading is counted once however often it changes") {
    Spring spring;
    const auto id = putReading(spring.book, spring.bin, "core", 1, 58.5);
    CHECK(spring.amended() == 0);
    const auto gone = spring.book.apply(Withdraw<Reading>{id, "wrong bin"});
    CHECK(spring.last().was == "58.5 °C");
    CHECK(spring.last().became.empty());
    CHECK(spring.amended() == 1);
    spring.book.apply(gone.inverse);
    CHECK(spring.last().was.empty());
    CHECK(spring.last().became == "58.5 °C");
    CHECK(spring.amended() == 1);
    CHECK(spring.book.amendments(spring.batch).size() == 2);
    putReading(spring.book, spring.bin, "core", 2, 50);
    CHECK(spring.amended() == 1);
}

TEST_CASE("an undone entry is an amendment") {
    Spring spring;
    const auto put = spring.book.apply(Put<Reading>{readingOf({spring.bin, "core"}, 1, 58.5)});
    spring.book.apply(put.inverse);
    CHECK(spring.amended() == 1);
    CHECK(spring.last().why == "undone");
}

TEST_CASE("a reading given another time says so in both values") {
    Spring spring;
    const auto id = putReading(spring.book, spring.bin, "core", 1, 58.5);
    auto corrected = *spring.book.reading(id);
    corrected.when = at(2);
    spring.book.apply(Amend<Reading>{id, corrected, ""});
    CHECK(spring.last().was == "58.5 °C at 1 March 2026 13:00");
    CHECK(spring.last().became == "58.5 °C at 1 March 2026 14:00");
}

TEST_CASE("a changed note is an amendment and a new note is not") {
    Spring spring;
    const auto id = putReading(spring.book, spring.bin, "core", 1, 58.5);
    auto reading = *spring.book.reading(id);
    reading.note = "windy";
    spring.book.apply(Amend<Reading>{id, reading, ""});
    CHECK(spring.book.reading(id)->note == "windy");
    CHECK(spring.amended() == 0);
    reading.note = "calm";
    spring.book.apply(Amend<Reading>{id, reading, ""});
    CHECK(spring.amended() == 1);
    CHECK(spring.last().was == "58.5 °C, “windy”");
    CHECK(spring.last().became == "58.5 °C, “calm”");
}

TEST_CASE("amended additions and aerations are told in words") {
    Spring spring;
    const auto added = spring.book.apply(Put<Addition>{additionTo(spring.batch, 1, "grass clippings", 2)});
    auto addition = additionTo(spring.batch, 1, "grass clippings", 2.5);
    addition.moisturePercent = 80;
    const auto id = std::get<EntryId>(added.id);
    spring.book.apply(Amend<Addition>{id, addition, "weighed again"});
    CHECK(spring.last().subject == "addition");
    CHECK(spring.last().was == "2 kg grass clippings");
    CHECK(spring.last().became == "2.5 kg grass clippings, 80 % moisture");

    Aeration turning;
    turning.batch = spring.batch;
    turning.when = at(3);
    const auto turned = std::get<EntryId>(spring.book.apply(Put<Aeration>{turning}).id);
    turning.kind = AerationKind::forked;
    spring.book.apply(Amend<Aeration>{turned, turning, ""});
    CHECK(spring.last().was == "turned");
    CHECK(spring.last().became == "forked");
    CHECK(spring.amended() == 2);
}

TEST_CASE("amended observations and everything known of an addition are told in words") {
    Spring spring;
    Observation squeeze;
    squeeze.batch = spring.batch;
    squeeze.when = at(4);
    squeeze.kind = ObservationKind::squeeze;
    squeeze.value = "wet";
    const auto squeezed = std::get<EntryId>(spring.book.apply(Put<Observation>{squeeze}).id);
    squeeze.value = "right";
    spring.book.apply(Amend<Observation>{squeezed, squeeze, ""});
    CHECK(spring.last().subject == "observation");
    CHECK(spring.last().was == "squeeze test: wet");
    CHECK(spring.last().became == "squeeze test: right");

    auto addition = additionTo(spring.batch, 1, "grass clippings", 2);
    addition.volumeLitres = 20;
    addition.moisturePercent = 80;
    addition.carbonPercent = 45;
    addition.nitrogenPercent = 3;
    addition.carbonNitrogen = 15;
    addition.raw = true;
    const auto added = std::get<EntryId>(spring.book.apply(Put<Addition>{addition}).id);
    spring.book.apply(Withdraw<Addition>{added, "another bin's"});
    CHECK(spring.last().was ==
          "2 kg grass clippings, 20 litres, 80 % moisture, 45 % carbon, 3 % nitrogen, C:N 15, raw");
    CHECK(spring.last().became.empty());
}

TEST_CASE("a batch renamed after its finish is told with both") {
    Spring spring;
    auto batch = shown(spring.book, spring.batch);
    batch.finished = at(100);
    spring.book.apply(Amend<Batch>{spring.batch, batch, ""});
    const auto before = batch.name;
    batch.name = "early spring";
    spring.book.apply(Amend<Batch>{spring.batch, batch, ""});
    CHECK(spring.last().was.starts_with(before + ", started "));
    CHECK(spring.last().became.starts_with("early spring, started "));
    CHECK(spring.last().became.find(", finished ") != std::string::npos);
}

TEST_CASE("a finish is no correction but a changed finish is") {
    Spring spring;
    auto batch = shown(spring.book, spring.batch);
    batch.finished = at(100);
    spring.book.apply(Amend<Batch>{spring.batch, batch, ""});
    CHECK(spring.amended() == 0);
    batch.finished = at(90);
    spring.book.apply(Amend<Batch>{spring.batch, batch, ""});
    CHECK(spring.amended() == 1);
    CHECK(spring.last().kind == EntryKind::batch);
}

TEST_CASE("a corrected thermometer check counts for the batches read with it") {
    Spring spring;
    const auto probe = putProbe(spring.book, "long one");
    ThermometerCheck ice;
    ice.probe = probe;
    ice.when = at(-1);
    ice.read = degrees(0.5);
    const auto id = std::get<EntryId>(spring.book.apply(Put<ThermometerCheck>{ice}).id);
    ice.read = degrees(0.2);
    spring.book.apply(Amend<ThermometerCheck>{id, ice, ""});
    CHECK(spring.amended() == 0);
    Reading reading = readingOf({spring.bin, "core"}, 1, 50);
    reading.probe = probe;
    spring.book.apply(Put<Reading>{reading});
    CHECK(spring.amended() == 1);
    CHECK(spring.last().subject == "thermometer check, long one");
    CHECK(spring.last().was == "ice 0.5 °C");
    CHECK(spring.last().became == "ice 0.2 °C");
}

TEST_CASE("the file itself keeps what another tool changes") {
    const Folder folder;
    const auto file = folder / "plot.midden";
    BatchId batch{};
    {
        auto book = Logbook::open(file, Logbook::Mode::createIfAbsent);
        const auto bin = putBin(book, "North");
        batch = putBatch(book, bin, "spring", 0);
        putReading(book, bin, "core", 1, 58.5);
        putReading(book, bin, "core", 2, 59);
        book.apply(Put<Addition>{additionTo(batch, 1, "straw", 2)});
    }
    execute(file, "UPDATE reading SET raw = 700000 WHERE raw = 585000");
    execute(file, "DELETE FROM reading WHERE raw = 590000");
    execute(file, "DELETE FROM addition");
    CHECK_THROWS_AS(execute(file, "DELETE FROM amendment"), SQLite::Exception);
    CHECK_THROWS_AS(execute(file, "UPDATE amendment SET why = 'no reason'"), SQLite::Exception);
    CHECK_THROWS_AS(execute(file, "UPDATE series SET position = 'side'"), SQLite::Exception);
    const auto book = Logbook::open(file, Logbook::Mode::readOnly);
    const auto amendments = book.amendments(batch);
    REQUIRE(amendments.size() == 3);
    CHECK(amendments[0].was == "58.5 °C");
    CHECK(amendments[0].became == "70 °C");
    CHECK(amendments[1].was == "59 °C");
    CHECK(amendments[2].was == "2 kg straw");
    CHECK(amendments[0].amended.utcSeconds > noon.utcSeconds - 365 * 86'400);
    CHECK(book.record(batch).amendedEntries == 3);
}

TEST_CASE("text with quotes and line breaks survives an amendment") {
    Spring spring;
    auto addition = additionTo(spring.batch, 1, "\"straw\" \\ 'hay'\n\t", 2);
    const auto id = std::get<EntryId>(spring.book.apply(Put<Addition>{addition}).id);
    spring.book.apply(Withdraw<Addition>{id, ""});
    CHECK(spring.last().was == "2 kg " + addition.material);
}

TEST_CASE("an amendment names its entry, whatever else stands at the same second") {
    Spring spring;
    const auto put = [&](const std::string& material, double kilograms) {
        Addition addition;
        addition.batch = spring.batch;
        addition.when = at(1);
        addition.material = material;
        addition.massKilograms = kilograms;
        return std::get<EntryId>(spring.book.apply(Put<Addition>{addition}).id);
    };
    put("straw", 5);
    const EntryId second = put("straw", 6);
    const auto additions = spring.book.additions(spring.batch);
    Addition corrected =
        *std::find_if(additions.begin(), additions.end(), [&](const auto& a) { return a.id == second; });
    corrected.massKilograms = 7;
    spring.book.apply(Amend<Addition>{second, corrected, ""});
    CHECK(spring.last().entry == second);
    CHECK_FALSE(spring.last().reading);
    spring.book.apply(Withdraw<Addition>{second, ""});
    CHECK(spring.last().entry == second);
}

TEST_CASE("an amendment of a reading names the reading as it was and as it is") {
    Spring spring;
    const auto was = putReading(spring.book, spring.bin, "core/upper", 1, 58.5);
    auto corrected = *spring.book.reading(was);
    corrected.when = at(2);
    spring.book.apply(Amend<Reading>{was, corrected, ""});
    CHECK(spring.last().reading == was);
    CHECK(spring.last().readingIs == corrected.id());
    CHECK(spring.last().entry == EntryId{});
    spring.book.apply(Withdraw<Reading>{corrected.id(), ""});
    CHECK(spring.last().reading == corrected.id());
    CHECK_FALSE(spring.last().readingIs);
}

TEST_CASE("corrected air outside is told with the batch and makes no difference to what is counted of it") {
    Spring spring;
    putReading(spring.book, spring.bin, "core", 1, 58.5);
    for (const Place& place : {Place{spring.bin, ""}, Place{}}) {
        const auto id = std::get<ReadingId>(spring.book.apply(Put<Reading>{readingOf(place, 2, 8)}).id);
        spring.book.apply(Withdraw<Reading>{id, "misread"});
        CHECK(spring.last().reading == id);
        CHECK(spring.last().why == "misread");
    }
    CHECK(spring.book.amendments(spring.batch).size() == 2);
    CHECK(spring.amended() == 0);
    const auto before = std::get<ReadingId>(spring.book.apply(Put<Reading>{readingOf({}, -2, 8)}).id);
    spring.book.apply(Withdraw<Reading>{before, ""});
    CHECK(spring.book.amendments(spring.batch).size() == 2);
}

TEST_CASE("the air of the whole site is that of the time the batch stood") {
    Spring spring;
    for (const double hour : {-1.0, 1.0, 2.0, 3.0, 30.0}) {
        spring.book.apply(Put<Reading>{readingOf({}, hour, 8)});
    }
    spring.book.apply(Put<Reading>{readingOf({spring.bin, ""}, 2, 9)});
    putReading(spring.book, spring.bin, "core", 1, 58.5);
    auto batch = *spring.book.batch(spring.batch);
    batch.finished = at(24);
    spring.book.apply(Amend<Batch>{spring.batch, batch, ""});
    const Interval all{at(-100).at, at(100).at};
    const auto air = spring.book.siteAir(spring.batch, all, 100);
    REQUIRE(air.size() == 3);
    CHECK(air.front().when.at == at(1).at);
    CHECK(air.back().when.at == at(3).at);
    CHECK(spring.book.siteAir(spring.batch, {at(2).at, at(2).at}, 100).size() == 1);
    CHECK(spring.book.siteAir(spring.batch, all, 2).size() == 2);
}
