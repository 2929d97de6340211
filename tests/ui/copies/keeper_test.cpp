// SPDX-License-Identifier: GPL-3.0-or-later
#include <QFile>
#include <QSignalSpy>
#include <QTimer>

#include "tests/ui/copies/copy_desk.h"

using namespace midden;
using midden::testing::binsIn;
using midden::testing::CopyDesk;
using midden::testing::Desk;
using midden::testing::NoQtWarnings;
using midden::testing::waitUntil;

TEST_CASE("closing the window leaves a copy of the book as it was closed") {
    const NoQtWarnings quiet;
    CopyDesk desk;
    desk.window->startBook(desk.path("plot.midden"));
    desk.addBin("North", {"core"});
    CHECK(desk.kept("plot.midden").empty());
    desk.window->close();
    REQUIRE(desk.kept("plot.midden").size() == 1);
    CHECK(desk.kept("plot.midden")[0].made == desk.now);
    CHECK(binsIn(desk.kept("plot.midden")[0].file) == 1);
}

TEST_CASE("a book that was only looked at is not copied again") {
    const NoQtWarnings quiet;
    CopyDesk desk;
    for (int i = 0; i < 3; ++i) {
        desk.window->startBook(desk.path("plot.midden"));
        desk.window->openBook(desk.path("plot.midden"));
        desk.now = desk.now + days(1);
        desk.window->close();
    }
    CHECK(desk.kept("plot.midden").size() == 1);
}

TEST_CASE("opening another book leaves a copy of the one before") {
    const NoQtWarnings quiet;
    CopyDesk desk;
    desk.window->startBook(desk.path("one.midden"));
    desk.addBin("North", {"core"});
    desk.window->startBook(desk.path("two.midden"));
    REQUIRE(desk.kept("one.midden").size() == 1);
    CHECK(binsIn(desk.kept("one.midden")[0].file) == 1);
    CHECK(desk.kept("two.midden").empty());
}

TEST_CASE("while the book is open copies are made on schedule and only when something changed") {
    const NoQtWarnings quiet;
    CopyDesk desk;
    desk.window->startBook(desk.path("plot.midden"));
    QSignalSpy kept{desk.window->copies(), &ui::CopyKeeper::kept};
    desk.window->copies()->setEvery(20);
    REQUIRE(waitUntil([&] { return kept.count() == 1; }));
    QTimer schedule;
    int times = 0;
    QObject::connect(&schedule, &QTimer::timeout, [&] { ++times; });
    schedule.start(20);
    REQUIRE(waitUntil([&] { return times == 5; }));
    CHECK(desk.window->copies()->copyAndWait() == QString{});
    CHECK(kept.count() == 1);
    desk.now = desk.now + days(1);
    desk.addBin("North", {"core"});
    REQUIRE(waitUntil([&] { return kept.count() >= 2 && desk.kept("plot.midden").size() == 2; }));
    CHECK(binsIn(desk.kept("plot.midden")[0].file) == 1);
    CHECK(binsIn(desk.kept("plot.midden")[1].file) == 0);
}

TEST_CASE("what another program wrote is copied too") {
    const NoQtWarnings quiet;
    CopyDesk desk;
    desk.window->startBook(desk.path("plot.midden"));
    desk.window->copies()->copyAndWait();
    {
        Logbook other = Logbook::open(desk.path("plot.midden").toStdString(), Logbook::Mode::readWrite);
        other.apply(Put<Bin>{{.name = "Hedge"}});
    }
    desk.book().lookForOutsideChanges();
    desk.now = desk.now + days(1);
    desk.window->close();
    REQUIRE(desk.kept("plot.midden").size() == 2);
    CHECK(binsIn(desk.kept("plot.midden")[0].file) == 1);
}

TEST_CASE("a copy that cannot be made is told of and tried again") {
    const NoQtWarnings quiet;
    CopyDesk desk;
    desk.window->startBook(desk.path("plot.midden"));
    desk.window->keepCopiesIn(desk.path("plot.midden/impossible").toStdString(), [&] { return desk.now; });
    desk.window->copies()->copyNow();
    REQUIRE(waitUntil([&] { return !desk.words("troubleWords").isEmpty(); }));
    CHECK(desk.words("troubleWords") ==
          "No copy of plot.midden was made just now: the folder for your copies cannot be written to. The copies made "
          "before are untouched.");
    SECTION("by the next time the program starts when it happens on closing") {
        desk.window->close();
        desk.window->openBook(desk.path("plot.midden"));
        CHECK(desk.words("troubleWords").startsWith("When the book was closed last: No copy of plot.midden"));
    }
    SECTION("as soon as it can be made") {
        desk.window->keepCopiesIn(desk.path("copies").toStdString(), [&] { return desk.now; });
        desk.window->close();
        CHECK(desk.kept("plot.midden").size() == 1);
    }
}

TEST_CASE("without a place for copies none are made") {
    const NoQtWarnings quiet;
    Desk desk;
    desk.window->startBook(desk.path("plot.midden"));
    CHECK(desk.window->copies() == nullptr);
    desk.window->close();
    CHECK(QDir{desk.folder.path()}.entryList(QDir::Files).filter("midden").size() == 1);
}
