// SPDX-License-Identifier: GPL-3.0-or-later
// Long files can be stopped.
#include <QProgressBar>
#include <QUndoStack>
#include <ctime>

#include "tests/ui/import/garden.h"

using namespace midden;
using midden::testing::Desk;
using midden::testing::everyMinute;
using midden::testing::Garden;
using midden::testing::NoQtWarnings;
using midden::testing::waitUntil;

TEST_CASE("a long reading shows how far it has come and stops within a moment") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.addBin("North", {"core"});
    desk.choose("long.csv", everyMinute(1'500'000));
    Desk::press(Qt::Key_Return);
    REQUIRE(waitUntil([&] { return desk.find<QProgressBar>("intakeProgress").value() > 0; }));
    CHECK(desk.words("intakeDoing") == "Reading the file…");
    CHECK(Desk::focus() == "intakeClose");
    const auto before = std::clock();  // of this program alone, whatever else the machine does
    Desk::press(Qt::Key_Escape);
    CHECK(std::clock() - before < CLOCKS_PER_SEC);
    CHECK(desk.words("intakeProblem") == "Stopped. Nothing was written.");
    CHECK(desk.find<QComboBox>("intakeBatch").isEnabled());
    CHECK(desk.count("North batch") == 0);
}

TEST_CASE("writing that is stopped takes back what was written and can be begun again") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.addBin("North", {"core"});
    desk.choose("long.csv", everyMinute(1'500'000));
    desk.readThrough();
    Desk::press(Qt::Key_Return);
    REQUIRE(waitUntil([&] { return desk.words("intakeDoing") == "Writing into the book…"; }));
    Desk::press(Qt::Key_Escape);
    REQUIRE(waitUntil([&] { return desk.button("intakeGo").isVisible(); }));
    CHECK(desk.words("intakeProblem") == "Stopped. Nothing was written.");
    CHECK(desk.isOpen());
    CHECK(desk.count("North batch") == 0);
    CHECK(desk.book().undoStack().canUndo());
    Desk::press(Qt::Key_Escape);
    CHECK_FALSE(desk.isOpen());
}
