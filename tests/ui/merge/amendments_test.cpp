// SPDX-License-Identifier: GPL-3.0-or-later
// What typing, undoing and redoing leave behind in the book.
#include <QUndoStack>

#include "tests/ui/shell/desk.h"

using namespace midden;
using midden::testing::Desk;
using midden::testing::NoQtWarnings;

namespace {

struct OneCell : Desk {
    OneCell() {
        window->startBook(path("plot.midden"));
        settle();
        bin = addBin("North", {"core"});
        find<QLineEdit>("cell_North_core").setFocus();
    }
    std::size_t amendments() const { return book().log().amendments(book().log().batches()[0].id).size(); }
    std::optional<Reading> typed() const { return reading(bin, "core", now); }

    BinId bin{};
};

}  // namespace

TEST_CASE("what is typed and mended in one open cell is one entry and no amendment") {
    const NoQtWarnings quiet;
    OneCell desk;
    const int before = desk.book().undoStack().count();
    Desk::type("58");
    Desk::type(".5");
    Desk::press(Qt::Key_Backspace);
    Desk::type("7");
    CHECK_FALSE(desk.typed());
    Desk::press(Qt::Key_Return);
    REQUIRE(desk.typed());
    CHECK(desk.typed()->written.tenThousandths == 587'000);
    CHECK(desk.amendments() == 0);
    CHECK(desk.book().undoStack().count() == before + 1);
}

TEST_CASE("coming back to a cell and leaving it unchanged is no amendment and another number is one") {
    const NoQtWarnings quiet;
    OneCell desk;
    Desk::type("58");
    Desk::press(Qt::Key_Return);
    auto& cell = desk.find<QLineEdit>("cell_North_core");
    cell.setFocus();
    cell.selectAll();
    Desk::type("58");
    Desk::press(Qt::Key_Return);
    CHECK(desk.amendments() == 0);
    cell.setFocus();
    cell.selectAll();
    Desk::type("59");
    Desk::press(Qt::Key_Return);
    CHECK(desk.amendments() == 1);
}

TEST_CASE("undo and redo are amendments too") {
    const NoQtWarnings quiet;
    OneCell desk;
    Desk::type("58");
    Desk::press(Qt::Key_Return);
    desk.book().undoStack().undo();
    CHECK_FALSE(desk.typed());
    CHECK(desk.amendments() == 1);
    desk.book().undoStack().redo();
    CHECK(desk.typed());
    CHECK(desk.amendments() == 2);
    CHECK(desk.book().log().record(desk.book().log().batches()[0].id).amendedEntries == 1);
}
