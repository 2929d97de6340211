// SPDX-License-Identifier: GPL-3.0-or-later
// The program's own questions, as real message boxes answered by key.
#include <QFile>
#include <QMessageBox>
#include <QPushButton>
#include <QTimer>

#include "tests/ui/shell/desk.h"
#include "ui/shared/qt_prompts.h"

using namespace midden;
using namespace midden::ui;
using midden::testing::aMinute;
using midden::testing::Desk;
using midden::testing::NoQtWarnings;

namespace {

/// Presses a key on the next message box, once, and keeps what it asked.
class KeyOnBox : public QObject {
  public:
    explicit KeyOnBox(Qt::Key key) : key_{key} {
        connect(&look_, &QTimer::timeout, this, &KeyOnBox::press);
        look_.start(1);
    }
    QString asked;
    QString defaultButton;

  private:
    void press() {
        auto* box = qobject_cast<QMessageBox*>(QApplication::activeModalWidget());
        if (box == nullptr || !box->isVisible() || box->focusWidget() == nullptr) {
            return;
        }
        look_.stop();
        asked = box->text();
        defaultButton = box->defaultButton() == nullptr ? QString{} : box->defaultButton()->text();
        QTest::keyClick(box->focusWidget(), key_);
        if (box->isVisible()) {
            box->reject();  // whatever the key did, the test goes on
        }
    }

    Qt::Key key_;
    QTimer look_;
};

}  // namespace

TEST_CASE("Enter, Space and Escape answer every question of the program with no") {
    const NoQtWarnings quiet;
    const Qt::Key key = GENERATE(Qt::Key_Return, Qt::Key_Enter, Qt::Key_Space, Qt::Key_Escape);
    QtPrompts prompts;
    const KeyOnBox hand{key};
    CHECK_FALSE(prompts.confirm(nullptr, "Lose it?", "Lose it"));
    CHECK(hand.asked == "Lose it?");
    CHECK_FALSE(hand.defaultButton.contains("Lose"));
}

TEST_CASE("a question is answered with yes by its own button only") {
    const NoQtWarnings quiet;
    QtPrompts prompts;
    QTimer look;
    QObject::connect(&look, &QTimer::timeout, &look, [&] {
        auto* box = qobject_cast<QMessageBox*>(QApplication::activeModalWidget());
        for (QAbstractButton* button : box == nullptr ? QList<QAbstractButton*>{} : box->buttons()) {
            if (button->text() == "Lose it") {
                button->click();
            }
        }
    });
    look.start(1);
    CHECK(prompts.confirm(nullptr, "Lose it?", "Lose it"));
}

TEST_CASE("a window closed with something unsaved stays open on Enter and on Escape and keeps what was typed") {
    const NoQtWarnings quiet;
    const Qt::Key key = GENERATE(Qt::Key_Return, Qt::Key_Escape);
    const Desk folder;  // for its settings
    QtPrompts prompts;
    MainWindow window{prompts, [] { return midden::testing::fourthOfMarch; }};
    REQUIRE(window.startBook(folder.path("closing.midden")));
    const auto bin = std::get<BinId>(window.book()->writable().apply(Put<Bin>{{.name = "North"}}).id);
    const Instant start = midden::testing::fourthOfMarch - days(3);
    REQUIRE(window.book()->change(Put<Batch>{{.name = "Spring", .started = {start, {}}, .stays = {{start, bin}}}},
                                  "a batch"));
    window.show();
    window.activateWindow();
    REQUIRE(QTest::qWaitForWindowActive(&window, aMinute));
    auto* cell = window.findChild<QLineEdit*>("cell_North_core");
    if (cell == nullptr) {
        window.workspace()->showScreen("round");
        cell = window.findChild<QLineEdit*>("cell_North_core");
    }
    REQUIRE(cell != nullptr);
    cell->setFocus();
    QTest::keyClicks(cell, "6x");
    const KeyOnBox hand{key};
    CHECK_FALSE(window.close());
    CHECK(hand.asked.contains("not saved"));
    CHECK(window.isVisible());
    CHECK(cell->text() == "6x");
    cell->clear();
}

TEST_CASE("a number refused in a cell is asked about before another book takes its place") {
    const NoQtWarnings quiet;
    Desk desk;
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    desk.addBin("North", {"core"});
    { Logbook::open(desk.path("other.midden").toStdString(), Logbook::Mode::createIfAbsent); }
    auto& cell = desk.find<QLineEdit>("cell_North_core");
    cell.setFocus();
    Desk::type("6x");
    const bool isNew = GENERATE(false, true);
    const auto go = [&] {
        return isNew ? desk.window->startBook(desk.path("new.midden"))
                     : desk.window->openBook(desk.path("other.midden"));
    };
    CHECK_FALSE(go());
    CHECK(desk.prompts.asked == 1);
    CHECK(desk.book().log().binNamed("North"));
    CHECK(cell.text() == "6x");
    CHECK(Desk::focus() == "cell_North_core");
    CHECK_FALSE(QFile::exists(desk.path("new.midden")));
    desk.prompts.confirmAnswer = true;
    CHECK(go());
    CHECK(desk.prompts.asked == 2);
    CHECK_FALSE(desk.book().log().binNamed("North"));
    CHECK(desk.window->openBook(desk.path("other.midden")));
    CHECK(desk.prompts.asked == 2);  // nothing is typed any more
}
