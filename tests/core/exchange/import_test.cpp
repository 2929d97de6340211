// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/import.h"

#include <catch2/catch.hpp>
#include <string>

#include "tests/core/exchange/scratch.h"

using namespace midden;

namespace {

const testing::Scratch scratch;

/// A request whose files are written from texts.
struct Asked {
    ImportRequest request;

    explicit Asked(std::string batch, std::optional<std::string> bin = "North") {
        request.batch = std::move(batch);
        request.bin = std::move(bin);
    }
    Asked& readings(std::string_view rows) { return file(request.files.readings, "readings.csv", rows); }
    Asked& additions(std::string_view rows) { return file(request.files.additions, "additions.csv", rows); }
    Asked& aerations(std::string_view rows) { return file(request.files.aerations, "aerations.csv", rows); }
    Asked& moves(std::string_view rows) { return file(request.files.moves, "moves.csv", rows); }
    Asked& outside(std::string_view rows) { return file(request.files.outside, "outside.csv", rows); }
    Asked& probes(std::string_view rows) { return file(request.files.probes, "probes.csv", rows); }
    Asked& checks(std::string_view rows) { return file(request.files.checks, "checks.csv", rows); }
    Asked& bins(std::string_view rows) { return file(request.files.bins, "bins.csv", rows); }
    Asked& observations(std::string_view rows) { return file(request.files.observations, "observations.csv", rows); }
    Asked& start(const char* iso) {
        const auto parsed = *parseIsoTime(iso);
        request.start = Moment{instantOf(parsed.wall, parsed.offset), parsed.offset};
        return *this;
    }

  private:
    Asked& file(std::optional<std::filesystem::path>& into, std::string_view name, std::string_view rows) {
        into = scratch.write(name, rows);
        return *this;
    }
};

FileResult<ImportOutcome> import(Logbook& book, const Asked& asked) {
    auto staged = readFiles(asked.request);
    if (!staged) {
        return tl::unexpected{staged.error()};
    }
    return storeImport(book, asked.request, std::move(*staged));
}

ImportOutcome imported(Logbook& book, const Asked& asked) {
    auto outcome = import(book, asked);
    INFO((outcome ? "" : outcome.error().sentence()));
    REQUIRE(outcome);
    return *outcome;
}

std::string refusalOf(Logbook& book, const Asked& asked) {
    const auto outcome = import(book, asked);
    REQUIRE_FALSE(outcome);
    auto sentence = outcome.error().sentence();
    const auto folder = scratch.folder().string() + "/";
    for (auto at = sentence.find(folder); at != std::string::npos; at = sentence.find(folder)) {
        sentence.erase(at, folder.size());
    }
    return (outcome.error().wrongUsage ? "usage: " : "") + sentence;
}

BatchRecord recordOf(const Logbook& book, std::string_view batch) {
    return book.record(book.batchNamed(batch)->id);
}

}  // namespace

TEST_CASE("an import makes the bin and the batch and starts it with its earliest entry") {
    auto book = Logbook::inMemory();
    const auto outcome = imported(book, Asked{"Spring"}
                                            .readings("time,temperature\n2026-03-02T08:00Z,55\n2026-03-03T08:00Z,60\n")
                                            .additions("time,material,mass_kg\n2026-03-01T08:00Z,Straw,12.5\n"));
    CHECK(outcome.newBatch);
    CHECK(outcome.newBins == std::vector<std::string>{"North"});
    CHECK(outcome.readings.added == 2);
    CHECK(outcome.additions.added == 1);
    const auto record = recordOf(book, "Spring");
    CHECK(isoUtc(record.batch.started.at) == "2026-03-01T08:00:00Z");
    CHECK_FALSE(record.batch.startGiven);
    CHECK(record.binName == "North");
    REQUIRE(record.tracks.size() == 1);
    CHECK(record.tracks[0].position == "core");
    CHECK(record.additions.at(0).massKilograms == 12.5);
    CHECK(record.additions.at(0).provenance.source == Source::imported);
}

