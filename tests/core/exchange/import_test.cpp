// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>
#include <string>

#include "tests/core/exchange/asked.h"

using namespace midden;
using namespace midden::testing;

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

TEST_CASE("a move into an occupied bin says who leaves, and takes no reading of that very second") {
    auto book = Logbook::inMemory();
    imported(book, Asked{"Old", "South"}.readings("time,temperature\n2026-03-01T08:00Z,50\n2026-03-04T08:00Z,30\n"));
    imported(book, Asked{"Spring"}.readings("time,temperature\n2026-03-01T08:00Z,55\n2026-03-03T08:00Z,60\n"));
    CHECK_THROWS_WITH(import(book, Asked{"Spring"}.moves("time,bin\n2026-03-04T08:00Z,South\n")),
                      Catch::Contains("was read in that bin at the very time 4 March 2026 08:00"));
    const auto outcome = imported(book, Asked{"Spring"}.moves("time,bin\n2026-03-04T09:00Z,South\n"));
    REQUIRE(outcome.leaving.size() == 1);
    CHECK(outcome.leaving[0].starts_with(
        "Batch \"Old\" leaves bin \"South\" to batch \"Spring\": it counts as finished on 4 March 2026 09:00"));
    CHECK(recordOf(book, "Old").readings == 2);
    CHECK(recordOf(book, "Spring").readings == 2);
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
