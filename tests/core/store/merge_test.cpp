// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>

#include "core/quantities/sha256.h"
#include "core/store/sqlite/database.h"
#include "core/store/state.h"
#include "tests/core/store/stewards.h"

using namespace midden;
using namespace midden::trial;
using Mode = Logbook::Mode;

namespace {

BinId north(const Logbook& book) {
    return book.binNamed("North")->id;
}
BatchId spring(const Logbook& book) {
    return book.batchNamed("spring")->id;
}
ReadingId firstReading(const Logbook& book) {
    return {{north(book), "core"}, at(1).at};
}

void correct(Logbook& book, double celsius) {
    auto reading = *book.reading(firstReading(book));
    reading.written = degrees(celsius);
    book.apply(Amend<Reading>{firstReading(book), reading, "misread"});
}

/// Merges both ways and checks that the books agree, are sound, and have nothing more to tell each other.
void checkAgreed(Logbook& ada, Logbook& grace) {
    const Folder folder;
    ada.backUpTo(folder / "before.midden");
    const auto before = Logbook::open(folder / "before.midden", Mode::readOnly);
    ada.merge(grace);
    grace.merge(before);
    CHECK(everything(ada) == everything(grace));
    const auto again = ada.merge(grace);
    CHECK(again.added == 0);
    CHECK(again.changed == 0);
    CHECK(again.conflicts.empty());
    CHECK(everything(ada) == everything(grace));
    CHECK(ada.check({}).faults.empty());
    CHECK(grace.check({}).faults.empty());
}

}  // namespace

TEST_CASE("what each steward entered comes together") {
    const Stewards stewards;
    auto ada = stewards.ada();
    auto grace = stewards.grace();
    putReading(ada, north(ada), "core", 24, 60);
    putReading(grace, north(grace), "side", 24, 50);
    grace.apply(Put<Addition>{additionTo(spring(grace), 25, "kitchen scraps", 2)});
    const auto south = putBin(grace, "South");
    putBatch(grace, south, "summer", 30);
    putReading(grace, south, "core", 31, 45);
    const RawReading bulk[] = {{at(40).at, 500'000}, {at(41).at, 510'000}};
    grace.addReadings({{north(grace), "core"}}, bulk);

    const auto outcome = ada.merge(grace);
    CHECK(outcome.added == 7);
    CHECK(outcome.changed == 0);
    CHECK(outcome.conflicts.empty());
    CHECK(ada.record(spring(ada)).readings == 5);
    CHECK(ada.record(ada.batchNamed("summer")->id).readings == 1);
    CHECK(ada.record(spring(ada)).additions.size() == 2);
    CHECK(ada.record(spring(ada)).amendedEntries == 0);
    checkAgreed(ada, grace);
}

TEST_CASE("both copies agree which additions are read with the list of materials of before") {
    const Stewards stewards;
    auto ada = stewards.ada();
    auto grace = stewards.grace();
    for (const Logbook* book : {&ada, &grace}) {  // as books that were written before the setting was known
        Query{Logbook::State::of(*book).file, "DELETE FROM setting WHERE name = 'materials_since'"}.run();
    }
    grace.apply(Put<Addition>{additionTo(spring(grace), 40, "bread", 2)});
    const bool both = GENERATE(false, true);
    if (both) {
        ada.apply(Put<Addition>{additionTo(spring(ada), 50, "bread", 2)});
        ada.apply(Put<Addition>{additionTo(spring(ada), 51, "rice", 2)});
    }
    const auto said = grace.setting(setting::materialsSince);
    checkAgreed(ada, grace);
    CHECK(ada.setting(setting::materialsSince) == said);
    CHECK(grace.setting(setting::materialsSince) == said);
}

TEST_CASE("a correction made in one copy reaches the other and is no conflict") {
    const Stewards stewards;
    auto ada = stewards.ada();
    auto grace = stewards.grace();
    correct(grace, 56);
    grace.apply(Withdraw<Addition>{grace.record(spring(grace)).additions[0].id, "not ours"});
    const auto outcome = ada.merge(grace);
    CHECK(outcome.changed == 2);
    CHECK(outcome.conflicts.empty());
    CHECK(ada.reading(firstReading(ada))->written == degrees(56));
    CHECK(ada.record(spring(ada)).additions.empty());
    CHECK(ada.record(spring(ada)).amendedEntries == 2);
    CHECK(ada.amendments(spring(ada))[0].who == "grace");
    checkAgreed(ada, grace);
}

