// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/setup/shown_setup.h"

using namespace midden::testing;
namespace setting = midden::setting;

TEST_CASE("the paper of certificates is chosen in Setup and kept in the book") {
    const NoQtWarnings quiet;
    const ShownSetup shown;
    auto* choice = shown.field<QComboBox>("setting_paper");
    REQUIRE(choice != nullptr);
    CHECK(choice->currentText() == "the paper usual in this country");
    choice->setFocus(Qt::TabFocusReason);
    QTest::keyClick(choice, Qt::Key_Down);
    QTest::keyClick(choice, Qt::Key_Down);
    CHECK(shown.book.setting(setting::paper) == "letter");
    QTest::keyClick(choice, Qt::Key_Home);
    CHECK(shown.book.setting(setting::paper).isEmpty());
}

TEST_CASE("a setting that was changed can be undone and done again") {
    const NoQtWarnings quiet;
    ShownSetup shown;
    shown.type("setting_zone", "Asia/Tokyo");
    shown.enter();
    REQUIRE(shown.book.zone().name() == "Asia/Tokyo");
    CHECK(shown.book.undoStack().undoText() == "Time zone, such as Europe/London");
    shown.book.undoStack().undo();
    CHECK(shown.book.zone().name() == "Europe/London");
    CHECK(shown.field("setting_zone")->text() == "Europe/London");
    shown.book.undoStack().redo();
    CHECK(shown.book.zone().name() == "Asia/Tokyo");
    CHECK(shown.field("setting_zone")->text() == "Asia/Tokyo");
}

TEST_CASE("a choice made anew is one step back and the same choice none") {
    ShownSetup shown;
    auto* unit = shown.field<QComboBox>("setting_unit");
    unit->setFocus();
    QTest::keyClick(unit, Qt::Key_Down);
    CHECK(shown.book.setting(setting::unit) == "f");
    emit unit->activated(unit->currentIndex());
    CHECK(shown.book.undoStack().count() == 1);
    shown.book.undoStack().undo();
    CHECK(unit->currentIndex() == 0);
}