TEST_CASE("the same files again add nothing and say so") {
    auto book = Logbook::inMemory();
    const auto asked =
        Asked{"Spring"}
            .readings("time,temperature,ambient,note\n2026-03-02T08:00Z,55,4,\n2026-03-03T08:00Z,60,5,x\n")
            .additions("time,material,mass_kg\n2026-03-02T08:00Z,Straw,12\n2026-03-02T08:00Z,Straw,12\n")
            .aerations("time,kind\n2026-03-03T08:00Z,turned\n")
            .probes("probe,accuracy\nDial,0.5\n")
            .checks("time,probe,kind,read\n2026-03-01T08:00Z,Dial,ice,0.3\n");
    CHECK(imported(book, asked).additions.added == 2);
    const auto again = imported(book, asked);
    for (const auto& count :
         {again.readings, again.outside, again.additions, again.aerations, again.probes, again.checks}) {
        CHECK(count.added == 0);
        CHECK(count.alreadyThere > 0);
    }
    CHECK(again.additions.alreadyThere == 2);
    CHECK_FALSE(again.startMoved);
    CHECK(inWords(again, false) ==
          "Batch \"Spring\" in bin \"North\".\n2 readings already there, nothing new.\n2 outside temperatures already "
          "there, nothing new.\n2 additions already there, nothing new.\n1 aeration already there, nothing new.\n1 "
          "thermometer already there, nothing new.\n1 thermometer check already there, nothing new.\n");
}

TEST_CASE("another value for a reading the book holds is refused and nothing is stored") {
    auto book = Logbook::inMemory();
    imported(book, Asked{"Spring"}.readings("time,temperature\n2026-03-02T08:00Z,55\n"));
    CHECK(refusalOf(book, Asked{"Spring"}
                              .readings("time,temperature\n2026-03-01T08:00Z,50\n2026-03-02T09:00+01:00,55.1\n")
                              .additions("time,material,mass_kg\n2026-03-02T08:00Z,Straw,12\n")) ==
          "readings.csv:3: 55.1 °C here, but the logbook holds 55 °C for the same place and time "
          "2026-03-02T09:00:00+01:00; expected the same value, or the wrong one corrected in the logbook first");
    const auto record = recordOf(book, "Spring");
    CHECK(record.readings == 1);
    CHECK(record.additions.empty());
    CHECK(refusalOf(book, Asked{"Spring"}.readings("time,temperature,note\n2026-03-02T08:00Z,56,late\n"))
              .starts_with("readings.csv:2: 56 °C here, but the logbook holds 55 °C"));
    CHECK(
        imported(book, Asked{"Spring"}.readings("time,temperature_f\n2026-03-02T08:00Z,131\n")).readings.alreadyThere ==
        1);
}

TEST_CASE("a new batch needs a bin and a beginning") {
    auto book = Logbook::inMemory();
    CHECK(refusalOf(book, Asked{"Spring", std::nullopt}.readings("time,temperature\n2026-03-02T08:00Z,55\n")) ==
          "usage: there is no batch \"Spring\" in the logbook yet; expected --bin with the bin it stands in");
    CHECK(
        refusalOf(book, Asked{"Spring"}) ==
        "usage: nothing says when batch \"Spring\" began; expected --start, or a file with its readings, additions or "
        "aerations");
    CHECK(book.bins().empty());
    CHECK(imported(book, Asked{"Spring"}.start("2026-03-01T08:00:00Z")).newBatch);
    CHECK(imported(book, Asked{"Spring", std::nullopt}.readings("time,temperature\n2026-03-02T08:00Z,55\n")).bin ==
          "North");
}

TEST_CASE("a bin in which the batch never stood is refused with advice") {
    auto book = Logbook::inMemory();
    imported(book, Asked{"Spring"}.start("2026-03-01T08:00:00Z"));
    CHECK(refusalOf(book, Asked{"Spring", "Shed"}) ==
          "usage: batch \"Spring\" stands in bin \"North\", not in \"Shed\"; expected no --bin, another --batch, or "
          "--moves with the time it was moved");
}

