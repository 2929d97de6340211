// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include "tests/core/store/books.h"

using namespace midden;
using namespace midden::literals;
using namespace midden::trial;

TEST_CASE("a record holds every position alphabetically with its allowance") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    const auto probe = putProbe(book, "long one", 0.5_K);
    const auto batch = putBatch(book, bin, "spring", 0);
    putReading(book, bin, "side", 1, 40);
    Reading reading = readingOf({bin, "core"}, 2, 0);
    reading.written = {1'310'000, TemperatureUnit::fahrenheit};
    reading.probe = probe;
    book.apply(Put<Reading>{reading});
    putReading(book, bin, "core", 1, 50);
    book.apply(Put<PlaceSetting>{{{bin, "side"}, true}});
    book.apply(Put<PlaceSetting>{{{bin, "base"}, false}});

    const auto record = book.record(batch);
    REQUIRE(record.tracks.size() == 2);
    CHECK(record.tracks[0].position == "core");
    CHECK_FALSE(record.tracks[0].spotCheck);
    REQUIRE(record.tracks[0].samples.size() == 2);
    CHECK(record.tracks[0].samples[0].allowance() == unknownAccuracy);
    CHECK(record.tracks[0].samples[1].temperature() == 55_degC);
    CHECK(record.tracks[0].samples[1].allowance() == 0.5_K);
    CHECK(record.tracks[1].position == "side");
    CHECK(record.tracks[1].spotCheck);
    CHECK(record.unreadPositions == std::vector<std::string>{"base"});
    CHECK(record.readings == 3);
    CHECK(record.binName == "North");
    REQUIRE(record.probes.size() == 1);
    CHECK(record.probes[0].name == "long one");
}

TEST_CASE("the outside air of the bin wins over that of the site") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    const auto batch = putBatch(book, bin, "spring", 0);
    for (const int hour : {-1, 1, 2, 3}) {
        book.apply(Put<Reading>{readingOf({}, hour, 5)});
    }
    book.apply(Put<Reading>{readingOf({bin, ""}, 2, 8)});
    book.apply(Put<Reading>{readingOf({putBin(book, "South"), ""}, 2.5, 20)});
    const auto outside = book.record(batch).outside;
    REQUIRE(outside.size() == 3);
    CHECK(outside[0].temperature() == 5_degC);
    CHECK(outside[1].temperature() == 8_degC);
    CHECK(outside[2].temperature() == 5_degC);
    CHECK(book.record(batch).readings == 0);
    CHECK(book.record(batch).tracks.empty());
}

