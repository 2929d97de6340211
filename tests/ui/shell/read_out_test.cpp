// SPDX-License-Identifier: GPL-3.0-or-later
// What a screen reader is told when something is refused.
#include <QAccessible>
#include <QPushButton>

#include "tests/ui/shell/desk.h"

using namespace midden;
using midden::testing::Desk;
using midden::testing::NoQtWarnings;

namespace {

/// Hears what would go to the screen reader.
class Listener {
  public:
    Listener() {
        alerts().clear();
        before_ = QAccessible::installUpdateHandler(&Listener::hear);
    }
    ~Listener() { QAccessible::installUpdateHandler(before_); }
    Listener(const Listener&) = delete;
    Listener& operator=(const Listener&) = delete;

    /// The names of what raised an alert, in order.
    static QStringList& alerts() {
        static QStringList heard;
        return heard;
    }
    /// What was said last of the widget that has the keyboard.
    static QString description() {
        return QAccessible::queryAccessibleInterface(QApplication::focusWidget())->text(QAccessible::Description);
    }

  private:
    static void hear(QAccessibleEvent* event) {
        if (event->type() == QAccessible::Alert) {
            const QAccessibleInterface* spoken = event->accessibleInterface();
            const bool isNotice = spoken->role() == QAccessible::Notification;
            alerts() << (isNotice ? QString{} : QStringLiteral("not a notification: ")) +
                            spoken->text(QAccessible::Name);
        }
    }
    QAccessible::UpdateHandler before_;
};

struct SpokenDesk : Desk {
    SpokenDesk() {
        window->startBook(path("plot.midden"));
        settle();
        north = addBin("North", {"core", "side"});
        find<QLineEdit>("cell_North_core").setFocus();
        settle();
    }
    BinId north{};
};

}  // namespace

TEST_CASE("a number that is not saved is read out") {
    const NoQtWarnings quiet;
    SpokenDesk desk;
    const Listener listener;
    Desk::type("500");
    Desk::press(Qt::Key_Return);
    REQUIRE(Listener::alerts().size() == 1);
    CHECK(Listener::alerts().first().startsWith("Not saved"));
    CHECK(desk.find<QLineEdit>("cell_North_core").accessibleDescription().startsWith("Not saved"));
}

TEST_CASE("a number of the air outside and a time that are not understood are read out") {
    const NoQtWarnings quiet;
    SpokenDesk desk;
    const Listener listener;
    desk.find<QLineEdit>("cellOutside").setFocus();
    Desk::type("abc");
    Desk::press(Qt::Key_Return);
    CHECK(Listener::alerts().join('|').startsWith("Not saved"));
    Listener::alerts().clear();
    desk.find<QLineEdit>("roundTime").setFocus();
    desk.find<QLineEdit>("roundTime").selectAll();
    Desk::type("soon");
    Desk::press(Qt::Key_Tab);
    REQUIRE_FALSE(desk.words("roundTimeWords").isEmpty());
    CHECK(Listener::alerts() == QStringList{desk.words("roundTimeWords")});
}

TEST_CASE("what a form refuses is read out each time and told of its field") {
    const NoQtWarnings quiet;
    SpokenDesk desk;
    const Listener listener;
    desk.find<QPushButton>("actNote").click();
    Desk::settle();
    Desk::press(Qt::Key_Return);
    Desk::press(Qt::Key_Return);
    CHECK(Listener::alerts() == QStringList{"Write a few words first.", "Write a few words first."});
    CHECK(Listener::description() == "Write a few words first.");
}

TEST_CASE("a setting that is not saved is read out") {
    const NoQtWarnings quiet;
    SpokenDesk desk;
    desk.window->workspace()->showScreen(QStringLiteral("setup"));
    Desk::settle();
    const Listener listener;
    auto& hours = desk.find<QLineEdit>("setting_target_hours");
    hours.setFocus();
    hours.selectAll();
    Desk::type("0");
    Desk::press(Qt::Key_Return);
    REQUIRE_FALSE(Listener::alerts().isEmpty());
    CHECK(Listener::alerts().first().startsWith("Not saved"));
}

TEST_CASE("a trouble of the whole window is read out") {
    const NoQtWarnings quiet;
    SpokenDesk desk;
    const Listener listener;
    emit desk.book().troubled(QStringLiteral("The disk is full."));
    Desk::settle();
    CHECK(Listener::alerts() == QStringList{"The disk is full."});
}

TEST_CASE("a question that keeps something from being lost is read out") {
    const NoQtWarnings quiet;
    SpokenDesk desk;
    const Listener listener;
    desk.find<QPushButton>("actStart").click();
    Desk::settle();
    REQUIRE(Listener::alerts().size() == 1);
    CHECK(Listener::alerts().first().startsWith("“North batch” has stood in North since"));
    CHECK(Listener::description() == Listener::alerts().first());
}
