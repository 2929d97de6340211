// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/appearance.h"

#include <QApplication>
#include <QFont>
#include <QPalette>
#include <QSettings>
#include <QWidget>

#include "ui/shared/house_style.h"
#include "ui/shared/palette.h"

namespace midden::ui {

namespace {

constexpr auto lightnessKey = "appearance/lightness";
constexpr auto pointsKey = "appearance/textPoints";

/// Lengths follow the 8-pixel rhythm: 4 inside, 8 between, 16 around.
QString sheet(const Palette& look) {
    const QString wanted = QStringLiteral(R"(
QLineEdit { border: 1px solid @line; border-radius: 4px; padding: 4px 8px; background: @ground; min-height: 1.2em; }
QLineEdit:focus { border: 2px solid @accent; padding: 3px 7px; }
QLineEdit:disabled, QLineEdit[readOnly="true"] { background: @side; color: @muted; }
QToolButton { border: 1px solid transparent; border-radius: 4px; padding: 4px 8px; }
QToolButton:hover { background: @side; }
QToolButton:checked { background: @chosen; }
QToolButton:focus { border: 2px solid @accent; padding: 3px 7px; }
QHeaderView::section { background: @ground; color: @muted; border: none; padding: 4px; }
QPushButton { border: 1px solid @line; border-radius: 4px; padding: 4px 12px; background: @ground; min-height: 1.2em; }
QPushButton:hover { background: @side; }
QPushButton:pressed { background: @chosen; }
QPushButton:focus { border: 2px solid @accent; padding: 3px 11px; }
QPushButton:disabled { color: @muted; background: @side; }
QPushButton[leading="true"] { background: @accent; color: @onAccent; border-color: @accent; }
QPushButton[leading="true"]:focus { border: 2px solid @text; }
QTabBar::tab { background: @ground; color: @muted; border: none; border-bottom: 2px solid transparent; padding: 8px 16px 6px 16px; }
QTabBar::tab:selected { color: @text; border-bottom: 2px solid @accent; }
QTabBar::tab:hover { color: @text; }
QTabBar::tab:selected:focus { background: @chosen; }
QMenuBar, QMenuBar::item { background: @ground; color: @text; }
QMenuBar::item { padding: 4px 8px; }
QMenuBar::item:selected { background: @chosen; }
QMenu { background: @ground; color: @text; border: 1px solid @line; padding: 4px; }
QMenu::item { padding: 4px 24px 4px 16px; }
QMenu::item:selected { background: @chosen; color: @text; }
QMenu::item:disabled { color: @muted; }
QMenu::separator { height: 1px; background: @line; margin: 4px 8px; }
QScrollArea { border: none; }
QStatusBar { background: @ground; color: @muted; }
QStatusBar::item { border: none; }
QLabel[tone="quiet"] { color: @muted; }
QLabel[tone="question"] { color: @question; }
QToolTip { background: @side; color: @text; border: 1px solid @line; padding: 4px; }
)");
    QString done = wanted;
    done.replace(QStringLiteral("@onAccent"), look.onAccent.name());
    done.replace(QStringLiteral("@accent"), look.accent.name());
    done.replace(QStringLiteral("@ground"), look.ground.name());
    done.replace(QStringLiteral("@chosen"), look.chosen.name());
    done.replace(QStringLiteral("@question"), look.question.name());
    done.replace(QStringLiteral("@muted"), look.muted.name());
    done.replace(QStringLiteral("@line"), look.edge.name());
    done.replace(QStringLiteral("@side"), look.side.name());
    done.replace(QStringLiteral("@text"), look.text.name());
    return done;
}

bool desktopIsDark() {
    static const bool dark = [] {
        const QPalette desktop = QApplication::palette();
        return desktop.color(QPalette::Window).lightness() < desktop.color(QPalette::WindowText).lightness();
    }();
    return dark;
}

}  // namespace

Appearance Appearance::load() {
    const QSettings settings;
    const int lightness = settings.value(QLatin1String{lightnessKey}, 0).toInt();
    return {.lightness = lightness == 1   ? Lightness::light
                         : lightness == 2 ? Lightness::dark
                                          : Lightness::asDesktop,
            .textPoints = settings.value(QLatin1String{pointsKey}, 0).toInt()};
}

void Appearance::save() const {
    QSettings settings;
    settings.setValue(QLatin1String{lightnessKey}, static_cast<int>(lightness));
    settings.setValue(QLatin1String{pointsKey}, textPoints);
}

void apply(const Appearance& appearance, QApplication& application) {
    static const QFont desktopFont = QApplication::font();
    const bool asDesktop = desktopIsDark();  // asked before the colours are ours
    const bool dark =
        appearance.lightness == Lightness::dark || (appearance.lightness == Lightness::asDesktop && asDesktop);
    const Palette& look = dark ? Palette::dark() : Palette::light();
    QFont font = desktopFont;
    if (appearance.textPoints > 0) {
        font.setPointSize(appearance.textPoints);
    }
    QApplication::setStyle(new HouseStyle);
    QApplication::setPalette(look.forWidgets());
    QApplication::setFont(font);
    application.setStyleSheet(sheet(look));
}

}  // namespace midden::ui
