// SPDX-License-Identifier: GPL-3.0-or-later
// What is written down of a bin that is fed on top: corrected, undone, merged, and kept through damage.
#include <catch2/catch.hpp>

#include "tests/core/store/stewards.h"

using namespace midden;
using namespace midden::trial;

namespace {

/// A fed bin of 250 L that is 100 cm high.
struct FedBook {
    FedBook() {
        book.setHand("Ada", [this] { return now; });
        bin =
            std::get<BinId>(book.apply(Put<Bin>{{.name = "North", .volumeLitres = 250, .heightCentimetres = 100}}).id);
        Batch made = batchIn(bin, "spring", 0);
        made.fed = true;
        batch = std::get<BatchId>(book.apply(Put<Batch>{made}).id);
    }
    Amendment last() const { return book.amendments(batch).back(); }

    Instant now = at(50).at;
    Logbook book = Logbook::inMemory();
    BinId bin{};
    BatchId batch{};
};

Harvest harvestOf(BatchId batch, double hours, double litres) {
    return {.batch = batch, .when = at(hours), .volumeLitres = litres};
}

Observation levelIn(BatchId batch, double hours, const std::string& centimetres) {
    Observation level;
    level.batch = batch;
    level.when = at(hours);
    level.kind = ObservationKind::level;
    level.value = centimetres;
    return level;
}

}  // namespace

TEST_CASE("a harvest is stored, corrected, withdrawn and put back, and each leaves its words") {
    FedBook fed;
    auto harvest = harvestOf(fed.batch, 40, 20);
    const auto put = fed.book.apply(Put<Harvest>{harvest});
    harvest.id = std::get<EntryId>(put.id);
    harvest.volumeLitres = 25;
    harvest.massKilograms = 12.5;
    const auto amended = fed.book.apply(Amend<Harvest>{harvest.id, harvest, "weighed"});
    CHECK(fed.last().kind == EntryKind::harvest);
    CHECK(fed.last().subject == "harvest");
    CHECK(fed.last().was == "harvested 20 litres");
    CHECK(fed.last().became == "harvested 25 litres, 12.5 kg");
    CHECK(fed.last().entry == harvest.id);
    const auto stored = fed.book.record(fed.batch).harvests.at(0);
    CHECK(stored.volumeLitres == 25);
    CHECK(stored.massKilograms == 12.5);
    CHECK(stored.provenance.who == "Ada");
    const auto redo = fed.book.apply(amended.inverse);
    CHECK(fed.book.record(fed.batch).harvests.at(0).volumeLitres == 20);
    CHECK_FALSE(fed.book.record(fed.batch).harvests.at(0).massKilograms);
    fed.book.apply(redo.inverse);
    CHECK(fed.book.record(fed.batch).harvests.at(0).volumeLitres == 25);
    const auto gone = fed.book.apply(Withdraw<Harvest>{harvest.id, "another bin's"});
    CHECK(fed.book.record(fed.batch).harvests.empty());
    CHECK(fed.last().became.empty());
    fed.book.apply(gone.inverse);
    CHECK(fed.book.record(fed.batch).harvests.at(0).id == harvest.id);
    CHECK(fed.book.record(fed.batch).amendedEntries == 1);
    CHECK(refusalOf([&] { fed.book.apply(Withdraw<Batch>{fed.batch, ""}); }) == LogbookError::Kind::refused);
}

TEST_CASE("a harvest of nothing is refused") {
    FedBook fed;
    CHECK(refusalOf([&] { fed.book.apply(Put<Harvest>{harvestOf(fed.batch, 40, 0)}); }) == LogbookError::Kind::refused);
    CHECK(fed.book.record(fed.batch).harvests.empty());
}

TEST_CASE("a level is a number above the floor, and says so when it is corrected") {
    FedBook fed;
    auto level = levelIn(fed.batch, 40, "63.5");
    level.id = std::get<EntryId>(fed.book.apply(Put<Observation>{level}).id);
    level.value = "61";
    fed.book.apply(Amend<Observation>{level.id, level, ""});
    CHECK(fed.last().was == "surface 63.5 cm above the floor");
    CHECK(fed.last().became == "surface 61 cm above the floor");
    for (const char* wrong : {"", "high", "-1", "1501", "nan", "12 cm", "1e2"}) {
        INFO(wrong);
        CHECK(refusalOf([&] { fed.book.apply(Put<Observation>{levelIn(fed.batch, 41, wrong)}); }) ==
              LogbookError::Kind::refused);
    }
}

TEST_CASE("how deep a fork went is kept and corrected") {
    FedBook fed;
    Aeration forked{.batch = fed.batch, .when = at(30), .kind = AerationKind::forked, .depthCentimetres = 30};
    forked.id = std::get<EntryId>(fed.book.apply(Put<Aeration>{forked}).id);
    CHECK(fed.book.record(fed.batch).aerations.at(0).depthCentimetres == 30);
    forked.depthCentimetres.reset();
    const auto done = fed.book.apply(Amend<Aeration>{forked.id, forked, ""});
    CHECK(fed.last().was == "forked, 30 cm deep");
    CHECK(fed.last().became == "forked");
    fed.book.apply(done.inverse);
    CHECK(fed.book.record(fed.batch).aerations.at(0).depthCentimetres == 30);
}

