// SPDX-License-Identifier: GPL-3.0-or-later
#include <QFile>
#include <QListWidget>
#include <QMenuBar>
#include <QPushButton>

#include "tests/ui/copies/copy_desk.h"

using namespace midden;
using midden::testing::binsIn;
using midden::testing::CopyDesk;
using midden::testing::Desk;
using midden::testing::NoQtWarnings;
using midden::testing::waitUntil;

namespace {

void spoil(const QString& path) {
    QFile file{path};
    REQUIRE(file.open(QIODevice::ReadWrite));
    file.seek(4'096);
    file.write(QByteArray(static_cast<qsizetype>(file.size()) - 4'096, '\x55'));
}

}  // namespace

TEST_CASE("the copies of a book are listed and looked into before one is chosen") {
    const NoQtWarnings quiet;
    CopyDesk desk;
    desk.growBook();
    desk.find<QAction>("actionCopies").trigger();
    CHECK(Desk::focus() == "copiesList");
    CHECK(desk.find<QListWidget>("copiesList").count() == 1);
    CHECK(desk.inside("Batch North batch: running, 0 readings"));
    CHECK(desk.words("copiesInside").contains("Only in the logbook now: 1 batch, 1 bin, 1 position."));
    CHECK(desk.words("copiesInside").contains("Only in this copy: nothing."));
    CHECK(midden::testing::unnamed(*desk.window) == QStringList{});
    Desk::press(Qt::Key_Escape);
    CHECK(desk.window->findChild<QWidget*>("workspace")->isVisible());
}

TEST_CASE("by keyboard a copy is restored to a new file which is opened") {
    const NoQtWarnings quiet;
    CopyDesk desk;
    desk.growBook();
    desk.find<QAction>("actionCopies").trigger();
    REQUIRE(desk.inside("Only in the logbook now"));
    desk.prompts.saveAnswer = desk.path("again.midden");
    Desk::press(Qt::Key_Tab);
    CHECK(Desk::focus() == "copiesRestore");
    Desk::press(Qt::Key_Space);
    Desk::settle();
    CHECK(desk.book().log().file() == desk.path("again.midden").toStdString());
    CHECK(binsIn(desk.path("again.midden").toStdString()) == 1);
    CHECK(binsIn(desk.path("plot.midden").toStdString()) == 2);
}

TEST_CASE("a copy put in place is asked about first and what stood there is kept as a copy") {
    const NoQtWarnings quiet;
    CopyDesk desk;
    desk.growBook();
    desk.find<QAction>("actionCopies").trigger();
    REQUIRE(desk.inside("Only in the logbook now"));
    desk.find("copiesReplace").setFocus();
    Desk::press(Qt::Key_Space);
    CHECK(desk.prompts.asked == 1);
    CHECK(binsIn(desk.path("plot.midden").toStdString()) == 2);  // the answer was no
    desk.prompts.confirmAnswer = true;
    Desk::press(Qt::Key_Space);
    Desk::settle();
    CHECK(desk.book().log().bins().size() == 1);
    CHECK(desk.book().log().file() == desk.path("plot.midden").toStdString());
    CHECK(desk.words("status").contains("What the logbook held before is the newest of its copies"));
    const auto kept = desk.kept("plot.midden");
    REQUIRE(kept.size() == 2);
    CHECK(binsIn(kept[0].file) == 2);
}

TEST_CASE("the copy of an hour ago is restored even when the copy of now takes its place in the list") {
    const NoQtWarnings quiet;
    CopyDesk desk;
    desk.growBook();
    desk.now = desk.now - days(1) + hours(1);
    desk.find<QAction>("actionCopies").trigger();
    REQUIRE(desk.inside("Only in the logbook now"));
    desk.prompts.confirmAnswer = true;
    desk.find("copiesReplace").setFocus();
    Desk::press(Qt::Key_Space);
    Desk::settle();
    CHECK(desk.book().log().bins().size() == 1);
    REQUIRE(desk.kept("plot.midden").size() == 1);
    CHECK(binsIn(desk.kept("plot.midden")[0].file) == 2);
}

TEST_CASE("a damaged file is told of with what can be done and is never written to") {
    const NoQtWarnings quiet;
    CopyDesk desk;
    desk.growBook();
    desk.window->startBook(desk.path("other.midden"));
    spoil(desk.path("plot.midden"));
    QFile file{desk.path("plot.midden")};
    REQUIRE(file.open(QIODevice::ReadOnly));
    const QByteArray before = file.readAll();
    CHECK_FALSE(desk.window->openBook(desk.path("plot.midden")));
    CHECK(desk.words("troubleWords").contains("damaged"));
    CHECK(desk.words("troubleWords").contains("Nothing was written to it."));
    SECTION("its copies are a key away") {
        desk.find("troubleCopies").setFocus();
        Desk::press(Qt::Key_Space);
        Desk::settle();
        REQUIRE(desk.inside("Batch North batch"));
        CHECK(desk.words("copiesInside").contains("It could not be compared with the logbook"));
        desk.prompts.confirmAnswer = true;
        desk.find("copiesReplace").setFocus();
        Desk::press(Qt::Key_Space);
        Desk::settle();
        CHECK(desk.book().log().file() == desk.path("plot.midden").toStdString());
        CHECK(desk.words("status").contains("plot set aside.midden"));
        QFile aside{desk.path("plot set aside.midden")};
        REQUIRE(aside.open(QIODevice::ReadOnly));
        CHECK(aside.readAll() == before);
    }
    SECTION("so is salvaging") {
        desk.prompts.saveAnswer = desk.path("salvaged.midden");
        desk.find("troubleSalvage").setFocus();
        Desk::press(Qt::Key_Space);
        Desk::settle();
        CHECK(desk.prompts.asked == 1);
        CHECK(desk.words("troubleWords").startsWith("Salvaging what can be read of plot.midden."));
        CHECK_FALSE(desk.find("welcome").isEnabled());
        REQUIRE(waitUntil([&] { return !desk.words("troubleWords").startsWith("Salvaging"); }));
        CHECK(desk.window->menuBar()->isEnabled());
        file.seek(0);
        CHECK(file.readAll() == before);
    }
}

TEST_CASE("without an open book every book that has copies can be chosen") {
    const NoQtWarnings quiet;
    {
        CopyDesk first;
        first.growBook();
    }
    CopyDesk desk;
    desk.growBook();
    desk.window->startBook(desk.path("second.midden"));
    desk.window->startBook(desk.path("third.midden"));
    desk.find<QAction>("actionCopies").trigger();
    CHECK(desk.find<QListWidget>("copiesList").count() == 0);
    CHECK(desk.words("copiesNone").contains("keeps no copies of it yet"));
    CHECK_FALSE(desk.find<QListWidget>("copiesList").isVisible());
    desk.find("copiesBook").setFocus();
    Desk::press(Qt::Key_Down);
    CHECK(desk.find<QListWidget>("copiesList").count() > 0);
}
