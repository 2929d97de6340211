// SPDX-License-Identifier: GPL-3.0-or-later
#include <sqlite3.h>

#include <catch2/catch.hpp>

#include "core/store/entries/occupancy.h"
#include "core/store/schema/schema.h"
#include "core/store/sqlite/reading_slice.h"
#include "tests/core/store/books.h"

using namespace midden;
using namespace midden::trial;
using Kind = LogbookError::Kind;

namespace {

std::vector<RawReading> hourly(int count, int from = 0) {
    std::vector<RawReading> readings;
    readings.reserve(static_cast<std::size_t>(count));
    for (int i = 0; i < count; ++i) {
        readings.push_back({at(from + i).at, 500'000 + 100 * (i % 5'000)});
    }
    return readings;
}

}  // namespace

TEST_CASE("a long slice stores what its readings store in short ones and in any order of calls") {
    const auto count = GENERATE(999, 1'000, 1'001, 1'007, 1'008, 5'000);
    auto whole = Logbook::inMemory();
    auto piecewise = Logbook::inMemory();
    const auto readings = hourly(count);
    const Place place{putBin(whole, "North"), "core"};
    REQUIRE(putBin(piecewise, "North") == *place.bin);

    CHECK(whole.addReadings({place}, readings).added == count);
    const std::span all{readings};
    const auto third = readings.size() / 3;
    piecewise.addReadings({place}, all.subspan(third));
    for (std::size_t i = 0; i < third; ++i) {
        piecewise.addReadings({place}, all.subspan(i, 1));
    }

    const auto stored = [&](const Logbook& book) {
        std::vector<std::pair<Instant, WrittenTemperature>> found;
        book.visitReadings(place,
                           [&](const Reading& reading) { found.emplace_back(reading.when.at, reading.written); });
        return found;
    };
    CHECK(stored(whole).size() == readings.size());
    CHECK(stored(whole) == stored(piecewise));
    CHECK(whole.check(nullptr).faults.empty());
}

TEST_CASE("readings already there are left out of a long slice and one that differs stops all of it") {
    auto book = Logbook::inMemory();
    const Place place{putBin(book, "North"), "core"};
    auto readings = hourly(3'000);
    std::vector<RawReading> some;
    for (std::size_t i = 0; i < readings.size(); i += 7) {
        some.push_back(readings[i]);
    }
    book.addReadings({place}, some);
    const auto outcome = book.addReadings({place}, readings);
    CHECK(outcome.alreadyThere == std::ssize(some));
    CHECK(outcome.added == std::ssize(readings) - std::ssize(some));

    auto longer = hourly(6'000);
    longer[2'000].tenThousandths += 1;
    const auto refused = book.addReadings({place}, longer);
    REQUIRE(refused.conflict);
    CHECK(refused.conflict->at == longer[2'000].at);
    CHECK(refused.added == 0);
    CHECK(book.check(nullptr).readings == std::ssize(readings));
}

TEST_CASE("a bulk import leaves the book asking again for what entries belong to") {
    auto book = Logbook::inMemory();
    const Place place{putBin(book, "North"), "core"};
    book.addReadings({place}, hourly(2'000));
    const IssuedCertificate ofNoBatch{"1", BatchId{999}, at(1).at, std::string(64, '0'), "text", ""};
    CHECK_THROWS_AS(book.storeCertificate(ofNoBatch), LogbookError);
    CHECK(book.check(nullptr).faults.empty());
}

TEST_CASE("a stored slice leaves the file looking at the range of every row again") {
    DatabaseFile file{":memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE};
    setUpConnection(file);
    migrate(file);
    file.run("INSERT INTO series VALUES (0, NULL, '', NULL, 0, 0, 1, '')");
    storeSlice(file, 0, hourly(2'000));
    CHECK(file.number("SELECT count(*) FROM reading") == 2'000);
    CHECK_THROWS_AS(file.run("INSERT INTO reading VALUES (0, 1, 1500001)"), LogbookError);
    CHECK_THROWS_AS(file.run("INSERT INTO reading VALUES (2, 1, 0)"), LogbookError);
}

TEST_CASE("a typed reading comes back as it was written") {
    auto book = Logbook::inMemory();
    book.setHand("Ada", [] { return at(30).at; });
    const auto bin = putBin(book, "North");
    const auto probe = putProbe(book, "long one");
    Reading reading = readingOf({bin, "core"}, 1, 0);
    reading.written = {1'371'234, TemperatureUnit::fahrenheit};
    reading.when.offset = {60};
    reading.probe = probe;
    reading.note = "steaming; it's \"hot\"";
    book.apply(Put<Reading>{reading});

    const auto back = book.reading(reading.id());
    REQUIRE(back);
    CHECK(back->written == reading.written);
    CHECK(back->when == reading.when);
    CHECK(back->probe == probe);
    CHECK(back->note == reading.note);
    CHECK(back->provenance.who == "Ada");
    CHECK(back->provenance.entered == at(30).at);
    CHECK(back->provenance.source == Source::typed);
}

TEST_CASE("one place and instant holds one reading over all series") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    putReading(book, bin, "core", 1, 55);
    Reading other = readingOf({bin, "core"}, 1, 55);
    other.when.offset = {60};
    CHECK(refusalOf([&] { book.apply(Put<Reading>{other}); }) == Kind::refused);
    CHECK_FALSE(refusalOf([&] { putReading(book, bin, "side", 1, 55); }));
    CHECK_FALSE(refusalOf([&] { putReading(book, bin, "core", 2, 55); }));
    const Reading moved = readingOf({bin, "core"}, 1, 60);
    CHECK(refusalOf([&] { book.apply(Amend<Reading>{{{bin, "core"}, at(2).at}, moved, "slip"}); }) == Kind::refused);
}

TEST_CASE("a reading outside the range of a compost thermometer is refused in either unit") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    CHECK(refusalOf([&] { putReading(book, bin, "core", 1, 150.0001); }) == Kind::refused);
    CHECK_FALSE(refusalOf([&] { putReading(book, bin, "core", 1, 150); }));
    Reading reading = readingOf({bin, "core"}, 2, 0);
    reading.written = {3'020'000, TemperatureUnit::fahrenheit};
    CHECK_FALSE(refusalOf([&] { book.apply(Put<Reading>{reading}); }));
    reading.when = at(3);
    reading.written = {3'020'001, TemperatureUnit::fahrenheit};
    CHECK(refusalOf([&] { book.apply(Put<Reading>{reading}); }) == Kind::refused);
    reading.written = {-760'001, TemperatureUnit::fahrenheit};
    CHECK(refusalOf([&] { book.apply(Put<Reading>{reading}); }) == Kind::refused);
}

TEST_CASE("a correction of time and thermometer keeps who typed the reading") {
    auto book = Logbook::inMemory();
    book.setHand("Ada", [] { return at(1).at; });
    const auto bin = putBin(book, "North");
    const auto id = putReading(book, bin, "core", 1, 55);
    book.setHand("Grace", [] { return at(5).at; });
    auto corrected = *book.reading(id);
    corrected.when = at(2);
    corrected.written = degrees(56);
    corrected.probe = putProbe(book, "short one");
    corrected.note = "read again";
    const auto applied = book.apply(Amend<Reading>{id, corrected, "wrong hour"});
    CHECK_FALSE(book.reading(id));
    const auto now = book.reading({{bin, "core"}, at(2).at});
    REQUIRE(now);
    CHECK(now->written == degrees(56));
    CHECK(now->probe == corrected.probe);
    CHECK(now->note == "read again");
    CHECK(now->provenance.who == "Ada");
    CHECK(now->provenance.entered == at(1).at);

    book.apply(applied.inverse);
    const auto before = book.reading(id);
    REQUIRE(before);
    CHECK(before->written == degrees(55));
    CHECK(before->note.empty());
    CHECK_FALSE(before->probe);
}

TEST_CASE("bulk readings are added once") {
    auto book = Logbook::inMemory();
    const ReadingColumn column{{putBin(book, "North"), "core"}};
    const auto readings = hourly(1'000);
    CHECK(book.addReadings(column, readings).added == 1'000);
    const auto again = book.addReadings(column, readings);
    CHECK(again.added == 0);
    CHECK(again.alreadyThere == 1'000);
    CHECK_FALSE(again.conflict);
    CHECK(book.addReadings(column, {}).added == 0);
}

TEST_CASE("a bulk conflict stores nothing of its call") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    putReading(book, bin, "core", 500, 99);
    const ReadingColumn column{{bin, "core"}};
    auto outcome = book.addReadings(column, hourly(1'000));
    REQUIRE(outcome.conflict);
    CHECK(outcome.conflict->at == at(500).at);
    CHECK(outcome.conflict->stands == degrees(99));
    CHECK(outcome.added == 0);
    CHECK_FALSE(book.reading({{bin, "core"}, at(0).at}));

    book.inOneTransaction([&] {
        CHECK(book.addReadings(column, hourly(500)).added == 500);
        CHECK(book.addReadings(column, hourly(10, 495)).conflict);
        CHECK(book.addReadings(column, hourly(10, 600)).added == 10);
    });
    CHECK(book.reading({{bin, "core"}, at(499).at})->written == WrittenTemperature{549'900, TemperatureUnit::celsius});
    CHECK(book.reading({{bin, "core"}, at(600).at}));
    CHECK_FALSE(book.reading({{bin, "core"}, at(501).at}));
}

TEST_CASE("bulk readings meet those of other series of the place") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    ReadingColumn winter{{bin, "core"}};
    ReadingColumn summer = winter;
    summer.offset = {60};
    summer.who = "Ada";
    CHECK(book.addReadings(winter, hourly(10'000)).added == 10'000);
    const auto outcome = book.addReadings(summer, hourly(10'500));
    CHECK(outcome.conflict == std::nullopt);
    CHECK(outcome.alreadyThere == 10'000);
    CHECK(outcome.added == 500);
    ReadingColumn fahrenheit = winter;
    fahrenheit.unit = TemperatureUnit::fahrenheit;
    const RawReading same[] = {{at(0).at, 1'220'000}};  // 50 °C
    CHECK(book.addReadings(fahrenheit, same).alreadyThere == 1);
    const RawReading other[] = {{at(0).at, 1'220'001}};
    CHECK(book.addReadings(fahrenheit, other).conflict);
}

TEST_CASE("bulk readings out of order or out of range are refused") {
    auto book = Logbook::inMemory();
    const ReadingColumn column{{putBin(book, "North"), "core"}};
    const RawReading twice[] = {{at(1).at, 500'000}, {at(1).at, 500'000}};
    CHECK(refusalOf([&] { book.addReadings(column, twice); }) == Kind::refused);
    const RawReading hot[] = {{at(1).at, 500'000}, {at(2).at, 1'500'001}};
    CHECK(refusalOf([&] { book.addReadings(column, hot); }) == Kind::refused);
    const RawReading early[] = {{beginningOfTime - Seconds{1}, 500'000}, {at(2).at, 500'000}};
    CHECK(refusalOf([&] { book.addReadings(column, early); }) == Kind::refused);
    const RawReading late[] = {{at(2).at, 500'000}, {endOfTime, 500'000}};
    CHECK(refusalOf([&] { book.addReadings(column, late); }) == Kind::refused);
    CHECK(book.places(*column.place.bin).empty());
}

TEST_CASE("the last two readings of each position are at hand") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    putReading(book, bin, "core", 1, 50);
    Reading later = readingOf({bin, "core"}, 3, 52);
    later.when.offset = {60};
    book.apply(Put<Reading>{later});
    putReading(book, bin, "core", 2, 51);
    putReading(book, bin, "side", 1, 40);
    book.apply(Put<Reading>{readingOf({}, 3, 7)});
    book.apply(Put<Reading>{readingOf({}, 2, 6)});

    const auto last = book.lastReadings(bin);
    REQUIRE(last.size() == 2);
    CHECK(last[0].place.position == "core");
    CHECK(last[0].last.written == degrees(52));
    CHECK(last[0].before->written == degrees(51));
    CHECK(last[1].last.written == degrees(40));
    CHECK_FALSE(last[1].before);
    CHECK(book.lastOutside()->written == degrees(7));
}

TEST_CASE("readings of a batch come in time order and no more than asked for") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    const auto batch = putBatch(book, bin, "spring", 0);
    for (const int hour : {3, 1, 2}) {
        putReading(book, bin, "side", hour, 40);
        putReading(book, bin, "core", hour, 50);
    }
    book.apply(Put<Reading>{readingOf({bin, ""}, 1, 5)});
    const Interval all{at(0).at, at(100).at};
    CHECK(book.readings(batch, all, false, 100).size() == 6);
    CHECK(book.readings(batch, all, true, 100).size() == 7);
    const auto some = book.readings(batch, {at(1).at, at(2).at}, false, 3);
    REQUIRE(some.size() == 3);
    CHECK(some[0].place.position == "core");
    CHECK(some[1].place.position == "side");
    CHECK(some[2].when.at == at(2).at);
}

TEST_CASE("a position that only readings tell of is made a spot check and back") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    putReading(book, bin, "core", 1, 55);
    const Place core{bin, "core"};
    const auto applied = book.apply(Amend<PlaceSetting>{core, {core, true}, ""});
    REQUIRE(book.places(bin).size() == 1);
    CHECK(book.places(bin)[0].spotCheck);
    book.apply(applied.inverse);
    CHECK_FALSE(book.places(bin)[0].spotCheck);
    CHECK(refusalOf([&] {
              book.apply(Amend<PlaceSetting>{{bin, "side"}, {{bin, "side"}, true}, ""});
          }) == LogbookError::Kind::refused);
}
