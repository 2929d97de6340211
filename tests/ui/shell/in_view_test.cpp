// SPDX-License-Identifier: GPL-3.0-or-later
// The forms of the Round stand under its table: they must be seen where they are typed into.
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>

#include "tests/ui/shell/desk.h"

using namespace midden;
using midden::testing::Desk;
using midden::testing::NoQtWarnings;
using midden::testing::waitUntil;

namespace {

/// Seven rows, at so many times the usual size of letters.
struct LongDesk : Desk {
    explicit LongDesk(QSize size, int times = 1) {
        QFont font = usual;
        font.setPointSizeF(usual.pointSizeF() * times);
        QApplication::setFont(font);
        window->startBook(path("plot.midden"));
        settle();
        for (const char* bin : {"North", "East", "South"}) {
            addBin(bin, {"core", "side"});
        }
        addBin("Shed", {"core"});
        window->resize(size);
        settle();
        find<QLineEdit>("cell_North_core").setFocus();
        settle();
    }
    ~LongDesk() { QApplication::setFont(usual); }
    LongDesk(const LongDesk&) = delete;
    LongDesk& operator=(const LongDesk&) = delete;

    QFont usual = QApplication::font();
};

bool isSeen(const QWidget& widget) {
    return widget.visibleRegion().boundingRect() == widget.rect();
}

void checkSeen(const QWidget& form, std::initializer_list<const char*> buttons) {
    const QWidget* focus = QApplication::focusWidget();
    REQUIRE(focus != nullptr);
    CHECK(form.isAncestorOf(focus));
    CHECK(isSeen(*focus));
    for (const char* name : buttons) {
        CAPTURE(name);
        const auto* button = form.findChild<QPushButton*>(QLatin1String{name});
        CHECK(isSeen(*button));
    }
}

void open(const Desk& desk, Qt::Key key, const char* form) {
    Desk::press(key, Qt::AltModifier);
    REQUIRE(waitUntil([&] {
        const auto* opened = desk.window->findChild<QWidget*>(QLatin1String{form});
        return opened != nullptr && opened->isVisible();
    }));
    for (int i = 0; i < 5; ++i) {  // layouts settle step by step
        Desk::settle();
    }
}

}  // namespace

TEST_CASE("a form of the Round opens in sight with its buttons") {
    const NoQtWarnings quiet;
    const auto [width, height, times] =
        GENERATE(Catch::Generators::table<int, int, int>({{1'300, 720, 1}, {800, 600, 1}, {1'300, 720, 2}}));
    const auto [key, name] = GENERATE(Catch::Generators::table<Qt::Key, const char*>({{Qt::Key_A, "addedForm"},
                                                                                      {Qt::Key_Q, "squeezeForm"},
                                                                                      {Qt::Key_C, "ripeningForm"},
                                                                                      {Qt::Key_N, "noteForm"},
                                                                                      {Qt::Key_R, "moveForm"},
                                                                                      {Qt::Key_I, "finishForm"}}));
    CAPTURE(width, height, times, name);
    LongDesk desk{{width, height}, times};
    open(desk, key, name);
    checkSeen(desk.find(name), {"formSave", "formCancel"});
    for (int i = 0; i < 4; ++i) {  // to the last button
        Desk::press(Qt::Key_Tab);
        Desk::settle();
        const QWidget& here = *QApplication::focusWidget();
        CAPTURE(here.objectName());
        CHECK((isSeen(here) || !desk.find(name).isAncestorOf(&here)));
    }
}

TEST_CASE("the question before a batch is replaced is seen with both answers") {
    const NoQtWarnings quiet;
    const auto [width, height, times] =
        GENERATE(Catch::Generators::table<int, int, int>({{1'300, 720, 1}, {800, 600, 1}, {1'300, 720, 2}}));
    CAPTURE(width, height, times);
    LongDesk desk{{width, height}, times};
    open(desk, Qt::Key_H, "startForm");
    const QWidget& form = desk.find("startForm");
    checkSeen(form, {"questionNo", "questionYes"});
    Desk::press(Qt::Key_Tab);
    Desk::press(Qt::Key_Return);
    REQUIRE(waitUntil([] { return Desk::focus() == "startBatch"; }));
    for (int i = 0; i < 5; ++i) {
        Desk::settle();
    }
    checkSeen(form, {"formSave", "formCancel"});
}

TEST_CASE("a form stays in sight when the window becomes smaller") {
    const NoQtWarnings quiet;
    LongDesk desk{{1'300, 1'000}};
    open(desk, Qt::Key_A, "addedForm");
    desk.window->resize(900, 600);
    for (int i = 0; i < 5; ++i) {
        Desk::settle();
    }
    checkSeen(desk.find("addedForm"), {"formSave", "formCancel"});
}