TEST_CASE("a batch becomes fed, and filled again, and both are corrections") {
    FedBook fed;
    Batch batch = shown(fed.book, fed.batch);
    batch.fed = false;
    const auto done = fed.book.apply(Amend<Batch>{fed.batch, batch, "filled at once"});
    CHECK_FALSE(shown(fed.book, fed.batch).fed);
    CHECK(fed.last().was.ends_with(", fed on top"));
    CHECK_FALSE(fed.last().became.ends_with(", fed on top"));
    fed.book.apply(done.inverse);
    CHECK(shown(fed.book, fed.batch).fed);
    const auto gone = fed.book.apply(Withdraw<Batch>{fed.batch, ""});
    fed.book.apply(gone.inverse);
    CHECK(shown(fed.book, fed.batch).fed);
}

TEST_CASE("heights, and openings for air, are kept and undone") {
    FedBook fed;
    Bin bin = *fed.book.binNamed("North");
    bin.heightCentimetres = 90;
    bin.hatchTopCentimetres = 25;
    bin.ventSquareCentimetres = 40;
    bin.ventRiseCentimetres = 70;
    bin.airChangesPerHour = 1.5;
    const auto done = fed.book.apply(Amend<Bin>{fed.bin, bin, ""});
    const auto now = *fed.book.binNamed("North");
    CHECK(now.heightCentimetres == 90);
    CHECK(now.hatchTopCentimetres == 25);
    CHECK(now.ventSquareCentimetres == 40);
    CHECK(now.ventRiseCentimetres == 70);
    CHECK(now.airChangesPerHour == 1.5);
    fed.book.apply(done.inverse);
    CHECK(fed.book.binNamed("North")->heightCentimetres == 100);
    CHECK_FALSE(fed.book.binNamed("North")->airChangesPerHour);
    const Place core{fed.bin, "core"};
    fed.book.apply(Put<PlaceSetting>{{core, false, 55.5}});
    CHECK(fed.book.places(fed.bin).at(0).heightCentimetres == 55.5);
    const auto lowered = fed.book.apply(Amend<PlaceSetting>{core, {core, false, 40}, ""});
    CHECK(fed.book.places(fed.bin).at(0).heightCentimetres == 40);
    fed.book.apply(lowered.inverse);
    CHECK(fed.book.places(fed.bin).at(0).heightCentimetres == 55.5);
    putReading(fed.book, fed.bin, "core", 5, 60);
    CHECK(fed.book.record(fed.batch).tracks.at(0).heightCentimetres == 55.5);
}

TEST_CASE("a batch that was moved has the heights of the bin where it stands") {
    FedBook fed;
    const auto south = putBin(fed.book, "South");
    fed.book.apply(Put<PlaceSetting>{{{fed.bin, "core"}, false, 50}});
    fed.book.apply(Put<PlaceSetting>{{{south, "core"}, false, 30}});
    putReading(fed.book, fed.bin, "core", 5, 60);
    Batch moved = shown(fed.book, fed.batch);
    moved.stays.push_back({at(20).at, south});
    fed.book.apply(Amend<Batch>{fed.batch, moved, ""});
    CHECK(fed.book.record(fed.batch).tracks.at(0).heightCentimetres == 30);
}

TEST_CASE("harvests and levels of two copies come together, and of two corrections the later stands") {
    const Stewards two;
    auto ada = two.ada();
    auto grace = two.grace();
    const auto id = ada.batchNamed("spring")->id;
    auto common = harvestOf(id, 30, 10);
    common.id = std::get<EntryId>(ada.apply(Put<Harvest>{common}).id);
    CHECK(grace.merge(ada).addedOfKind.at(EntryKind::harvest) == 1);
    Batch fed = shown(ada, id);
    fed.fed = true;
    ada.apply(Amend<Batch>{id, fed, ""});
    ada.apply(Put<Observation>{levelIn(id, 31, "60")});
    grace.apply(Put<Harvest>{harvestOf(grace.batchNamed("spring")->id, 32, 12)});
    auto corrected = common;
    corrected.volumeLitres = 11;
    ada.apply(Amend<Harvest>{common.id, corrected, ""});
    corrected.volumeLitres = 13;
    grace.apply(Amend<Harvest>{common.id, corrected, ""});
    const auto outcome = ada.merge(grace);
    REQUIRE(outcome.conflicts.size() == 1);
    CHECK(outcome.conflicts[0].kind == EntryKind::harvest);
    CHECK(outcome.conflicts[0].ours.value == "harvested 11 litres");
    CHECK(outcome.conflicts[0].theirs.value == "harvested 13 litres");
    CHECK(outcome.conflicts[0].theirsStands);
    grace.merge(ada);
    CHECK(everything(ada) == everything(grace));
    const auto record = grace.record(grace.batchNamed("spring")->id);
    CHECK(record.batch.fed);
    REQUIRE(record.harvests.size() == 2);
    CHECK(record.harvests[0].volumeLitres == 13);
    CHECK(record.observations.at(0).value == "60");
}
