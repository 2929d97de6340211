// SPDX-License-Identifier: GPL-3.0-or-later
// Files of bins that are fed on top and emptied at the base.
#include <fmt/core.h>
#include <rapidcheck.h>

#include <catch2/catch.hpp>

#include "core/exchange/plan/file_kind.h"
#include "core/exchange/plan/preview.h"
#include "core/records/level.h"
#include "tests/core/exchange/asked.h"
#include "tests/core/exchange/contents.h"

using namespace midden;
using namespace midden::testing;

namespace {

constexpr const char* bin = "bin,volume_l,height_cm,hatch_top_cm\nNorth,250,100,25\n";
constexpr const char* fedOnTheFirst = "time,material,mass_kg,volume_l\n2026-03-01T08:00Z,Scraps,10,25\n";

Asked fedBatch() {
    return Asked{"Spring"}.fed().bins(bin).additions(fedOnTheFirst);
}

int upTo(int most) {
    return *rc::gen::inRange(0, most + 1);
}

std::string dayTime(int day) {
    return isoUtc(Instant{1'772'352'000 + day * std::int64_t{86'400} + upTo(23) * 3'600});
}

std::string orEmpty(int value) {
    return upTo(2) == 0 ? std::string{} : std::to_string(value);
}

/// A fed book within the rules: whatever may be left out is, now and then.
Asked someFedBook() {
    const bool knowsBin = upTo(3) > 0;
    Asked asked{"Spring"};
    asked.request.fed = upTo(5) > 0;
    asked.bins(
        fmt::format("bin,volume_l,height_cm,hatch_top_cm,vent_cm2,vent_rise_cm,air_changes_h,note\n"
                    "North,{},{},{},{},{},{},\n",
                    knowsBin ? "250" : "", knowsBin ? "100" : "", orEmpty(upTo(100)), orEmpty(upTo(60)),
                    orEmpty(upTo(90)), upTo(1) == 0 ? "" : "0.5"));
    asked.positions(fmt::format("bin,position,spot_check,height_cm\nNorth,core,no,{}\nNorth,side,yes,{}\n",
                                orEmpty(upTo(100)), orEmpty(upTo(100))));
    std::string additions = "time,material,mass_kg,volume_l\n2026-03-01T08:00Z,Scraps,10,25\n";
    std::string aerations = "time,kind,depth_cm,note\n";
    std::string levels = "time,kind,value,note\n";
    std::string harvests = "time,volume_l,mass_kg,note\n";
    for (int day = 2; day < 60; day += 1 + upTo(6)) {
        additions += fmt::format("{},Scraps,{},{}\n", dayTime(day), 1 + upTo(9), orEmpty(1 + upTo(30)));
        aerations +=
            fmt::format("{},{},{},\n", dayTime(day), upTo(1) == 0 ? "forked" : "turned", orEmpty(1 + upTo(90)));
        levels += fmt::format("{},level,{}.5,{}\n", dayTime(day), upTo(140), upTo(3) == 0 ? "near the wall" : "");
        harvests += fmt::format("{},{},{},{}\n", dayTime(day), 1 + upTo(300), orEmpty(1 + upTo(40)),
                                upTo(3) == 0 ? "two buckets" : "");
    }
    return asked.additions(additions).aerations(aerations).observations(levels).harvests(harvests).readings(
        "time,temperature,position\n2026-03-05T08:00Z,60,core\n2026-03-06T08:00Z,50,side\n");
}

/// What the lines of the export's README ask for, of a book with one batch.
Asked askedBy(const std::filesystem::path& folder, bool fed) {
    Asked asked{"Spring"};
    asked.request.fed = fed;
    const auto take = [&](std::optional<std::filesystem::path>& into, const std::filesystem::path& file) {
        if (std::filesystem::exists(file)) {
            into = file;
        }
    };
    auto& files = asked.request.files;
    take(files.bins, folder / "bins.csv");
    take(files.positions, folder / "positions.csv");
    take(files.readings, folder / "Spring" / "readings.csv");
    take(files.additions, folder / "Spring" / "additions.csv");
    take(files.aerations, folder / "Spring" / "aerations.csv");
    take(files.observations, folder / "Spring" / "observations.csv");
    take(files.harvests, folder / "Spring" / "harvests.csv");
    return asked;
}

}  // namespace

TEST_CASE("what a fed bin's files say is kept") {
    auto book = Logbook::inMemory();
    const auto outcome = imported(
        book,
        fedBatch()
            .positions("bin,position,spot_check,height_cm\nNorth,core,no,55.5\n")
            .readings("time,temperature\n2026-03-02T08:00Z,60\n")
            .aerations("time;kind;depth_cm\n2026-03-03T08:00Z;forked;30,5\n2026-03-04T08:00Z;turned;\n")
            .observations("time;kind;value\n2026-03-05T08:00Z;level;63,50\n")
            .harvests("time;volume_l;mass_kg;note\n2026-03-06T08:00Z;20;12,5;one bucket\n2026-03-06T08:00Z;5;;\n"));
    CHECK(outcome.becameFed);
    CHECK(outcome.harvests.added == 2);
    const auto record = recordOf(book, "Spring");
    CHECK(record.batch.fed);
    CHECK(record.bin.heightCentimetres == 100);
    CHECK(record.bin.hatchTopCentimetres == 25);
    CHECK(record.tracks.at(0).heightCentimetres == 55.5);
    CHECK(record.aerations.at(0).depthCentimetres == 30.5);
    CHECK_FALSE(record.aerations.at(1).depthCentimetres);
    CHECK(record.observations.at(0).value == "63.5");
    CHECK(levelOf(record.observations.at(0)) == 63.5);
    REQUIRE(record.harvests.size() == 2);
    const auto isBucket = [](const Harvest& one) { return one.volumeLitres == 20; };
    const auto& bucket = isBucket(record.harvests.at(0)) ? record.harvests.at(0) : record.harvests.at(1);
    CHECK(bucket.massKilograms == 12.5);
    CHECK(bucket.note == "one bucket");
    CHECK(inWords(outcome, false).find("2 harvests added.") != std::string::npos);
    CHECK(inWords(outcome, false).find("fed on top") != std::string::npos);
    auto again = fedBatch();
    const auto second = imported(book, again);
    CHECK_FALSE(second.becameFed);
    CHECK(second.bins.alreadyThere == 1);
}

TEST_CASE("a batch in the book becomes fed by an import that says so, and none that says nothing ends it") {
    auto book = Logbook::inMemory();
    imported(book, Asked{"Spring"}.additions(fedOnTheFirst));
    CHECK_FALSE(recordOf(book, "Spring").batch.fed);
    CHECK(imported(book, Asked{"Spring", {}}.fed()).becameFed);
    CHECK(recordOf(book, "Spring").batch.fed);
    imported(book, Asked{"Spring", {}}.additions(fedOnTheFirst));
    CHECK(recordOf(book, "Spring").batch.fed);
    Asked nobody{"", {}};
    CHECK(refusalOf(book, nobody.fed()).starts_with("usage: nothing says of which batch"));
}

TEST_CASE("what a fed bin cannot be is refused with file and line") {
    auto book = Logbook::inMemory();
    const auto with = [&](Asked asked) { return refusalOf(book, asked); };
    const auto bins = [](const std::string& columns, const std::string& cells) {
        return fedBatch().bins("bin," + columns + "\nNorth," + cells + "\n");
    };
    CHECK(with(bins("height_cm", "9.9")) ==
          "bins.csv:2: height_cm: 9.9 is out of range; expected a height in cm from "
          "10 to 1000");
    CHECK(with(bins("height_cm", "1000.1")).starts_with("bins.csv:2: height_cm: 1000.1 is out of range"));
    CHECK(with(bins("hatch_top_cm", "-1")).starts_with("bins.csv:2: hatch_top_cm: -1 is out of range"));
    CHECK(
        with(bins("height_cm,hatch_top_cm", "100,101")) ==
        "bins.csv:2: hatch_top_cm: 101 cm lies above the rim of bin \"North\", which is 100 cm high; expected at most "
        "100");
    CHECK(with(bins("vent_cm2", "-1")).starts_with("bins.csv:2: vent_cm2: -1"));
    CHECK(with(bins("vent_rise_cm", "1001")).starts_with("bins.csv:2: vent_rise_cm: 1001"));
    CHECK(with(bins("air_changes_h", "-0.1")).starts_with("bins.csv:2: air_changes_h: -0.1"));
    const auto position = [](const std::string& height) {
        return fedBatch().positions("bin,position,spot_check,height_cm\nNorth,core,no,50\nNorth,side,no," + height +
                                    "\n");
    };
    CHECK(with(position("-0.1")).starts_with("positions.csv:3: height_cm: -0.1 is out of range"));
    CHECK(with(position("100.5")) ==
          "positions.csv:3: height_cm: 100.5 cm lies above the rim of bin \"North\", which is 100 cm high; expected at "
          "most 100");
    const auto level = [](const std::string& value) {
        return fedBatch().observations("time,kind,value\n2026-03-05T08:00Z,level,63\n2026-03-06T08:00Z,level," + value +
                                       "\n");
    };
    CHECK(with(level("-1")).starts_with("observations.csv:3: value: -1 is out of range; expected a level in cm"));
    CHECK(with(level("")).starts_with("observations.csv:3: value: a level needs its number"));
    CHECK(with(level("high")).starts_with("observations.csv:3: value: \"high\" is not a number"));
    CHECK(
        with(level("150.5")) ==
        "observations.csv:3: value: a level of 150.5 cm in bin \"North\", which is 100 cm high; expected at most 150");
    const auto harvest = [](const std::string& time, const std::string& volume) {
        return fedBatch().harvests("time,volume_l\n2026-03-05T08:00Z,10\n" + time + "," + volume + "\n");
    };
    for (const char* none : {"0", "-3", ""}) {
        CHECK(with(harvest("2026-03-06T08:00Z", none)).starts_with("harvests.csv:3: volume_l: "));
    }
    CHECK(with(harvest("2026-03-06T08:00Z", "375.5")) ==
          "harvests.csv:3: volume_l: a harvest of 375.5 litres from bin \"North\", which holds 250; expected at most "
          "375");
    CHECK(with(harvest("2026-03-01T07:59Z", "10")) ==
          "harvests.csv:3: time: nothing had been fed by then; expected a harvest after the first addition");
    CHECK(
        refusalOf(book,
                  Asked{"Spring"}.fed().start("2026-03-01T08:00:00Z").harvests("time,volume_l\n2026-03-05T08:00Z,10\n"))
            .starts_with("harvests.csv:2: time: nothing had been fed"));
    for (const char* none : {"0", "-1"}) {
        CHECK(with(fedBatch().aerations(std::string{"time,kind,depth_cm\n2026-03-05T08:00Z,forked,"} + none + "\n"))
                  .starts_with("aerations.csv:2: depth_cm: "));
    }
    CHECK(book.batches().empty());
    CHECK(book.bins().empty());
}

TEST_CASE("what the book knows bounds what comes later, and the other way round") {
    auto book = Logbook::inMemory();
    imported(book, fedBatch().positions("bin,position,spot_check,height_cm\nNorth,core,no,60\n"));
    CHECK(refusalOf(book, Asked{"Spring"}.observations("time,kind,value\n2026-03-06T08:00Z,level,151\n"))
              .starts_with("observations.csv:2: value: a level of 151 cm"));
    CHECK(refusalOf(book, Asked{"Spring"}.harvests("time,volume_l\n2026-02-06T08:00Z,10\n"))
              .starts_with("harvests.csv:2: time: nothing had been fed"));
    CHECK(refusalOf(book, Asked{"Spring"}.positions("bin,position,spot_check,height_cm\nNorth,core,no,120\n"))
              .starts_with("positions.csv:2: height_cm: 120 cm"));
    auto unknown = Logbook::inMemory();
    imported(unknown, Asked{"Spring"}
                          .additions(fedOnTheFirst)
                          .positions("bin,position,spot_check,height_cm\nNorth,core,no,120\n")
                          .observations("time,kind,value\n2026-03-06T08:00Z,level,900\n")
                          .harvests("time,volume_l\n2026-03-06T08:00Z,9000\n"));
    CHECK(unknown.places(unknown.bins().at(0).id).at(0).heightCentimetres == 120);
    CHECK(
        refusalOf(unknown, Asked{"Spring"}.bins("bin,height_cm\nNorth,100\n")) ==
        "bins.csv:2: height_cm: position \"core\" of bin \"North\" is 120 cm high in the logbook; expected a bin that "
        "is no lower");
}

TEST_CASE("a position keeps its height where a later file says none") {
    auto book = Logbook::inMemory();
    imported(book, fedBatch().positions("bin,position,spot_check,height_cm\nNorth,core,no,60\n"));
    const auto core = [&] { return book.places(book.binNamed("North")->id).at(0); };
    CHECK(imported(book, Asked{"Spring"}.positions("bin,position,spot_check\nNorth,core,yes\n")).positions.added == 1);
    CHECK(core().heightCentimetres == 60);
    CHECK(core().spotCheck);
    CHECK(imported(book, Asked{"Spring"}.positions("bin,position,spot_check,height_cm\nNorth,core,yes,70\n"))
              .positions.added == 1);
    CHECK(core().heightCentimetres == 70);
}

TEST_CASE("the window's preview counts harvests and refuses what storing would") {
    auto book = Logbook::inMemory();
    imported(book, fedBatch());
    const auto previewed = [&](Asked asked) { return preview(book, asked.request, *readFiles(asked.request)); };
    const auto good = previewed(Asked{"Spring"}.harvests("time,volume_l\n2026-03-06T08:00Z,10\n"));
    REQUIRE(good);
    CHECK(good->outcome.harvests.added == 1);
    CHECK(isoUtc(good->last->at) == "2026-03-06T08:00:00Z");
    const auto early = previewed(Asked{"Spring"}.harvests("time,volume_l\n2026-02-06T08:00Z,10\n"));
    REQUIRE_FALSE(early);
    CHECK(early.error().line == 2);
    const auto high = previewed(Asked{"Spring"}.observations("time,kind,value\n2026-03-06T08:00Z,level,151\n"));
    REQUIRE_FALSE(high);
    CHECK(high.error().problem.wrong.starts_with("value: a level of 151 cm"));
    CHECK(sniffHeader(scratch.write("some.csv", "time,volume_l,note\n"))->kind == FileKind::harvests);
}

TEST_CASE("a fed book comes back from its export to the byte", "[random]") {
    CHECK(rc::check([] {
        auto first = Logbook::inMemory();
        const auto asked = someFedBook();
        auto staged = readFiles(asked.request);
        RC_ASSERT(staged.has_value());
        RC_ASSERT(storeImport(first, asked.request, std::move(*staged)).has_value());
        const Scratch space;
        exportLogbook(first, space.path("out"));
        const auto again = askedBy(space.path("out"), asked.request.fed);
        auto second = Logbook::inMemory();
        auto read = readFiles(again.request);
        RC_ASSERT(read.has_value());
        RC_ASSERT(storeImport(second, again.request, std::move(*read)).has_value());
        RC_ASSERT(contentsOf(second) == contentsOf(first));
        RC_ASSERT(second.batches().at(0).fed == asked.request.fed);
    }));
}

TEST_CASE("files of what was never fed have no columns for it") {
    auto book = Logbook::inMemory();
    imported(book, Asked{"Spring"}
                       .additions(fedOnTheFirst)
                       .aerations("time,kind\n2026-03-04T08:00Z,turned\n")
                       .bins("bin,volume_l\nNorth,250\n")
                       .positions("bin,position,spot_check\nNorth,core,yes\n"));
    const auto contents = contentsOf(book);
    for (const char* column : {"depth_cm", "height_cm", "hatch_top_cm", "vent_cm2", "air_changes_h", "--fed"}) {
        INFO(column);
        CHECK(contents.find(column) == std::string::npos);
    }
}
