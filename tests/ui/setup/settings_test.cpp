// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/setup/shown_setup.h"

using namespace midden::testing;

TEST_CASE("the paper of certificates is chosen in Setup and kept in the book") {
    const NoQtWarnings quiet;
    const ShownSetup shown;
    auto* choice = shown.field<QComboBox>("setting_paper");
    REQUIRE(choice != nullptr);
    CHECK(choice->currentText() == "the paper usual in this country");
    choice->setFocus(Qt::TabFocusReason);
    QTest::keyClick(choice, Qt::Key_Down);
    QTest::keyClick(choice, Qt::Key_Down);
    CHECK(shown.book.setting("paper") == "letter");
    QTest::keyClick(choice, Qt::Key_Home);
    CHECK(shown.book.setting("paper").isEmpty());
}
