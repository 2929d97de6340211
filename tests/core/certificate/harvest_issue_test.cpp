// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/harvest_issue.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "core/quantities/sha256.h"
#include "core/records/level.h"
#include "core/store/read/book_rules.h"
#include "tests/core/certificate/sample_batches.h"

using namespace midden;
using namespace midden::testing;

namespace {

/// 25 dm² of floor, fed three times in March, read hot at one height, emptied by 20 L on the 28th.
class FedBook {
  public:
    FedBook() {
        book.setHand("Ann", [] { return at(31, 9).at; });
        Bin entry{.name = "Gate", .volumeLitres = 250};
        entry.heightCentimetres = 100;
        bin = std::get<BinId>(book.apply(Put<Bin>{entry}).id);
        book.apply(Put<PlaceSetting>{{.place = {bin, "low"}, .heightCentimetres = 8}});
        batch = std::get<BatchId>(
            book.apply(
                    Put<Batch>{{.name = "Gate, fed", .started = at(1, 8), .stays = {{at(1, 8).at, bin}}, .fed = true}})
                .id);
        for (const int day : {1, 8, 15}) {
            feed(at(day, 9), 30);
        }
        level(at(15, 10), 28);
        level(at(27, 10), 24);
        for (int day = 16; day <= 28; ++day) {
            read(at(day, 8), 690'000);
        }
        harvest(at(28, 12), 20);
    }
    void feed(Moment when, double litres) {
        Addition addition{.batch = batch, .when = when, .material = "Kitchen scraps"};
        addition.massKilograms = litres * 0.4;
        addition.volumeLitres = litres;
        addition.raw = true;
        book.apply(Put<Addition>{addition});
    }
    void level(Moment when, double centimetres) {
        book.apply(Put<Observation>{
            {.batch = batch, .when = when, .kind = ObservationKind::level, .value = levelText(centimetres)}});
    }
    void read(Moment when, std::int32_t tenThousandths) {
        book.apply(Put<Reading>{{.place = {bin, "low"}, .when = when, .written = {tenThousandths}}});
    }
    void harvest(Moment when, double litres) {
        book.apply(Put<Harvest>{{.batch = batch, .when = when, .volumeLitres = litres}});
    }
    IssuedCertificate issue(Instant harvested, Instant issued) {
        auto certificate = numberedHarvest(book, *draftHarvest(book, batch, harvested), issued);
        storeOnce(book, certificate);
        return certificate;
    }

    Logbook book = Logbook::inMemory();
    BinId bin{};
    BatchId batch{};
};

}  // namespace

TEST_CASE("harvest record: a draft is of what was there when it was taken") {
    FedBook fed;
    const auto draft = draftHarvest(fed.book, fed.batch, at(28, 12).at);
    REQUIRE(draft);
    CHECK(draft->harvest.asked == Approx(20));
    CHECK(draft->digest == sha256(draft->canonical));
    REQUIRE(draft->harvest.reckoned.halfHad);
    CHECK(*draft->harvest.reckoned.halfHad > hours(72));
    const Certificate page = harvestPageOf(*draft, {}, TimeZone::utc());
    CHECK(page.batch == "Gate, fed");
    CHECK(page.course.front().text.find("low 8 cm") != std::string::npos);
    CHECK(page.course.back().text.find("2 levels measured; the last before it 24 cm") != std::string::npos);
}

TEST_CASE("harvest record: feeding on leaves it as it is, and changing what came before does not") {
    FedBook fed;
    const auto issued = fed.issue(at(28, 12).at, at(29, 9).at);
    CHECK(verifyCertificate(fed.book, issued.number)->stands());
    fed.feed(at(29, 10), 30);
    fed.read(at(30, 8), 700'000);
    fed.level(at(30, 9), 30);
    fed.harvest(at(30, 10), 5);
    const auto after = verifyCertificate(fed.book, issued.number);
    CHECK(after->stands());
    CHECK(after->harvest == at(28, 12).at);

    fed.read(at(28, 11), 400'000);
    const auto changed = verifyCertificate(fed.book, issued.number);
    CHECK_FALSE(changed->stands());
    CHECK(changed->changes.size() == 1);
}

TEST_CASE("harvest record: a batch's certificate and a harvest's record do not take each other's place") {
    FedBook fed;
    const auto batch =
        numberedCertificate(fed.book, draftCertificate(fed.book, fed.batch, {targetOf(fed.book)}), at(29, 8).at);
    storeOnce(fed.book, batch);
    const auto first = fed.issue(at(28, 12).at, at(29, 9).at);
    CHECK(first.supersedes.empty());
    const auto second = fed.issue(at(28, 12).at, at(29, 10).at);
    CHECK(second.supersedes == first.number);
    CHECK(fed.issue(at(28, 12).at, at(29, 10).at).number == second.number);
    const auto later =
        numberedCertificate(fed.book, draftCertificate(fed.book, fed.batch, {targetOf(fed.book)}), at(30, 8).at);
    CHECK(later.supersedes == batch.number);
    CHECK_FALSE(verifyCertificate(fed.book, batch.number)->harvest);
}

TEST_CASE("harvest record: there is none of a filled batch, nor of a time when nothing was taken") {
    FedBook fed;
    CHECK_FALSE(draftHarvest(fed.book, fed.batch, at(28, 13).at));
    Batch batch = *fed.book.batch(fed.batch);
    batch.fed = false;
    fed.book.apply(Amend<Batch>{batch.id, batch, {}});
    CHECK_FALSE(draftHarvest(fed.book, fed.batch, at(28, 12).at));
}

TEST_CASE("harvest record: which harvest it is of stands in what is kept with it") {
    FedBook fed;
    const auto draft = draftHarvest(fed.book, fed.batch, at(28, 12).at);
    CHECK(harvestOf(draft->canonical) == at(28, 12).at);
    // A group's name cannot pass for it.
    CHECK_FALSE(harvestOf(canonicalHead({.group = "x\nharvest\tat=2026-03-28T12:00:00Z"}) + "entries\n"));
}