TEST_CASE("where both corrected an entry the later stands and both are kept") {
    const Stewards stewards;
    auto ada = stewards.ada();
    auto grace = stewards.grace();
    correct(ada, 57);
    correct(grace, 56);  // ten hours later
    const auto outcome = ada.merge(grace);
    REQUIRE(outcome.conflicts.size() == 1);
    CHECK(outcome.conflicts[0].subject == "core, North");
    CHECK(outcome.conflicts[0].ours.value == "57 °C");
    CHECK(outcome.conflicts[0].theirs.value == "56 °C");
    CHECK(ada.reading(firstReading(ada))->written == degrees(56));
    CHECK(ada.amendments(spring(ada)).size() == 3);
    checkAgreed(ada, grace);
}

TEST_CASE("a correction stands even when its clock was slow") {
    const Stewards stewards;
    auto ada = stewards.ada();
    auto grace = stewards.at("grace", -500);
    correct(grace, 56);
    CHECK(ada.merge(grace).conflicts.empty());
    CHECK(ada.reading(firstReading(ada))->written == degrees(56));
    correct(grace, 57);
    CHECK(ada.merge(grace).conflicts.empty());
    CHECK(ada.reading(firstReading(ada))->written == degrees(57));
    checkAgreed(ada, grace);
}

TEST_CASE("starts corrected in both copies leave one start") {
    const Stewards stewards;
    auto ada = stewards.ada();
    auto grace = stewards.grace();
    const double mine = GENERATE(-3.0, -1.0);
    for (const auto& [book, hours] : {std::pair{&ada, mine}, std::pair{&grace, -2.0}}) {
        Batch batch = shown(*book, spring(*book));
        batch.started = at(hours);
        book->apply(Amend<Batch>{batch.id, batch, "the start"});
    }
    CHECK_FALSE(ada.merge(grace).conflicts.empty());
    CHECK(shown(ada, spring(ada)).started == at(-2));
    checkAgreed(ada, grace);
}

TEST_CASE("a start nobody gave stands at the earlier one without a correction") {
    auto one = Logbook::inMemory();
    auto other = Logbook::inMemory();
    for (const auto& [book, hours] : {std::pair{&one, 24}, std::pair{&other, 0}}) {
        const auto bin = putBin(*book, "North");
        Batch batch = batchIn(bin, "spring", hours);
        batch.startGiven = false;
        book->apply(Put<Batch>{batch});
        putReading(*book, bin, "core", hours, 50);
    }
    CHECK(one.merge(other).conflicts.empty());
    CHECK(other.merge(one).conflicts.empty());
    CHECK(shown(one, spring(one)).started == at(0));
    CHECK(shown(one, spring(one)).stays.size() == 1);
    CHECK(one.record(spring(one)).amendedEntries == 0);
    CHECK(everything(one) == everything(other));
    CHECK(one.check({}).faults.empty());
}

TEST_CASE("a book merged with itself is as it was") {
    const Stewards stewards;
    auto ada = stewards.ada();
    const auto before = everything(ada);
    CHECK(ada.merge(Logbook::open(ada.file(), Mode::readOnly)).added == 0);
    CHECK(everything(ada) == before);
}

TEST_CASE("two readings typed for one place and instant are a conflict") {
    const Stewards stewards;
    auto ada = stewards.ada();
    auto grace = stewards.grace();
    putReading(ada, north(ada), "core", 24, 60);
    putReading(grace, north(grace), "core", 24, 61);
    const auto outcome = ada.merge(grace);
    REQUIRE(outcome.conflicts.size() == 1);
    CHECK(ada.reading({{north(ada), "core"}, at(24).at})->written == degrees(61));
    checkAgreed(ada, grace);
}

TEST_CASE("a finish and a move known to one copy hold for both") {
    const Stewards stewards;
    auto ada = stewards.ada();
    auto grace = stewards.grace();
    Batch moved = shown(ada, spring(ada));
    moved.stays.push_back({at(48).at, putBin(ada, "South")});
    ada.apply(Amend<Batch>{moved.id, moved, "turned over"});
    Batch finished = shown(grace, spring(grace));
    finished.finished = at(60);
    grace.apply(Amend<Batch>{finished.id, finished, ""});
    ada.merge(grace);
    const auto batch = shown(ada, spring(ada));
    CHECK(batch.stays.size() == 2);
    CHECK(batch.finished == at(60));
    CHECK(ada.record(batch.id).amendedEntries == 0);
    checkAgreed(ada, grace);
}

