// SPDX-License-Identifier: GPL-3.0-or-later
// Moves that a start or a finish of another copy leaves out, and batches withdrawn in one copy and used in another.
#include <catch2/catch.hpp>

#include "tests/core/store/stewards.h"

using namespace midden;
using namespace midden::trial;
using Mode = Logbook::Mode;

namespace {

BatchId spring(const Logbook& book) {
    return book.batchNamed("spring")->id;
}

void finish(Logbook& book, double hours) {
    Batch batch = shown(book, spring(book));
    batch.finished = at(hours);
    book.apply(Amend<Batch>{batch.id, batch, ""});
}

void move(Logbook& book, double hours, BinId bin) {
    Batch batch = shown(book, spring(book));
    batch.stays.push_back({at(hours).at, bin});
    book.apply(Amend<Batch>{batch.id, batch, ""});
}

std::size_t stays(const Logbook& book) {
    return shown(book, spring(book)).stays.size();
}

/// Three copies that know of North and South.
struct Three {
    Three() {
        auto first = stewards.ada();
        south = putBin(first, "South");
        std::filesystem::remove(stewards.folder / "grace.midden");
        first.copyTo(stewards.folder / "grace.midden");
        first.copyTo(stewards.folder / "mary.midden");
        ada = stewards.ada();
        grace = stewards.grace();
        mary = stewards.at("mary", 90);
    }

    Stewards stewards;
    BinId south{};
    Logbook ada = Logbook::inMemory();
    Logbook grace = Logbook::inMemory();
    Logbook mary = Logbook::inMemory();
};

}  // namespace

TEST_CASE("a move after the other copy's finish does not count until the finish lets it in") {
    Three three;
    move(three.ada, 48, three.south);
    finish(three.grace, 30);
    const auto outcome = three.ada.merge(three.grace);
    REQUIRE(outcome.conflicts.size() == 1);
    CHECK_FALSE(outcome.conflicts[0].isChoice);
    CHECK(stays(three.ada) == 1);
    CHECK(three.ada.record(spring(three.ada)).finished == at(30).at);
    CHECK(three.ada.check({}).faults.empty());
    CHECK(three.ada.merge(three.grace).conflicts.empty());

    finish(three.mary, 20);
    finish(three.mary, 60);  // a correction, which stands over what nobody corrected
    three.ada.merge(three.mary);
    CHECK(stays(three.ada) == 2);
    CHECK(three.ada.record(spring(three.ada)).binName == "South");
}

TEST_CASE("a move that does not count comes and goes with the finish and is undone with it") {
    Three three;
    move(three.ada, 48, three.south);
    finish(three.grace, 30);
    three.ada.merge(three.grace);
    const auto before = textOf(three.ada);
    Batch later = shown(three.ada, spring(three.ada));
    later.finished = at(60);
    const auto applied = three.ada.apply(Amend<Batch>{later.id, later, "finished later"});
    CHECK(stays(three.ada) == 2);
    const auto undone = three.ada.apply(applied.inverse);
    CHECK(textOf(three.ada) == before);
    three.ada.apply(undone.inverse);
    CHECK(stays(three.ada) == 2);
}

TEST_CASE("a move taken back and made again stands in every copy") {
    Three three;
    move(three.ada, 48, three.south);
    Batch back = shown(three.ada, spring(three.ada));
    back.stays.pop_back();
    three.ada.apply(Amend<Batch>{back.id, back, "not moved"});
    three.grace.merge(three.ada);
    CHECK(stays(three.grace) == 1);
    move(three.ada, 48, three.south);
    three.grace.merge(three.ada);
    CHECK(stays(three.grace) == 2);
    three.ada.merge(three.grace);
    CHECK(stays(three.ada) == 2);
}

TEST_CASE("a batch withdrawn in one copy and used in another keeps what the third knew of it") {
    const bool finishFirst = GENERATE(true, false);
    Three three;
    three.ada.apply(Withdraw<Addition>{three.ada.record(spring(three.ada)).additions[0].id, ""});
    three.ada.apply(Withdraw<Batch>{spring(three.ada), "never was"});
    three.grace.apply(Withdraw<Addition>{three.grace.record(spring(three.grace)).additions[0].id, ""});
    move(three.grace, 48, three.south);
    finish(three.grace, 60);
    three.mary.apply(Put<Addition>{additionTo(spring(three.mary), 10, "leaves", 3)});

    three.ada.merge(finishFirst ? three.grace : three.mary);
    CHECK(three.ada.batchNamed("spring").has_value() == !finishFirst);
    three.ada.merge(finishFirst ? three.mary : three.grace);
    REQUIRE(three.ada.batchNamed("spring"));
    CHECK(stays(three.ada) == 2);
    CHECK(shown(three.ada, spring(three.ada)).finished == at(60));
    CHECK(three.ada.record(spring(three.ada)).additions.size() == 1);
    CHECK(three.ada.check({}).faults.empty());
}

TEST_CASE("a correction of the name in one copy and of the finish in another both hold") {
    Three three;
    for (Logbook* book : {&three.ada, &three.grace}) {
        finish(*book, 50);
    }
    finish(three.ada, 55);
    Batch renamed = shown(three.grace, spring(three.grace));
    renamed.name = "early spring";
    three.grace.apply(Amend<Batch>{renamed.id, renamed, ""});
    CHECK(three.ada.merge(three.grace).conflicts.empty());
    REQUIRE(three.ada.batchNamed("early spring"));
    CHECK(three.ada.batchNamed("early spring")->finished == at(55));
}

TEST_CASE("a finish before the other copy's start does not count until a start lets it in") {
    Three three;
    Batch later = shown(three.ada, spring(three.ada));
    later.started = at(40);
    three.ada.apply(Amend<Batch>{later.id, later, ""});
    finish(three.grace, 30);
    three.mary.merge(three.grace);
    CHECK(shown(three.mary, spring(three.mary)).finished == at(30));
    const auto outcome = three.ada.merge(three.grace);
    REQUIRE(outcome.conflicts.size() == 1);
    CHECK_FALSE(outcome.conflicts[0].isChoice);
    CHECK_THAT(outcome.conflicts[0].ours.value, Catch::Contains("finished"));
    CHECK(shown(three.ada, spring(three.ada)).started == at(40));
    CHECK_FALSE(shown(three.ada, spring(three.ada)).finished);
    CHECK(three.ada.check({}).faults.empty());
    CHECK(three.ada.merge(three.grace).conflicts.empty());
    three.grace.merge(three.ada);
    CHECK(textOf(three.grace) == textOf(three.ada));

    Batch earlier = shown(three.ada, spring(three.ada));
    earlier.started = at(20);
    earlier.stays.front().since = earlier.started.at;
    three.ada.apply(Amend<Batch>{earlier.id, earlier, "not so late"});
    three.ada.merge(three.mary);
    CHECK(shown(three.ada, spring(three.ada)).finished == at(30));
}

TEST_CASE("a finish typed after an earlier one did not count stands over it") {
    Three three;
    Batch later = shown(three.ada, spring(three.ada));
    later.started = at(40);
    three.ada.apply(Amend<Batch>{later.id, later, ""});
    finish(three.grace, 30);
    three.ada.merge(three.grace);
    Batch known = shown(three.ada, spring(three.ada));
    known.started = at(10);
    known.stays.front().since = known.started.at;
    known.finished = at(25);
    three.ada.apply(Amend<Batch>{known.id, known, "as we know now"});
    three.ada.merge(three.mary);
    CHECK(shown(three.ada, spring(three.ada)).finished == at(25));
}
