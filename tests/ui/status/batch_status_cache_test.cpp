// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/batch_status_cache.h"

#include <QTest>
#include <QUndoStack>
#include <ctime>

#include "core/store/read/book_rules.h"
#include "tests/ui/support/made_batch.h"
#include "tests/ui/support/made_book.h"
#include "tests/ui/support/qt_support.h"
#include "ui/shared/bin_summary.h"

using namespace midden;
using namespace midden::ui;
using namespace midden::testing;

namespace {

constexpr double loggedHours = 300;

/// Two loggers at one reading a minute: too long to be worked through at once.
BatchRecord logged() {
    BatchRecord record = madeRecord();
    constexpr int count = static_cast<int>(loggedHours * 60);
    record.tracks = {madeTrack("core", 0, 1.0 / 60, count), madeTrack("side", 4, 1.0 / 60, count)};
    return record;
}

Reading readingAt(BinId bin, const std::string& position, Instant at, int tenThousandths) {
    return {.place = {bin, position}, .when = {at, {}}, .written = {tenThousandths}};
}

/// What the book's own record says, all of it read anew.
BinOutlook plainly(Book& book) {
    const Logbook again = Logbook::open(book.log().file(), Logbook::Mode::readOnly);
    const BatchRecord record = again.record(*book.batch());
    const OutlookSettings settings = outlookSettingsOf(again);
    const Materials materials = materialsOf(again);
    return outlookOf(record, stallsOf(record, settings.stalls, materials), settings, materials);
}

std::string wordsOf(const BinOutlook& outlook) {
    const auto number = [](auto value) { return " " + std::to_string(value); };
    std::string words = nameOf(outlook.phase) + (outlook.targetShown ? " shown" : "") + number(outlook.credited.count) +
                        number(outlook.missing.count);
    words += outlook.last ? number(outlook.last->at.utcSeconds) + number(outlook.last->warmest.parts()) : "";
    words += outlook.hold ? number(outlook.hold->credited.count) + number(outlook.hold->completes.utcSeconds) : "";
    words += outlook.projection ? number(outlook.projection->low) + number(outlook.projection->high) : "";
    words += outlook.stall ? nameOf(outlook.stall->kind) + number(outlook.stall->hoursShort) : "";
    for (const Due& due : outlook.due) {
        words += number(static_cast<int>(due.kind)) + number(due.at ? due.at->utcSeconds : 0);
    }
    return words;
}

struct Watched {
    explicit Watched(const BatchRecord& record)
        : book{record, afterHours(loggedHours + 2)}, statusCache{book->statusCache()} {}

    const BatchStatus* now() { return statusCache.of(*book->batch()); }
    bool isKnownSoon() {
        now();
        return waitUntil([this] { return now() != nullptr; });
    }
    /// True when what is given out is what the whole record says.
    bool isRight() { return wordsOf(now()->outlook) == wordsOf(plainly(*book)); }
    bool put(const Reading& reading) { return book->change(Put<Reading>{reading}, QStringLiteral("reading")); }

    MadeBook book;
    BatchStatusCache& statusCache;
};

}  // namespace