TEST_CASE("a corrected bin and start reach the other copy") {
    const Stewards stewards;
    auto ada = stewards.ada();
    auto grace = stewards.grace();
    Batch batch = shown(grace, spring(grace));
    batch.stays[0].bin = putBin(grace, "South");
    grace.apply(Amend<Batch>{batch.id, batch, "the other bin"});
    CHECK(ada.merge(grace).conflicts.empty());
    CHECK(ada.record(spring(ada)).binName == "South");
    checkAgreed(ada, grace);

    batch.started = at(-2);
    grace.apply(Amend<Batch>{batch.id, batch, "two hours earlier"});
    CHECK(ada.merge(grace).conflicts.empty());
    CHECK(shown(ada, spring(ada)).started == at(-2));
    CHECK(shown(ada, spring(ada)).stays.size() == 1);
    checkAgreed(ada, grace);
}

TEST_CASE("certificates of both copies are kept") {
    const Stewards stewards;
    auto ada = stewards.ada();
    auto grace = stewards.grace();
    ada.storeCertificate({"1", spring(ada), at(5).at, sha256("one"), "one", ""});
    grace.storeCertificate({"2", spring(grace), at(6).at, sha256("two"), "two", ""});
    ada.merge(grace);
    CHECK(ada.certificates(spring(ada)).size() == 2);
    checkAgreed(ada, grace);
}

TEST_CASE("a bin that one copy withdrew goes unless the other uses it") {
    const Stewards stewards;
    auto ada = stewards.ada();
    auto grace = stewards.grace();
    putBin(ada, "South");
    grace.merge(ada);
    ada.apply(Withdraw<Bin>{ada.binNamed("South")->id, "no such bin"});
    const bool isUsed = GENERATE(true, false);
    if (isUsed) {
        putReading(grace, grace.binNamed("South")->id, "core", 30, 40);
    }
    ada.merge(grace);
    CHECK(ada.binNamed("South").has_value() == isUsed);
    checkAgreed(ada, grace);
}

TEST_CASE("the same number typed twice is one reading and no conflict") {
    const Stewards stewards;
    auto ada = stewards.ada();
    auto grace = stewards.grace();
    putReading(ada, north(ada), "core", 24, 60);
    putReading(grace, north(grace), "core", 24, 60);
    CHECK(ada.merge(grace).conflicts.empty());
    CHECK(ada.record(spring(ada)).readings == 2);
    checkAgreed(ada, grace);
}

TEST_CASE("a choice is a correction that every other copy follows") {
    const Stewards stewards;
    auto ada = stewards.ada();
    auto grace = stewards.grace();
    ada.copyTo(stewards.folder / "mary.midden");
    auto mary = stewards.at("mary", 75);
    correct(ada, 57);
    correct(grace, 56);
    correct(mary, 55.5);
    ada.setHand("ada", [] { return at(-5'000).at; });  // a clock that is wrong by months
    const auto outcome = ada.merge(grace, [](const MergeConflict&) { return Stands::ours; });
    REQUIRE(outcome.conflicts.size() == 1);
    CHECK_FALSE(outcome.conflicts[0].theirsStands);
    mary.merge(grace);
    CHECK(mary.reading(firstReading(mary))->written == degrees(56));
    CHECK(mary.merge(ada).conflicts.empty());
    CHECK(mary.reading(firstReading(mary))->written == degrees(57));
    CHECK(grace.merge(mary).conflicts.empty());
    CHECK(grace.reading(firstReading(grace))->written == degrees(57));
    checkAgreed(ada, grace);
}

TEST_CASE("another group's book is refused and nothing changes") {
    const Stewards stewards;
    auto ada = stewards.ada();
    auto grace = stewards.grace();
    ada.setSetting(setting::group, "Ferry Lane");
    grace.setSetting(setting::group, "Mill Field");
    putReading(grace, north(grace), "core", 24, 60);
    CHECK(refusalOf([&] { ada.merge(grace); }) == LogbookError::Kind::refused);
    CHECK(ada.record(spring(ada)).readings == 1);
}
