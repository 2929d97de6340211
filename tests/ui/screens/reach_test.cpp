// SPDX-License-Identifier: GPL-3.0-or-later
// Small screens and large letters: everything that can be pressed can be got at.
#include <QAbstractButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QTabBar>

#include "tests/ui/screens/busy_book.h"
#include "ui/shared/appearance.h"
#include "ui/shared/screen_fit.h"
#include "ui/shell/screens.h"
#include "ui/shell/trouble_bar.h"
#include "ui/stall/stall_panel.h"

using namespace midden;
using midden::testing::BusyDesk;

namespace {

/// Letters so many points larger than usual, until it goes.
class LargerText {
  public:
    explicit LargerText(int points) {
        ui::apply({ui::Lightness::light, QApplication::font().pointSize() + points}, *qApp);
    }
    LargerText(const LargerText&) = delete;
    LargerText& operator=(const LargerText&) = delete;
    ~LargerText() { ui::apply({ui::Lightness::light, 0}, *qApp); }
};

/// Letters so many percent as wide as those tests are usually shown in.
class WiderText {
  public:
    explicit WiderText(int percent) {
        QFont font = QApplication::font();
        font.setStretch(percent);
        QApplication::setFont(font);
    }
    WiderText(const WiderText&) = delete;
    WiderText& operator=(const WiderText&) = delete;
    ~WiderText() {
        QFont font = QApplication::font();
        font.setStretch(100);
        QApplication::setFont(font);
    }
};

bool scrolls(const QScrollBar& bar) {
    return bar.isVisible() && bar.maximum() > bar.minimum();
}

/// Would the scroll area show that part of its content, scrolled as far as it can be?
bool canShow(const QScrollArea& area, const QRect& part) {
    const QSize content = area.widget()->size();
    const QSize room = area.viewport()->size();
    const bool isInside = QRect{QPoint{}, content}.contains(part);
    return isInside && (content.width() <= room.width() || scrolls(*area.horizontalScrollBar())) &&
           (content.height() <= room.height() || scrolls(*area.verticalScrollBar()));
}

/// Lies the widget within the window, or within something that scrolls to it and can itself be reached?
bool isReachable(const QWidget& widget) {
    QRect part = widget.rect();
    const QWidget* at = &widget;
    while (!at->isWindow()) {
        part.translate(at->pos());
        at = at->parentWidget();
        const auto* area = qobject_cast<const QScrollArea*>(at->parentWidget());
        if (area != nullptr && area->viewport() == at) {
            part.translate(-area->widget()->pos());
            if (!canShow(*area, part)) {
                return false;
            }
            part = at->rect();
        }
    }
    return at->rect().contains(part);
}

/// Gives how many there are.
int checkButtons(const BusyDesk& desk, const char* where) {
    int seen = 0;
    for (const auto* button : desk.window->findChildren<QAbstractButton*>()) {
        const bool isOfTabs = qobject_cast<const QTabBar*>(button->parentWidget()) != nullptr;
        if (!button->isVisible() || isOfTabs) {
            continue;
        }
        ++seen;
        INFO(where << ": " << button->objectName().toStdString() << " \"" << button->text().toStdString() << '"');
        CHECK(isReachable(*button));
        CHECK(button->width() >= button->minimumSizeHint().width());
    }
    return seen;
}

struct Look {
    QSize size;
    int points;
};

const Look looks[] = {{{800, 600}, 0}, {{800, 600}, 6}, {{1'024, 600}, 6}, {{1'366, 768}, 6}};

}  // namespace

TEST_CASE("a window may be as small as 640 by 480") {
    const LargerText usual{0};
    BusyDesk desk{{640, 480}};
    for (const ui::ScreenEntry& screen : ui::screens()) {
        desk.show(screen.id);
        INFO(screen.id);
        CHECK(desk.window->minimumSizeHint().width() <= 640);
        CHECK(desk.window->minimumSizeHint().height() <= 480);
        CHECK(desk.window->size() == QSize{640, 480});
    }
}

TEST_CASE("every button of every screen can be got at on a small screen with large letters") {
    const Look look = GENERATE(from_range(std::begin(looks), std::end(looks)));
    const LargerText larger{look.points};
    BusyDesk desk{look.size};
    CAPTURE(look.size.width(), look.size.height(), look.points);
    int seen = 0;
    for (const ui::ScreenEntry& screen : ui::screens()) {
        desk.show(screen.id);
        CHECK(desk.window->size() == look.size);
        seen += checkButtons(desk, screen.id);
    }
    CHECK(seen > 50);
}