TEST_CASE("a start nobody gave moves earlier with earlier entries and a given one stays") {
    auto book = Logbook::inMemory();
    imported(book, Asked{"Spring"}.readings("time,temperature\n2026-03-05T08:00Z,55\n"));
    CHECK(imported(book, Asked{"Spring"}.readings("time,temperature\n2026-03-02T08:00Z,50\n")).startMoved);
    CHECK(isoUtc(recordOf(book, "Spring").batch.started.at) == "2026-03-02T08:00:00Z");
    imported(book, Asked{"Spring"}.aerations("time,kind\n2026-03-01T08:00Z,forked\n"));
    CHECK(isoUtc(recordOf(book, "Spring").batch.started.at) == "2026-03-01T08:00:00Z");
    CHECK(recordOf(book, "Spring").readings == 2);

    imported(
        book,
        Asked{"Given", "South"}.start("2026-03-03T08:00:00Z").readings("time,temperature\n2026-03-05T08:00Z,55\n"));
    const auto early =
        imported(book, Asked{"Given", std::nullopt}.readings("time,temperature\n2026-03-02T08:00Z,50\n"));
    CHECK_FALSE(early.startMoved);
    CHECK(early.ofNoBatch == 1);
    CHECK(isoUtc(recordOf(book, "Given").batch.started.at) == "2026-03-03T08:00:00Z");
}

TEST_CASE("readings of other bins go to whatever stands there") {
    auto book = Logbook::inMemory();
    imported(book, Asked{"Old", "Shed"}.start("2026-02-01T08:00:00Z"));
    const auto outcome =
        imported(book, Asked{"Spring"}.readings("time,temperature,bin\n2026-03-02T08:00Z,55,\n"
                                                "2026-03-02T08:00Z,40,Shed\n2026-03-02T08:00Z,30,Spare\n"));
    CHECK(outcome.ofOtherBatches == 1);
    CHECK(outcome.ofNoBatch == 1);
    CHECK(recordOf(book, "Old").readings == 1);
    CHECK(recordOf(book, "Spring").readings == 1);
    const auto words = inWords(outcome, true);
    CHECK(
        words.find("1 reading belongs to other batches by bin and time.\n1 reading belongs to no batch: none stood in "
                   "that bin at that time.\nNothing was written: this was a dry run.\n") != std::string::npos);
    CHECK(words.find("3 readings would be added.") != std::string::npos);
}

TEST_CASE("a moved batch takes its readings from each bin in its time") {
    auto book = Logbook::inMemory();
    const auto asked =
        Asked{"Spring"}
            .readings("time,temperature\n2026-03-01T08:00Z,50\n2026-03-05T08:00Z,60\n2026-03-09T08:00Z,55\n")
            .moves("time,bin\n2026-03-04T08:00Z,South\n2026-03-08T08:00Z,North\n");
    CHECK(imported(book, asked).moves.added == 2);
    const auto batch = *book.batchNamed("Spring");
    REQUIRE(batch.stays.size() == 3);
    CHECK(recordOf(book, "Spring").readings == 3);
    const auto south = book.binNamed("South")->id;
    CHECK(book.reading({{south, "core"}, batch.stays[1].since + days(1)}));
    const auto again = imported(book, asked);
    CHECK(again.moves.alreadyThere == 2);
    CHECK(again.readings.alreadyThere == 3);
    CHECK(refusalOf(book, Asked{"Spring"}.moves("time,bin\n2026-03-04T08:00Z,Shed\n")) ==
          "moves.csv:2: at that time the batch was moved to \"South\"; expected one bin at a time");
    CHECK(refusalOf(book, Asked{"Spring"}.moves("time,bin\n2026-03-01T08:00Z,Shed\n"))
              .starts_with("moves.csv:2: the batch only began on 1 March 2026 08:00"));
}