TEST_CASE("how a typed batch stands is known at once and after every entry") {
    Watched watched{sixtyDays()};
    REQUIRE(watched.now() != nullptr);
    CHECK(watched.isRight());
    const BinId bin = *watched.book->bin();
    for (const auto& reading :
         {readingAt(bin, "core", afterHours(1'440), 600'000), readingAt(bin, "core", afterHours(1), 300'000),
          readingAt(bin, "side", afterHours(1'440), 400'000), readingAt(bin, "", afterHours(1'441), 50'000)}) {
        REQUIRE(watched.put(reading));
        REQUIRE(watched.now() != nullptr);
        CHECK(watched.isRight());
    }
    watched.book->undoStack().undo();
    watched.book->undoStack().undo();
    REQUIRE(watched.now() != nullptr);
    CHECK(watched.isRight());
}

TEST_CASE("nothing is said of a long batch until it is worked out") {
    NoQtWarnings quiet;
    Watched watched{logged()};
    CHECK(watched.now() == nullptr);
    const Bin bin = watched.book->log().bins().front();
    const BinSummary summary = binSummary(*watched.book, bin);
    CHECK(summary.isPending);
    REQUIRE(summary.batch);
    CHECK(summary.batch->name == "North 3");
    CHECK(words::phase(summary, TemperatureUnit::celsius) == "being worked out …");
    CHECK(words::credit(summary, TemperatureUnit::celsius).isEmpty());
    CHECK(words::due(summary, watched.book->zone(), watched.book->now()).isEmpty());
    REQUIRE(watched.isKnownSoon());
    CHECK(watched.isRight());
    CHECK_FALSE(binSummary(*watched.book, bin).isPending);
    CHECK_FALSE(watched.statusCache.isBusy());
}

TEST_CASE("a new reading in a long batch counts at once and is the same as reading it all again") {
    Watched watched{logged()};
    REQUIRE(watched.isKnownSoon());
    const BinId bin = *watched.book->bin();
    for (int round = 0; round < 3; ++round) {
        for (const std::string position : {"core", "side"}) {
            REQUIRE(watched.put(readingAt(bin, position, afterHours(loggedHours + round), 560'000 - round * 90'000)));
            REQUIRE(watched.now() != nullptr);
            CHECK(watched.isRight());
        }
    }
    watched.book->undoStack().undo();
    REQUIRE(watched.now() != nullptr);
    CHECK(watched.isRight());
}

TEST_CASE("an entry of long ago in a long batch has it worked out again and says so") {
    Watched watched{logged()};
    REQUIRE(watched.isKnownSoon());
    REQUIRE(watched.put(readingAt(*watched.book->bin(), "base", afterHours(20), 200'000)));
    CHECK(watched.now() == nullptr);
    REQUIRE(watched.isKnownSoon());
    CHECK(watched.isRight());
}

TEST_CASE("an entry in another bin leaves a long batch known") {
    Watched watched{logged()};
    REQUIRE(watched.isKnownSoon());
    BinId other{};
    watched.book->changeTogether(QStringLiteral("bin"), [&](const Book::Apply& apply) {
        other = std::get<BinId>(apply(Put<Bin>{{.name = "Shed"}}).id);
        apply(Put<Batch>{{.name = "Shed 1", .started = {firstOfMarch, {}}, .stays = {{firstOfMarch, other}}}});
    });
    CHECK(watched.now() != nullptr);
    REQUIRE(watched.put(readingAt(other, "core", afterHours(5), 500'000)));
    CHECK(watched.now() != nullptr);
    CHECK(watched.isRight());
}

TEST_CASE("another target has a long batch worked out again") {
    Watched watched{logged()};
    REQUIRE(watched.isKnownSoon());
    REQUIRE(watched.book->setSetting(setting::targetHours, QStringLiteral("240")));
    CHECK(watched.now() == nullptr);
    REQUIRE(watched.isKnownSoon());
    CHECK(watched.isRight());
    CHECK(watched.statusCache.target().hold == hours(240));
}

TEST_CASE("an entry is not kept waiting by a long batch that is being read") {
    NoQtWarnings quiet;
    Watched watched{logged()};
    CHECK(watched.now() == nullptr);
    const auto before = std::clock();  // of this program alone, reading included, whatever else the machine does
    REQUIRE(watched.put(readingAt(*watched.book->bin(), "core", afterHours(loggedHours), 560'000)));
    CHECK(std::clock() - before < CLOCKS_PER_SEC);
    REQUIRE(watched.isKnownSoon());
    CHECK(watched.isRight());
}

TEST_CASE("what another program writes is taken in") {
    Watched watched{logged()};
    REQUIRE(watched.isKnownSoon());
    {
        Logbook other = Logbook::open(watched.book->log().file(), Logbook::Mode::readWrite);
        other.apply(Put<Reading>{readingAt(*watched.book->bin(), "core", afterHours(loggedHours), 200'000)});
    }
    watched.book->lookForOutsideChanges();
    CHECK(watched.now() == nullptr);
    REQUIRE(watched.isKnownSoon());
    CHECK(watched.isRight());
}
