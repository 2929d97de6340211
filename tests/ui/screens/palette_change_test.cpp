// SPDX-License-Identifier: GPL-3.0-or-later
// What every label of every screen looks like: words that can be read on their ground, and no markup shown as words.
#include <QRegularExpression>

#include "tests/ui/screens/busy_book.h"
#include "ui/shared/appearance.h"
#include "ui/shared/palette.h"
#include "ui/shared/plain_text.h"
#include "ui/shell/screens.h"
#include "ui/stall/stall_panel.h"

using namespace midden;
using midden::testing::BusyDesk;
using ui::Lightness;

namespace {

constexpr double readable = 4.5;  // Web Content Accessibility Guidelines 2.2, success criterion 1.4.3

/// The colour behind a label: that of the nearest widget that fills its ground.
QColor groundOf(const QWidget& widget) {
    const QWidget* filled = &widget;
    while (!filled->isWindow() && !filled->autoFillBackground()) {
        filled = filled->parentWidget();
    }
    return filled->palette().color(filled->backgroundRole());
}

std::string named(const QLabel& label) {
    return label.objectName().toStdString() + " \"" + label.text().toStdString() + '"';
}

/// Every screen, with the panel of a stall and the thermometer checks open.
void openEverything(BusyDesk& desk) {
    desk.book().lookAt(desk.book().log().binNamed("Shed")->id, desk.book().log().batches().at(2).id);
    for (const ui::ScreenEntry& screen : ui::screens()) {
        desk.show(screen.id);
    }
    for (const auto* button : desk.window->findChildren<QAbstractButton*>()) {
        if (button->objectName().startsWith("checkIn")) {
            const_cast<QAbstractButton*>(button)->click();
        }
    }
    desk.find<ui::StallPanel>("stallPanel").setOpen(true);
    BusyDesk::settle();
}

/// The colours that a page of markup names itself.
std::vector<QColor> ownColours(const QLabel& label) {
    static const QRegularExpression colour{"color:\\s*(#[0-9a-fA-F]{6})"};
    std::vector<QColor> found;
    for (auto at = colour.globalMatch(label.text()); at.hasNext();) {
        found.emplace_back(at.next().captured(1));
    }
    return found;
}

void checkContrast(const BusyDesk& desk, const char* when) {
    int seen = 0;
    for (const auto* label : desk.window->findChildren<QLabel*>()) {
        if (!label->text().isEmpty()) {
            INFO(when << ": " << named(*label));
            const QColor words = label->palette().color(label->foregroundRole());
            CHECK(ui::contrast(words, groundOf(*label)) >= readable);
            for (const QColor& own : ownColours(*label)) {
                CHECK(ui::contrast(own, groundOf(*label)) >= readable);
            }
            ++seen;
        }
    }
    CHECK(seen > 50);
}

}  // namespace

TEST_CASE("every label can be read when light turns to dark and back while the window is open") {
    ui::apply({Lightness::light, 0}, *qApp);
    BusyDesk desk{{1'180, 760}};
    openEverything(desk);
    checkContrast(desk, "light");
    ui::apply({Lightness::dark, 0}, *qApp);
    BusyDesk::settle();
    checkContrast(desk, "dark");
    for (const ui::ScreenEntry& screen : ui::screens()) {
        desk.show(screen.id);
    }
    checkContrast(desk, "dark, shown again");
    ui::apply({Lightness::light, 0}, *qApp);
    BusyDesk::settle();
    checkContrast(desk, "light again");
}

TEST_CASE("no label shows markup as words") {
    static const QRegularExpression markup{
        "</"
        "?(a|b|i|u|br|p|div|span|ul|ol|li|h[1-6]|table|tr|td|em|strong|sup|sub)\\b[^<>]*>|&(amp|lt|gt|quot|nbsp|#\\d+)"
        ";"};
    ui::showTextAsText(*qApp);
    BusyDesk desk{{1'180, 760}};
    openEverything(desk);
    int plain = 0;
    int rich = 0;
    for (const auto* label : desk.window->findChildren<QLabel*>()) {
        INFO(named(*label));
        rich += label->textFormat() == Qt::RichText ? 1 : 0;
        if (label->textFormat() == Qt::PlainText) {
            CHECK_FALSE(markup.match(label->text()).hasMatch());
            ++plain;
        }
    }
    CHECK(plain > 50);
    CHECK(rich > 0);
}