TEST_CASE("outside air may come with a reading or by itself") {
    auto book = Logbook::inMemory();
    const auto outcome = imported(book, Asked{"Spring"}
                                            .readings("time,temperature,ambient\n2026-03-01T08:00Z,50,4.5\n")
                                            .outside("time,temperature\n2026-03-01T12:00Z,9\n"));
    CHECK(outcome.outside.added == 2);
    CHECK(outcome.readings.added == 1);
    CHECK(recordOf(book, "Spring").outside.size() == 2);
    CHECK(refusalOf(book, Asked{"Spring"}.outside("time,temperature,bin\n2026-03-01T08:00Z,5,North\n"))
              .starts_with("outside.csv:2: 5 °C here, but the logbook holds 4.5 °C"));
}

TEST_CASE("every column of an addition is kept") {
    auto book = Logbook::inMemory();
    imported(book,
             Asked{"Spring"}.additions(
                 "time;material;mass_kg;volume_l;moisture_percent;carbon_percent;nitrogen_percent;carbon_nitrogen;"
                 "raw;note\n2026-03-01T08:00Z;Straw;12,5;100;12;45;0,6;75;NO;\"two; bales\"\n"));
    const auto a = recordOf(book, "Spring").additions.at(0);
    CHECK(a.volumeLitres == 100);
    CHECK(a.moisturePercent == 12);
    CHECK(a.carbonPercent == 45);
    CHECK(a.nitrogenPercent == 0.6);
    CHECK(a.carbonNitrogen == 75);
    CHECK(a.raw == false);
    CHECK(a.note == "two; bales");
}

TEST_CASE("additions that make no sense are refused with line and column") {
    auto book = Logbook::inMemory();
    const auto refusal = [&](const std::string& columns, const std::string& cells) {
        return refusalOf(book, Asked{"Spring"}.additions("time;" + columns + "\n2026-03-01T08:00Z;" + cells + "\n"));
    };
    const auto mass = "; expected a mass in kg above 0, at most a million";
    CHECK(refusal("material;mass_kg", "Straw;0") == std::string{"additions.csv:2: mass_kg: 0 is out of range"} + mass);
    CHECK(refusal("material;mass_kg", "Straw;-1") ==
          std::string{"additions.csv:2: mass_kg: -1 is out of range"} + mass);
    CHECK(refusal("material;mass_kg", "Straw;") ==
          std::string{"additions.csv:2: mass_kg: nothing is written there"} + mass);
    for (const char* number : {"nan", "inf", "1e3", "1.234,5", "1,2,3", "0x1", "1 2", "--1", "1-"}) {
        CHECK(refusal("material;mass_kg", std::string{"Straw;"} + number) ==
              std::string{"additions.csv:2: mass_kg: \""} + number + "\" is not a number" + mass);
    }
    CHECK(refusal("material;mass_kg", ";1").starts_with("additions.csv:2: material: nothing is written there"));
    CHECK(refusal("material;mass_kg;moisture_percent", "Straw;1;101")
              .starts_with("additions.csv:2: moisture_percent: 101"));
    CHECK(refusal("material;mass_kg;nitrogen_percent", "Straw;1;-1")
              .starts_with("additions.csv:2: nitrogen_percent: -1"));
    CHECK(refusal("material;mass_kg;carbon_nitrogen", "Straw;1;0").starts_with("additions.csv:2: carbon_nitrogen: 0"));
    CHECK(refusal("material;mass_kg;volume_l", "Straw;1;0").starts_with("additions.csv:2: volume_l: 0"));
    CHECK(refusal("material;mass_kg;raw", "Straw;1;maybe") ==
          "additions.csv:2: raw: \"maybe\" is none of the words for this column; expected yes, no or nothing");
}

TEST_CASE("aerations and observations know their words") {
    auto book = Logbook::inMemory();
    imported(book,
             Asked{"Spring"}
                 .aerations("time,kind,note\n2026-03-01T08:00Z,turned,\n2026-03-01T08:00Z,Forked,\n2026-03-01T08:00Z,"
                            "poked,\n2026-03-01T08:00Z,opened,\n2026-03-01T08:00Z,watered,9 litres\n"
                            "2026-03-01T08:00Z,other,\n")
                 .observations("time,kind,value\n2026-03-01T08:00Z,squeeze,wet\n"));
    const auto record = recordOf(book, "Spring");
    CHECK(record.aerations.size() == 6);
    CHECK(record.observations.at(0).value == "wet");
    CHECK(refusalOf(book, Asked{"Spring"}.aerations("time,kind\n2026-03-01T08:00Z,stirred\n")) ==
          "aerations.csv:2: kind: \"stirred\" is none of the words for this column; expected turned, forked, poked, "
          "opened, watered or other");
}

