// SPDX-License-Identifier: GPL-3.0-or-later
// Naming new bins, positions and probes, and what else is being typed meanwhile, through real key events.
#include <QCheckBox>

#include "tests/ui/setup/shown_setup.h"

using namespace midden;
using namespace midden::testing;

namespace {

/// The small book with two bins, of which one is read at two positions.
struct TwoBins : ShownSetup {
    TwoBins() {
        put(Put<PlaceSetting>{{.place = {bin("North"), "core"}}});
        put(Put<PlaceSetting>{{.place = {bin("North"), "side"}}});
        put(Put<Bin>{{.name = "Shed"}});
        book.undoStack().clear();
        settle();
    }
    BinId bin(const char* name) const { return book.log().binNamed(name)->id; }
    void put(const Edit& edit) { REQUIRE(book.change(edit, QStringLiteral("made elsewhere"))); }
    /// "binName of Shed", "binFigure of North, 2": the name of that cell.
    QString cell(QString words) const {
        for (const Bin& one : book.log().bins()) {
            words.replace(" of " + QString::fromStdString(one.name),
                          "_" + QString::number(static_cast<qlonglong>(one.id)));
        }
        return words.replace(", ", "_");
    }
    QLineEdit* line(const QString& name) const { return field(name.toLatin1().constData()); }
    void begin(const QString& name) const {
        REQUIRE(line(name) != nullptr);
        line(name)->setFocus(Qt::TabFocusReason);
    }
    QStringList names() const {
        QStringList all;
        for (const Bin& one : book.log().bins()) {
            all << QString::fromStdString(one.name);
            for (const PlaceSetting& place : book.log().places(one.id)) {
                all << QString::fromStdString(one.name + "/" + place.place.position);
            }
        }
        for (const Probe& one : book.log().probes()) {
            all << QString::fromStdString(one.name);
        }
        return all;
    }
};

}  // namespace

TEST_CASE("names of new things are typed one after the other and no key lands anywhere else") {
    const NoQtWarnings quiet;
    TwoBins shown;
    const auto [line, first, second] =
        GENERATE(table<const char*, QString, QString>({{"newBin", "Alder", "Yew"},
                                                       {"newProbe", "Awl", "Spike"},
                                                       {"newPosition of North", "North/base", "North/top"},
                                                       {"newPosition of Shed", "Shed/core", "Shed/top"}}));
    const QString field = shown.cell(line);
    INFO(field.toStdString());
    const QStringList before = shown.names();
    shown.begin(field);
    for (const QString& name : {first, second}) {
        TwoBins::typeHere(name.section('/', -1));
        TwoBins::enter();
        CHECK(TwoBins::here() == field);
        CHECK(shown.line(field)->text().isEmpty());
        CHECK(shown.names().contains(name));
    }
    CHECK(shown.book.undoStack().count() == 2);
    TwoBins::typeHere(" 5");
    CHECK(shown.line(field)->text() == " 5");
    CHECK(shown.book.undoStack().count() == 2);
    CHECK(shown.names().size() == before.size() + 2);
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Escape);
    CHECK(shown.line(field)->text().isEmpty());
}

TEST_CASE("a new bin's name left with the Tab key is saved and the keyboard goes on to what follows") {
    const NoQtWarnings quiet;
    TwoBins shown;
    shown.begin("newBin");
    TwoBins::typeHere("Alder");
    TwoBins::tab();
    TwoBins::settle();
    CHECK(shown.names().contains("Alder"));
    CHECK(shown.line("newBin")->text().isEmpty());
    REQUIRE(QApplication::focusWidget() != nullptr);
    CHECK(QApplication::focusWidget()->isVisible());
    CHECK(shown.book.undoStack().count() == 1);
}

TEST_CASE("a new name the book refuses stays with the keyboard in it and Enter tries again") {
    const NoQtWarnings quiet;
    TwoBins shown;
    QString trouble;
    QObject::connect(&shown.book, &ui::Book::troubled, &shown.screen, [&](const QString& words) { trouble = words; });
    const auto [field, taken] = GENERATE(table<const char*, const char*>({{"newBin", "North"}, {"newProbe", "Dial"}}));
    shown.begin(field);
    TwoBins::typeHere(taken);
    TwoBins::enter();
    CHECK_FALSE(trouble.isEmpty());
    CHECK(TwoBins::here() == field);
    CHECK(shown.line(field)->text() == taken);
    trouble.clear();
    TwoBins::enter();
    CHECK_FALSE(trouble.isEmpty());
    TwoBins::typeHere(" 2");
    TwoBins::enter();
    CHECK(shown.line(field)->text().isEmpty());
    CHECK(shown.names().contains(QString{taken} + " 2"));
}

