// SPDX-License-Identifier: GPL-3.0-or-later
// Whose Undo and Redo are: the line's own while something in it is typed and not saved, else the book's.
#include <QPushButton>
#include <QTableView>
#include <QUndoStack>

#include "tests/ui/shell/desk.h"

using namespace midden;
using midden::testing::Desk;
using midden::testing::fourthOfMarch;
using midden::testing::NoQtWarnings;
using midden::testing::waitUntil;

namespace {

struct UndoDesk : Desk {
    UndoDesk() {
        window->startBook(path("plot.midden"));
        settle();
        north = addBin("North", {"core"});
        addReading(north, "core", now - hours(23), 610'000);
    }
    void go(const char* screen) {
        window->workspace()->showScreen(screen);
        settle();
    }
    QLineEdit& line(const char* name) { return find<QLineEdit>(name); }
    void begin(const char* name) {
        line(name).setFocus(Qt::TabFocusReason);
        settle();
    }
    std::vector<Addition> additions() const {
        return book().log().record(*book().log().occupant(north, now)).additions;
    }
    static void undo() { press(Qt::Key_Z, Qt::ControlModifier); }
    static void redo() { press(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier); }
    BinId north{};
};

}  // namespace

TEST_CASE("after a recipe is logged the next Undo is the book's and Redo brings it back") {
    const NoQtWarnings quiet;
    UndoDesk desk;
    desk.go("recipe");
    desk.begin("material1");
    Desk::type("straw");
    Desk::press(Qt::Key_Return);
    Desk::type("4 kg");
    desk.find<QPushButton>("log").setFocus();
    Desk::press(Qt::Key_Space);
    REQUIRE(desk.additions().size() == 1);
    REQUIRE(Desk::focus() == "material1");
    UndoDesk::undo();
    CHECK(desk.additions().empty());
    CHECK(desk.line("material1").text().isEmpty());
    const auto [key, with] = GENERATE(table<Qt::Key, Qt::KeyboardModifiers>(
        {{Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier}, {Qt::Key_Y, Qt::ControlModifier}}));
    Desk::press(key, with);
    CHECK(desk.additions().size() == 1);
}

TEST_CASE("a recipe line that could not be read stays when the others are logged") {
    const NoQtWarnings quiet;
    UndoDesk desk;
    desk.go("recipe");
    desk.begin("material1");
    Desk::type("straw");
    Desk::press(Qt::Key_Return);
    Desk::type("4 kg");
    Desk::press(Qt::Key_Return);
    Desk::type("leaves");
    Desk::press(Qt::Key_Return);
    Desk::type("some");
    desk.find<QPushButton>("log").setFocus();
    Desk::press(Qt::Key_Space);
    CHECK(desk.additions().size() == 1);
    CHECK(desk.line("material1").text() == "leaves");
    CHECK(desk.line("amount1").text() == "some");
    CHECK(desk.line("material2").text().isEmpty());
}

TEST_CASE("Undo takes back what is half typed, and only then what the book holds") {
    const NoQtWarnings quiet;
    UndoDesk desk;
    const auto [screen, name] = GENERATE(table<const char*, const char*>({{"recipe", "material1"},
                                                                          {"recipe", "another"},
                                                                          {"round", "cell_North_core"},
                                                                          {"round", "cellOutside"},
                                                                          {"setup", "newProbe"},
                                                                          {"setup", "setting_target_hours"}}));
    INFO(name);
    desk.go(screen);
    desk.begin(name);
    const int made = desk.book().undoStack().index();
    const QString before = desk.line(name).text();
    desk.line(name).end(false);
    Desk::type("60");
    UndoDesk::undo();
    CHECK(desk.line(name).text() == before);
    CHECK(desk.book().undoStack().index() == made);
    UndoDesk::redo();
    CHECK(desk.line(name).text() == before + "60");
    UndoDesk::undo();
    UndoDesk::undo();
    CHECK(desk.book().undoStack().index() == made - 1);
    UndoDesk::redo();
    CHECK(desk.book().undoStack().index() == made);
    CHECK(desk.line(name).text() == before);
}

TEST_CASE("what was saved from a line is the book's to undo, though the keyboard is still in it") {
    const NoQtWarnings quiet;
    UndoDesk desk;
    desk.go("setup");
    desk.begin("newProbe");
    Desk::type("Dial");
    Desk::press(Qt::Key_Return);
    REQUIRE(desk.book().log().probeNamed("Dial"));
    UndoDesk::undo();
    CHECK_FALSE(desk.book().log().probeNamed("Dial"));
    CHECK(Desk::focus() == "newProbe");
    UndoDesk::redo();
    CHECK(desk.book().log().probeNamed("Dial"));
    desk.begin("setting_target_hours");
    Desk::type("60");
    Desk::press(Qt::Key_Return);
    desk.begin("setting_target_hours");
    UndoDesk::undo();
    CHECK(desk.line("setting_target_hours").text() == "72");
    UndoDesk::redo();
    CHECK(desk.line("setting_target_hours").text() == "60");
}

TEST_CASE("in a form of the Round Undo is the field's while it is being typed in") {
    const NoQtWarnings quiet;
    UndoDesk desk;
    desk.go("round");
    Desk::press(Qt::Key_N, Qt::AltModifier);
    REQUIRE(waitUntil([] { return Desk::focus() == "noteText"; }));
    const int made = desk.book().undoStack().index();
    Desk::type("steam");
    UndoDesk::undo();
    CHECK(desk.line("noteText").text().isEmpty());
    CHECK(desk.book().undoStack().index() == made);
    Desk::type("steam");
    Desk::press(Qt::Key_Return);
    UndoDesk::undo();
    CHECK(desk.book().log().record(*desk.book().log().occupant(desk.north, desk.now)).observations.empty());
}

TEST_CASE("in the editors of History Undo is the field's while it is being typed in") {
    const NoQtWarnings quiet;
    UndoDesk desk;
    desk.go("history");
    auto& table = desk.find<QTableView>("entries");
    REQUIRE(waitUntil([&] { return table.model()->rowCount() > 0; }));
    table.setFocus();
    table.setCurrentIndex(table.model()->index(0, 3));
    Desk::press(Qt::Key_Return);
    REQUIRE(Desk::focus() == "amendValue");
    const int made = desk.book().undoStack().index();
    Desk::type("58");
    UndoDesk::undo();
    CHECK(desk.line("amendValue").text() == "61");
    CHECK(desk.book().undoStack().index() == made);
    Desk::type("58");
    Desk::press(Qt::Key_Return);
    CHECK(desk.reading(desk.north, "core", fourthOfMarch - hours(23))->written.tenThousandths == 580'000);
    UndoDesk::undo();
    CHECK(desk.reading(desk.north, "core", fourthOfMarch - hours(23))->written.tenThousandths == 610'000);
}