TEST_CASE("probes and their checks are kept and contradictions refused") {
    auto book = Logbook::inMemory();
    const auto outcome = imported(book, Asked{"Spring"}
                                            .readings("time,temperature,probe\n2026-03-02T08:00Z,55,Stick\n")
                                            .probes("probe,accuracy\nDial,0.5\n")
                                            .checks("time,probe,kind,read,altitude_m,pressure_hpa,unit\n"
                                                    "2026-03-01T08:00Z,Dial,ice,32.5,,,f\n"
                                                    "2026-03-01T08:10Z,Dial,boiling,100,60,,\n"
                                                    "2026-03-01T08:20Z,Dial,boiling,99.5,,1001.2,\n"));
    CHECK(outcome.newProbes == std::vector<std::string>{"Stick"});
    CHECK(outcome.checks.added == 3);
    const auto dial = *book.probeNamed("Dial");
    CHECK(dial.accuracy == Kelvins::ofTenThousandths(5'000));
    CHECK(book.checks(dial.id).at(0).read == WrittenTemperature{325'000, TemperatureUnit::fahrenheit});
    CHECK(imported(book, Asked{"Spring"}.probes("probe,accuracy\nStick,1\n")).probes.added == 1);
    CHECK(
        refusalOf(book, Asked{"Spring"}.probes("probe,accuracy\nDial,0.7\n")) ==
        "probes.csv:2: thermometer \"Dial\" has ±0.7000 °C here, but ±0.5000 °C in the logbook; expected one accuracy "
        "for each thermometer");
    const auto check = [&](const std::string& row) {
        return refusalOf(book, Asked{"Spring"}.checks("time,probe,kind,read,altitude_m,pressure_hpa\n" + row + "\n"));
    };
    CHECK(
        check("2026-03-01T08:00Z,Dial,ice,1,,").starts_with("checks.csv:2: thermometer \"Dial\" already has a check"));
    CHECK(check("2026-03-01T08:00Z,Dial,boiling,100,,") ==
          "checks.csv:2: neither altitude nor pressure is given; expected altitude_m or pressure_hpa for a boiling "
          "check, "
          "one of the two");
    CHECK(check("2026-03-01T08:00Z,Dial,boiling,100,60,1000")
              .starts_with("checks.csv:2: altitude and pressure are both"));
    CHECK(
        check("2026-03-01T08:00Z,Dial,boiling,100,,13").starts_with("checks.csv:2: pressure_hpa: 13 is out of range"));
    CHECK(check("2026-03-01T08:00Z,Dial,steam,100,60,").starts_with("checks.csv:2: kind: \"steam\""));
    CHECK(check("2026-03-01T08:00Z,,ice,0,,").starts_with("checks.csv:2: probe: nothing is written there"));
}

TEST_CASE("what is said of a bin completes what the book knows and never contradicts it") {
    auto book = Logbook::inMemory();
    const auto asked = [](std::string_view rows) { return Asked{"Spring"}.start("2026-03-01T08:00:00Z").bins(rows); };
    CHECK(imported(book, asked("bin,volume_l\nNorth,600\n")).bins.added == 1);
    CHECK(imported(book, asked("bin,volume_l\nNorth,600\n")).bins.alreadyThere == 1);
    CHECK(imported(book, asked("bin,insulation_mm,note\nNorth,50,by the gate\n")).bins.added == 1);
    const auto bin = *book.binNamed("North");
    CHECK(bin.volumeLitres == 600);
    CHECK(bin.insulationMillimetres == 50);
    CHECK(refusalOf(book, asked("bin,volume_l\nNorth,500\n")) ==
          "bins.csv:2: the logbook says something else of bin \"North\"; expected what the logbook says, or nothing");
}
