// SPDX-License-Identifier: GPL-3.0-or-later
// What comes to a field that was not meant for it: the wheel over a closed list, a file dropped on a line.
#include <QAbstractSlider>
#include <QAbstractSpinBox>
#include <QComboBox>
#include <QDropEvent>
#include <QMimeData>
#include <QScrollArea>
#include <QScrollBar>
#include <QWheelEvent>

#include "tests/ui/shell/desk.h"
#include "ui/shell/screens.h"

using namespace midden;
using midden::testing::Desk;
using midden::testing::NoQtWarnings;

namespace {

struct StrayDesk : Desk {
    StrayDesk() {
        window->startBook(path("plot.midden"));
        settle();
        north = addBin("North", {"core", "side"});
        addBin("Shed", {"core"});
        for (const char* name : {"Dial", "Spike"}) {
            book().change(Put<Probe>{{.name = name}}, QStringLiteral("a thermometer"));
        }
        addReading(north, "core", now - hours(23), 610'000);
        settle();
    }
    BinId north{};
};

/// As the windowing system sends it.
void turnWheel(QWidget& widget, int steps) {
    const QPointF middle = widget.rect().center();
    QWheelEvent wheel{middle,         widget.mapToGlobal(middle), {},   {0, 120 * steps}, Qt::NoButton,
                      Qt::NoModifier, Qt::NoScrollPhase,          false};
    QSpontaneKeyEvent::setSpontaneous(&wheel);
    qApp->notify(&widget, &wheel);
    Desk::settle();
}

/// What stands in every closed list, spin box and slider that can be seen.
QMap<QWidget*, QString> valuesSeen() {
    QMap<QWidget*, QString> values;
    for (QWidget* widget : QApplication::allWidgets()) {
        if (!widget->isVisible()) {
            continue;
        }
        const auto* slider = qobject_cast<QAbstractSlider*>(widget);
        if (const auto* list = qobject_cast<QComboBox*>(widget)) {
            values[widget] = list->currentText();
        } else if (const auto* box = qobject_cast<QAbstractSpinBox*>(widget)) {
            values[widget] = box->text();
        } else if (slider != nullptr && qobject_cast<const QScrollBar*>(widget) == nullptr) {
            values[widget] = QString::number(slider->value());
        }
    }
    return values;
}

int turnWheelOverAll() {
    const auto before = valuesSeen();
    QStringList turned;
    for (QWidget* widget : before.keys()) {
        for (const int steps : {-1, -1, 1, 1, 1}) {
            turnWheel(*widget, steps);
            if (valuesSeen().value(widget) != before.value(widget)) {
                turned << widget->objectName();
            }
        }
    }
    CHECK(turned == QStringList{});
    return static_cast<int>(before.size());
}

void drop(QWidget& target, const QMimeData& data) {
    const QPoint middle = target.rect().center();
    QDragEnterEvent enter{middle, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier};
    qApp->notify(&target, &enter);
    QDropEvent drop{middle, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier};
    qApp->notify(&target, &drop);
    Desk::settle();
}

}  // namespace

TEST_CASE("the wheel over a closed list changes nothing on any screen") {
    const NoQtWarnings quiet;
    StrayDesk desk;
    int lists = 0;
    for (const ui::ScreenEntry& screen : ui::screens()) {
        desk.window->workspace()->showScreen(QLatin1String{screen.id});
        Desk::settle();
        lists += turnWheelOverAll();
    }
    CHECK(lists >= 6);  // Round, History, Recipe, Certificate, Setup
    CHECK_FALSE(desk.book().log().storedSetting(setting::unit));
}

TEST_CASE("the wheel over a closed list changes nothing in the forms of the Round") {
    const NoQtWarnings quiet;
    StrayDesk desk;
    desk.window->workspace()->showScreen(QStringLiteral("round"));
    const auto button = GENERATE("actAdded", "actSqueeze", "actRipening", "actMove");
    desk.find<QAbstractButton>(button).click();
    Desk::settle();
    CHECK(turnWheelOverAll() == 2);  // and the thermometer
}

TEST_CASE("the wheel over a closed list changes nothing in the window that brings in a table") {
    const NoQtWarnings quiet;
    StrayDesk desk;
    QFile sheet{desk.path("sheet.csv")};
    REQUIRE(sheet.open(QIODevice::WriteOnly));
    sheet.write("time,temperature\n2026-03-01T08:00,60\n");
    sheet.close();
    desk.window->bringInTable(sheet.fileName());
    Desk::settle();
    CHECK(turnWheelOverAll() >= 2);
}

TEST_CASE("the wheel over a closed list scrolls the page behind it") {
    const NoQtWarnings quiet;
    StrayDesk desk;
    desk.window->resize(1'180, 500);
    desk.window->workspace()->showScreen(QStringLiteral("setup"));
    Desk::settle();
    auto& unit = desk.find<QComboBox>("setting_unit");
    QScrollArea* page = nullptr;
    for (QWidget* above = unit.parentWidget(); above != nullptr && page == nullptr; above = above->parentWidget()) {
        page = qobject_cast<QScrollArea*>(above);
    }
    REQUIRE(page != nullptr);
    page->verticalScrollBar()->setValue(0);
    turnWheel(unit, -1);
    CHECK(page->verticalScrollBar()->value() > 0);
}

TEST_CASE("a file dropped on a line goes to the window and types nothing") {
    const NoQtWarnings quiet;
    StrayDesk desk;
    QFile sheet{desk.path("sheet.csv")};
    REQUIRE(sheet.open(QIODevice::WriteOnly));
    sheet.write("time,temperature\n2026-03-01T08:00Z,60\n");
    sheet.close();
    const auto [screen, line] = GENERATE(Catch::Generators::table<const char*, const char*>(
        {{"round", "cell_North_core"}, {"round", "roundTime"}, {"recipe", "material1"}, {"setup", "setting_group"}}));
    desk.window->workspace()->showScreen(screen);
    Desk::settle();
    auto& field = desk.find<QLineEdit>(line);
    const QString before = field.text();
    QMimeData data;
    data.setUrls({QUrl::fromLocalFile(sheet.fileName())});
    data.setText(sheet.fileName());
    drop(field, data);
    CHECK(field.text() == before);
    CHECK(desk.words("intakeSummary").startsWith("sheet.csv holds readings."));
}