TEST_CASE("no screen has to be scrolled sideways where a window is 800 wide") {
    const QSize size = GENERATE(QSize(800, 600), QSize(1'024, 600));
    const int percent = GENERATE(100, 115);  // as wide as DejaVu Sans, the letters of many desktops
    const LargerText usual{0};
    const WiderText wider{percent};
    BusyDesk desk{size};
    CAPTURE(size.width(), percent);
    for (const ui::ScreenEntry& screen : ui::screens()) {
        desk.show(screen.id);
        desk.resize(size);
        QStringList sideways;
        for (const auto* area : desk.find(screen.id).findChildren<QScrollArea*>()) {
            if (area->isVisible() && area->widget()->width() > area->viewport()->width()) {
                sideways << QStringLiteral("%1: %2 in %3")
                                .arg(area->objectName())
                                .arg(area->widget()->width())
                                .arg(area->viewport()->width());
            }
        }
        INFO(screen.id);
        CHECK(sideways == QStringList{});
        const auto* pane = qobject_cast<const QScrollArea*>(desk.find(screen.id).parentWidget()->parentWidget());
        REQUIRE(pane != nullptr);
        CHECK(desk.find(screen.id).width() <= pane->viewport()->width());
    }
}

TEST_CASE("what can be done about a trouble goes on in a further line where the window is narrow") {
    const LargerText usual{0};
    BusyDesk desk{{800, 600}};
    auto& bar = desk.find<ui::TroubleBar>("trouble");
    bar.say(
        "Another file has taken the place of plot.midden. Nothing can be saved in the one this window holds: save "
        "that under a new name if it has what the other has not, then open the file that is there now.");
    for (const char* words : {"Open what is there now", "Save under a new name…", "Copies and restoring…", "Salvage…",
                              "Leave everything as it is for now"}) {
        bar.offer(words, words, [] {});
    }
    desk.resize({800, 600});
    CHECK(desk.window->size() == QSize{800, 600});
    CHECK(bar.width() == 800);
    int lowest = 0;
    for (const auto* button : bar.findChildren<QAbstractButton*>()) {
        INFO(button->text().toStdString());
        CHECK(button->width() >= button->minimumSizeHint().width());
        CHECK(bar.rect().contains(button->geometry()));
        lowest = std::max(lowest, button->geometry().top());
    }
    CHECK(lowest > bar.findChild<QAbstractButton*>("Open what is there now")->geometry().bottom());
    const auto* words = bar.findChild<QLabel*>("troubleWords");
    CHECK(words->width() > 500);
    CHECK(words->height() >= words->heightForWidth(words->width()));
}

TEST_CASE("what to try can be got at on a small screen and leaves room for the round") {
    const Look look = GENERATE(from_range(std::begin(looks), std::end(looks)));
    const LargerText larger{look.points};
    BusyDesk desk{look.size};
    CAPTURE(look.size.width(), look.size.height(), look.points);
    desk.book().lookAt(desk.book().log().binNamed("Shed")->id, desk.book().log().batches().at(2).id);
    desk.show("round");
    auto& panel = desk.find<ui::StallPanel>("stallPanel");
    panel.takeKeyboard();
    desk.resize(look.size);
    REQUIRE(panel.isOpen());
    CHECK(desk.window->size() == look.size);
    CHECK(checkButtons(desk, "what to try") > 10);
    CHECK(panel.height() < desk.window->height() / 2);
}

TEST_CASE("every form of the round can be got at on a small screen") {
    const LargerText larger{6};
    BusyDesk desk{{800, 600}};
    desk.show("round");
    for (const char* act : {"actAdded", "actSqueeze", "actRipening", "actNote", "actMove", "actFinish", "actStart"}) {
        desk.find<QAbstractButton>(act).click();
        desk.resize({800, 600});
        CHECK(desk.window->size() == QSize{800, 600});
        CHECK(checkButtons(desk, act) > 10);
        desk.find<QAbstractButton>("formCancel").click();
        BusyDesk::settle();
    }
}

TEST_CASE("a window is no larger than its screen and lies on it") {
    const QSize frame{10, 40};
    const QRect screen{0, 24, 1'366, 744};
    CHECK(ui::fitted({0, 0, 1'180, 760}, screen, frame) == QRect{5, 64, 1'180, 704});
    CHECK(ui::fitted({100, 90, 640, 480}, screen, frame) == QRect{100, 90, 640, 480});
    CHECK(ui::fitted({3'000, 2'000, 640, 480}, screen, frame) == QRect{721, 288, 640, 480});
    CHECK(ui::fitted({-500, -500, 2'000, 2'000}, screen, frame) == QRect{5, 64, 1'356, 704});
}

TEST_CASE("a window opens within the screen it is on") {
    const midden::testing::Desk desk;  // the screen of the tests is 800 by 800
    ui::MainWindow window{const_cast<midden::testing::ScriptedPrompts&>(desk.prompts), [] { return Instant{}; }};
    CHECK(window.screen()->availableGeometry().contains(window.geometry()));
}