TEST_CASE("series of one position are merged in time order") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    const auto batch = putBatch(book, bin, "spring", 0);
    for (const int hour : {5, 1, 3}) {
        putReading(book, bin, "core", hour, 50 + hour);
    }
    const RawReading bulk[] = {{at(2).at, 520'000}, {at(4).at, 540'000}, {at(6).at, 560'000}};
    book.addReadings({{bin, "core"}}, bulk);
    const auto record = book.record(batch);
    REQUIRE(record.tracks.size() == 1);
    const auto& samples = record.tracks[0].samples;
    REQUIRE(samples.size() == 6);
    for (int i = 0; i < 6; ++i) {
        CHECK(samples[static_cast<std::size_t>(i)].at == at(i + 1).at);
        CHECK(samples[static_cast<std::size_t>(i)].temperature() == toCelsius(degrees(51 + i)));
    }
}

TEST_CASE("a long reading says how far it has come and stops when told to") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    const auto batch = putBatch(book, bin, "spring", 0);
    for (const std::string position : {"core", "side"}) {
        std::vector<RawReading> many;
        for (int minute = 0; minute < 20'000; ++minute) {
            many.push_back({at(0).at + minutes(minute), 550'000});
        }
        book.addReadings({{bin, position}}, many);
    }
    std::vector<double> shares;
    const auto whole = book.record(batch, [&](double share) {
        shares.push_back(share);
        return true;
    });
    REQUIRE(whole);
    CHECK(whole->readings == 40'000);
    REQUIRE(shares.size() >= 8);
    CHECK(std::is_sorted(shares.begin(), shares.end()));
    CHECK(shares.front() >= 0);
    CHECK(shares.back() > 0.9);
    CHECK(shares.back() <= 1);
    int asked = 0;
    CHECK_FALSE(book.record(batch, [&](double) { return ++asked < 3; }));
    CHECK(asked == 3);
    CHECK(book.record(batch).readings == 40'000);
}

TEST_CASE("a batch is longer than a number of readings when it has more of them") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    const auto batch = putBatch(book, bin, "spring", 0);
    CHECK_FALSE(book.isLongerThan(batch, 0));
    putReading(book, bin, "core", 1, 50);
    putReading(book, bin, "side", 1, 50);
    book.apply(Put<Reading>{readingOf({}, 1, 5)});
    CHECK(book.isLongerThan(batch, 2));
    CHECK_FALSE(book.isLongerThan(batch, 3));
    const auto next = putBatch(book, bin, "summer", 10);
    CHECK_FALSE(book.isLongerThan(next, 0));
}

TEST_CASE("a glance reads only what is recent") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    const auto batch = putBatch(book, bin, "spring", 0);
    putReading(book, bin, "side", 1, 40);
    putReading(book, bin, "core", 1, 50);
    putReading(book, bin, "core", 9, 51);
    const auto glance = book.recordSince(batch, at(5).at);
    REQUIRE(glance.tracks.size() == 1);
    CHECK(glance.tracks[0].samples.size() == 1);
    CHECK(glance.unreadPositions.empty());
    CHECK(glance.readings == 1);
}

TEST_CASE("entries typed more than a day late are counted") {
    auto book = Logbook::inMemory();
    book.setHand("Ada", [] { return at(24.5).at; });
    const auto bin = putBin(book, "North");
    const auto batch = putBatch(book, bin, "spring", 0);
    putReading(book, bin, "core", 0.25, 50);
    putReading(book, bin, "core", 0.5, 50);  // a day to the second is in time
    putReading(book, bin, "core", 3, 50);
    book.apply(Put<Addition>{additionTo(batch, 0, "straw", 1)});
    Addition imported = additionTo(batch, 0, "leaves", 1);
    imported.provenance.source = Source::imported;
    book.apply(Put<Addition>{imported});
    CHECK(book.record(batch).lateEntries == 2);
}

TEST_CASE("a record carries its entries in time order and the checks of its thermometers") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    const auto batch = putBatch(book, bin, "spring", 0);
    const auto probe = putProbe(book, "long one");
    const auto unused = putProbe(book, "short one");
    book.apply(Put<Addition>{additionTo(batch, 5, "straw", 1.5)});
    Addition full = additionTo(batch, 2, "kitchen scraps", 3);
    full.volumeLitres = 10;
    full.moisturePercent = 70;
    full.carbonPercent = 45;
    full.nitrogenPercent = 3;
    full.carbonNitrogen = 15;
    full.raw = true;
    full.note = "with coffee";
    book.apply(Put<Addition>{full});
    Aeration turning;
    turning.batch = batch;
    turning.when = at(3);
    turning.kind = AerationKind::watered;
    book.apply(Put<Aeration>{turning});
    Observation squeeze;
    squeeze.batch = batch;
    squeeze.when = at(4);
    squeeze.kind = ObservationKind::squeeze;
    squeeze.value = "wet";
    book.apply(Put<Observation>{squeeze});
    for (const auto id : {probe, unused}) {
        ThermometerCheck check;
        check.probe = id;
        check.when = at(-5);
        check.kind = CheckKind::boiling;
        check.read = degrees(99.5);
        check.altitudeMetres = 120;
        check.appliesFrom = at(-10).at;
        book.apply(Put<ThermometerCheck>{check});
    }
    Reading reading = readingOf({bin, "core"}, 1, 50);
    reading.probe = probe;
    book.apply(Put<Reading>{reading});

    const auto record = book.record(batch);
    REQUIRE(record.additions.size() == 2);
    const auto& first = record.additions[0];
    CHECK(first.id.digits.size() == 32);
    CHECK(first.material == "kitchen scraps");
    CHECK(first.massKilograms == 3);
    CHECK(first.volumeLitres == 10.0);
    CHECK(first.moisturePercent == 70.0);
    CHECK(first.carbonPercent == 45.0);
    CHECK(first.nitrogenPercent == 3.0);
    CHECK(first.carbonNitrogen == 15.0);
    CHECK(first.raw == true);
    CHECK(first.note == "with coffee");
    CHECK_FALSE(record.additions[1].raw);
    REQUIRE(record.aerations.size() == 1);
    CHECK(record.aerations[0].kind == AerationKind::watered);
    REQUIRE(record.observations.size() == 1);
    CHECK(record.observations[0].value == "wet");
    REQUIRE(record.checks.size() == 1);
    CHECK(record.checks[0].probe == probe);
    CHECK(record.checks[0].read == degrees(99.5));
    CHECK(record.checks[0].altitudeMetres == 120.0);
    CHECK(record.checks[0].appliesFrom == at(-10).at);
}

TEST_CASE("a record corrects each reading by the checks in force at its instant") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    const auto probe = putProbe(book, "long one", 0.5_K);
    const auto batch = putBatch(book, bin, "spring", 0);
    for (const int hour : {1, 3}) {
        Reading reading = readingOf({bin, "core"}, hour, 56);
        reading.probe = probe;
        book.apply(Put<Reading>{reading});
    }
    putReading(book, bin, "core", 4, 56);
    ThermometerCheck check;
    check.probe = probe;
    check.when = readingOf({bin, "core"}, 2, 0).when;
    check.read = {15'000, TemperatureUnit::celsius};
    book.apply(Put<ThermometerCheck>{check});

    const auto record = book.record(batch);
    REQUIRE(record.tracks.size() == 1);
    REQUIRE(record.tracks[0].samples.size() == 3);
    CHECK(record.tracks[0].samples[0].temperature() == 56_degC);
    CHECK(record.tracks[0].samples[1].temperature() == 54.5_degC);
    CHECK(record.tracks[0].samples[2].temperature() == 56_degC);
    CHECK(
        book.readings(batch, {check.when.at, record.tracks[0].samples[1].at}, false, 9).at(0).written.tenThousandths ==
        560'000);
}
