// SPDX-License-Identifier: GPL-3.0-or-later
// What the window says when its file goes away or will not take what is typed.
#include <QFile>
#include <QProcess>
#include <QPushButton>

#include "tests/ui/copies/copy_desk.h"

using namespace midden;
using midden::testing::aMinute;
using midden::testing::CopyDesk;
using midden::testing::Desk;
using midden::testing::NoQtWarnings;
using midden::testing::waitUntil;

namespace {

bool says(const Desk& desk, const QString& words) {
    return waitUntil([&] { return desk.words("troubleWords").contains(words); });
}

}  // namespace

TEST_CASE("a file that is moved away is told of and nothing typed is lost from its cell") {
    const NoQtWarnings quiet;
    CopyDesk desk;
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    const BinId north = desk.addBin("North", {"core", "side"});
    QFile::rename(desk.path("plot.midden"), desk.path("moved.midden"));
    REQUIRE(says(desk, "it was moved, renamed or deleted"));
    auto& cell = desk.find<QLineEdit>("cell_North_core");
    cell.setFocus();
    Desk::type("58.5");
    Desk::press(Qt::Key_Return);
    CHECK(cell.text() == "58.5");
    CHECK_FALSE(desk.reading(north, "core", desk.now));
    SECTION("put back it is saved by Enter") {
        QFile::rename(desk.path("moved.midden"), desk.path("plot.midden"));
        REQUIRE(waitUntil([&] { return desk.words("status").contains("is back where it was"); }));
        cell.setFocus();
        Desk::press(Qt::Key_Return);
        CHECK(desk.reading(north, "core", desk.now));
    }
    SECTION("closing asks before it is lost") {
        CHECK_FALSE(desk.window->close());
        CHECK(desk.window->isVisible());
        desk.prompts.confirmAnswer = true;
        CHECK(desk.window->close());
    }
}

TEST_CASE("what a moved file held is saved under a new name and goes on there") {
    const NoQtWarnings quiet;
    CopyDesk desk;
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    desk.addBin("North", {"core"});
    QFile::remove(desk.path("plot.midden"));
    REQUIRE(says(desk, "it was moved, renamed or deleted"));
    desk.prompts.saveAnswer = desk.path("rescued.midden");
    desk.find("troubleSaveAs").setFocus();
    Desk::press(Qt::Key_Space);
    Desk::settle();
    CHECK(desk.book().log().file() == desk.path("rescued.midden").toStdString());
    CHECK(desk.book().log().bins().size() == 1);
}

TEST_CASE("a file that another took the place of is told of and can be opened") {
    const NoQtWarnings quiet;
    CopyDesk desk;
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    desk.addBin("North", {"core"});
    {
        Logbook::open(desk.path("fresh.midden").toStdString(), Logbook::Mode::createIfAbsent);
        std::filesystem::rename(desk.path("fresh.midden").toStdString(), desk.path("plot.midden").toStdString());
    }
    REQUIRE(says(desk, "Another file has taken the place of plot.midden"));
    desk.find("troubleReopen").setFocus();
    Desk::press(Qt::Key_Space);
    Desk::settle();
    CHECK(desk.book().log().bins().empty());
}

TEST_CASE("the program that holds the file is named") {
    const NoQtWarnings quiet;
    CopyDesk desk;
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    desk.addBin("North", {"core"});
    QProcess other;
    other.start("python3", {"-c",
                            "import sqlite3, sys\n"
                            "book = sqlite3.connect(sys.argv[1], isolation_level=None)\n"
                            "book.execute('BEGIN IMMEDIATE')\n"
                            "print('held', flush=True)\n"
                            "sys.stdin.read()\n",
                            desk.path("plot.midden")});
    REQUIRE(other.waitForReadyRead(aMinute));
    desk.find<QLineEdit>("cell_North_core").setFocus();
    Desk::type("58.5");
    Desk::press(Qt::Key_Return);
    CHECK(
        desk.words("troubleWords") ==
        QString{"python3 (process %1) is writing to plot.midden and has not let go of it; try again in a moment."}.arg(
            other.processId()));
    other.closeWriteChannel();
    REQUIRE(other.waitForFinished(aMinute));
    Desk::press(Qt::Key_Return);
}

TEST_CASE("a file another program is writing to keeps what was typed in its cell") {
    const NoQtWarnings quiet;
    CopyDesk desk;
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    const BinId north = desk.addBin("North", {"core", "side"});
    auto& cell = desk.find<QLineEdit>("cell_North_core");
    {
        Logbook other = Logbook::open(desk.path("plot.midden").toStdString(), Logbook::Mode::readWrite);
        other.inOneTransaction([&] {
            other.apply(Put<Bin>{{.name = "Hedge"}});
            cell.setFocus();
            Desk::type("58.5");
            Desk::press(Qt::Key_Return);
            CHECK(desk.words("troubleWords").contains("try again in a moment"));
            CHECK(cell.text() == "58.5");
            CHECK_FALSE(desk.reading(north, "core", desk.now));
        });
    }
    cell.setFocus();
    Desk::press(Qt::Key_Return);
    CHECK(desk.reading(north, "core", desk.now));
}