TEST_CASE("what is half typed, its caret and the keyboard stay while a new bin or probe comes in from elsewhere") {
    const NoQtWarnings quiet;
    TwoBins shown;
    const QString field =
        shown.cell(GENERATE("binName of North", "binFigure of North, 2", "newBin", "newPosition of North", "newProbe",
                            "probeName_1", "setting_target_celsius"));
    INFO(field.toStdString());
    shown.begin(field);
    shown.line(field)->selectAll();
    TwoBins::typeHere("12");
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Left);
    const QStringList before = shown.names();
    shown.put(Put<Bin>{{.name = "Alder"}});
    shown.put(Put<Probe>{{.name = "Awl"}});
    shown.put(Put<PlaceSetting>{{.place = {shown.bin("North"), "base"}}});
    TwoBins::settle();
    REQUIRE(TwoBins::here() == field);
    CHECK(shown.line(field)->text() == "12");
    TwoBins::typeHere("5");
    CHECK(shown.line(field)->text() == "152");
    CHECK(shown.names().size() == before.size() + 3);
    CHECK(shown.book.undoStack().count() == 3);
}

TEST_CASE("a name rubbed out and not yet replaced stays rubbed out while a new bin comes in") {
    const NoQtWarnings quiet;
    TwoBins shown;
    const QString field = shown.cell("binName of Shed");
    shown.type(field.toLatin1().constData(), QString{});
    shown.put(Put<Bin>{{.name = "Alder"}});
    TwoBins::settle();
    CHECK(TwoBins::here() == field);
    CHECK(shown.line(field)->text().isEmpty());
}

TEST_CASE("a check being typed survives a new probe") {
    const NoQtWarnings quiet;
    TwoBins shown;
    shown.press("checkInIce");
    TwoBins::typeHere("0.4");
    const QString field = TwoBins::here();
    shown.put(Put<Probe>{{.name = "Awl"}});
    TwoBins::settle();
    CHECK(TwoBins::here() == field);
    CHECK(shown.line(field)->text().endsWith("0.4"));
}

TEST_CASE("a position removed leaves the keyboard where no key does anything by itself") {
    const NoQtWarnings quiet;
    TwoBins shown;
    shown.press("remove_");
    CHECK_FALSE(shown.names().contains("North/core"));
    CHECK(TwoBins::here() == shown.cell("newPosition of North"));
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Space);
    CHECK(shown.names().contains("North/side"));
    CHECK(shown.book.undoStack().count() == 1);
}

TEST_CASE("a bin ticked off keeps the keyboard on its tick") {
    const NoQtWarnings quiet;
    TwoBins shown;
    const QString tick = shown.cell("binUsed of Shed");
    shown.field<QCheckBox>(tick.toLatin1().constData())->setFocus(Qt::TabFocusReason);
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Space);
    TwoBins::settle();
    CHECK(shown.book.log().binNamed("Shed")->retired);
    CHECK(TwoBins::here() == tick);
}

TEST_CASE("a new name half typed is saved when the screen goes away") {
    const NoQtWarnings quiet;
    auto book = std::make_unique<ui::Book>(smallBook(), *TimeZone::named("Europe/London"), [] { return checkDay; });
    {
        ui::SetupScreen screen{*book};
        screen.show();
        screen.activateWindow();
        REQUIRE(QTest::qWaitForWindowActive(&screen, aMinute));
        screen.findChild<QLineEdit*>("newBin")->setFocus();
        TwoBins::typeHere("Alder");
    }
    CHECK(book->log().binNamed("Alder"));
}

TEST_CASE("openings and changes of air are typed in Setup and told as what leaves with them") {
    const NoQtWarnings quiet;
    TwoBins shown;
    const auto stored = [&] { return *shown.book.log().binNamed("North"); };
    const auto told = [&] { return shown.words(shown.cell("binAirWords of North").toLatin1().constData()); };
    CHECK(told().isEmpty());
    for (const auto& [column, typed] : {std::pair{"1", "20"}, std::pair{"2", "80"}}) {
        shown.begin(shown.cell("binAir of North, ") + column);
        TwoBins::typeHere(typed);
        TwoBins::enter();
    }
    CHECK(stored().ventSquareCentimetres == 20);
    CHECK(stored().ventRiseCentimetres == 80);
    CHECK(told() == "at most 7.4 m³ an hour and 612 W");
    shown.begin(shown.cell("binAir of North, 3"));
    TwoBins::typeHere("-2");
    TwoBins::enter();
    CHECK_FALSE(stored().airChangesPerHour);
    shown.type(shown.cell("binAir of North, 3").toLatin1().constData(), "2");
    TwoBins::enter();
    CHECK(stored().airChangesPerHour == 2);
    CHECK(told() == "the bin's volume is missing");
    shown.book.undoStack().undo();
    CHECK_FALSE(stored().airChangesPerHour);
    CHECK(told().startsWith("at most"));
}
