// SPDX-License-Identifier: GPL-3.0-or-later
// CSV files are brought in by keyboard.
#include <QAction>
#include <QComboBox>
#include <QDropEvent>
#include <QElapsedTimer>
#include <QMenuBar>
#include <QMimeData>
#include <QProgressBar>
#include <QPushButton>
#include <QUndoStack>
#include <QUrl>
#include <fstream>

#include "core/logbook/copies.h"
#include "tests/ui/shell/desk.h"
#include "ui/intake/intake_dialog.h"
#include "ui/window/menus.h"

using namespace midden;
using midden::testing::Desk;
using midden::testing::NoQtWarnings;
using midden::testing::plain;
using midden::testing::unnamed;

namespace {

constexpr Instant lastYear{1'740'816'000};  // 2025-03-01T08:00:00Z, the same in London

/// A book that is open, and files beside it.
struct Garden : Desk {
    Garden() {
        window->keepCopiesIn(path("copies").toStdString(), [this] { return now; });
        window->startBook(path("plot.midden"));
        book().setSetting("zone", "Europe/London");
        settle();
    }

    QString write(const QString& name, const std::string& text) const {
        std::ofstream{path(name).toStdString(), std::ios::binary} << text;
        return path(name);
    }
    /// Chooses the file by the menu.
    ui::IntakeDialog& choose(const QString& name, const std::string& text) {
        prompts.openAnswer = write(name, text);
        find<QAction>("actionBringInTable").trigger();
        settle();
        auto& dialog = find<ui::IntakeDialog>("intake");
        CHECK(unnamed(dialog) == QStringList{});
        return dialog;
    }
    /// Reads it through and waits for what is found.
    void readThrough() {
        press(Qt::Key_Return);
        REQUIRE(QTest::qWaitFor([this] { return button("intakeClose").text() != "Stop"; }, 60'000));
        settle();
    }
    void bringIn() {
        press(Qt::Key_Return);
        REQUIRE(QTest::qWaitFor([this] { return !isOpen(); }, 60'000));
        settle();
    }
    bool isOpen() const { return window->findChild<ui::IntakeDialog*>("intake") != nullptr; }
    QPushButton& button(const char* name) const { return find<QPushButton>(name); }
    /// What would come, a line each.
    QString lines() const {
        QString all;
        const auto* shown = window->findChild<QWidget*>("intakeLines");
        for (const QLabel* label : shown != nullptr ? shown->findChildren<QLabel*>() : QList<QLabel*>{}) {
            all += label->text() + (label->objectName() == "intakeLine" ? "\n" : ": ");
        }
        return plain(all);
    }
    std::int64_t count(const std::string& batch) const {
        const auto found = book().log().batchNamed(batch);
        return found ? book().log().record(found->id).readings : -1;
    }
};

/// A sheet of morning rounds, as somebody typed it.
std::string sheet(int rows) {
    std::string text = "time;temperature;position;note\n";
    for (int row = 0; row < rows; ++row) {
        const Instant at = lastYear + days(row / 2);
        text += isoUtc(at).substr(0, 10) + " 08:00;" + std::to_string(50 + row / 2) + ",5;" +
                (row % 2 == 0 ? "core" : "side") + ";\n";
    }
    return text;
}

std::string everyMinute(int rows) {
    std::string text = "time,temperature\n";
    for (int row = 0; row < rows; ++row) {
        text += isoUtc(lastYear + minutes(row)) + ",55.5\n";
    }
    return text;
}

}  // namespace

TEST_CASE("a typed sheet of thirty rows goes into the batch that stands") {
    const NoQtWarnings quiet;
    Garden desk;
    const BinId bin = desk.addBin("North", {"core", "side"});
    std::string text = "time,temperature,position\n";
    for (int row = 0; row < 30; ++row) {
        text += isoUtc(desk.now - days(5) + hours(row)) + ",6" + std::to_string(row % 10) + ".5,core\n";
    }
    desk.choose("sheet.csv", text);
    CHECK(desk.words("intakeSummary").startsWith("sheet.csv holds readings."));
    CHECK(Desk::focus() == "intakeBatch");
    desk.readThrough();
    CHECK(desk.words("intakeSummary") == "This is what sheet.csv brings. Nothing has been written yet.");
    CHECK(desk.lines() ==
          "Readings: 30 new\nWhen: 27 February 2026 08:10 to 28 February 2026 13:10\nWhere: North: core\n"
          "Batch: “North batch” in North\n");
    CHECK(desk.words("intakeCaution").contains("Undo does not reach back behind this step"));
    CHECK(desk.count("North batch") == 0);
    CHECK(Desk::focus() == "intakeGo");
    desk.bringIn();
    CHECK(desk.count("North batch") == 30);
    CHECK(desk.reading(bin, "core", desk.now - days(5))->provenance.source == Source::imported);
    CHECK(desk.words("status") == "Brought into “North batch”: 30 readings.");
    CHECK(desk.window->workspace()->screen() == "history");
    CHECK(desk.book().batch() == desk.book().log().batchNamed("North batch")->id);
    CHECK_FALSE(desk.book().undoStack().canUndo());
    const std::filesystem::path place = desk.path("copies").toStdString();
    const auto copies = keptCopies(place / copyFolderName(desk.book().log().file()));
    REQUIRE_FALSE(copies.empty());
    const auto kept = Logbook::open(copies[0].file, Logbook::Mode::readOnly);
    CHECK_FALSE(kept.reading({{bin, "core"}, desk.now - days(5)}));
}

TEST_CASE("the same file again brings nothing and says so") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.addBin("North", {"core"});
    const std::string text = "time,temperature\n" + isoUtc(desk.now - days(2)) + ",61\n";
    desk.choose("sheet.csv", text);
    desk.readThrough();
    desk.bringIn();
    desk.choose("sheet.csv", text);
    desk.readThrough();
    CHECK(desk.words("intakeSummary") == "The book has all that is in sheet.csv already.");
    CHECK(desk.lines().startsWith("Readings: 1 in the book already\n"));
    CHECK_FALSE(desk.button("intakeGo").isVisible());
    Desk::press(Qt::Key_Return);
    CHECK_FALSE(desk.isOpen());
}

TEST_CASE("last year's sheets begin a new batch in a new bin of an empty book") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.choose("last year.csv", sheet(30));
    CHECK_FALSE(desk.find<QComboBox>("intakeBatch").isVisible());
    CHECK(Desk::focus() == "intakeNewBatch");
    Desk::press(Qt::Key_Return);
    CHECK(desk.words("intakeProblem") == "The new batch needs a name.");
    Desk::type("Spring 2025");
    Desk::press(Qt::Key_Return);
    CHECK(desk.words("intakeProblem") == "Say which bin the new batch stands in.");
    CHECK(Desk::focus() == "intakeBin");
    Desk::type("Hedge");
    Desk::press(Qt::Key_Tab);
    CHECK(Desk::focus() == "intakeZone");
    desk.readThrough();
    CHECK(desk.lines() ==
          "Readings: 30 new\nWhen: 1 March 2025 08:00 to 15 March 2025 08:00\nWhere: Hedge: core, side\n"
          "New batch: “Spring 2025” in Hedge, from 1 March 2025 08:00 on\n"
          "New bins: Hedge\n");
    CHECK(desk.book().log().bins().empty());
    desk.bringIn();
    CHECK(desk.count("Spring 2025") == 30);
    CHECK(desk.book().log().batchNamed("Spring 2025")->started.at == lastYear);
}

TEST_CASE("among several standing batches the person chooses") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.addBin("North", {"core"});
    desk.addBin("Shed", {"core"});
    desk.choose("sheet.csv", "time,temperature\n" + isoUtc(desk.now - days(2)) + ",61\n");
    Desk::press(Qt::Key_Return);
    CHECK(desk.words("intakeProblem") == "Choose the batch they go into.");
    Desk::type("Shed");
    desk.readThrough();
    desk.bringIn();
    CHECK(desk.count("Shed batch") == 1);
    CHECK(desk.count("North batch") == 0);
}

TEST_CASE("a file with a mistake is refused with its line and nothing is written") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.addBin("North", {"core"});
    desk.choose("sheet.csv", "time,temperature\n" + isoUtc(desk.now - days(2)) + ",61\n2026-02-30T08:00Z,62\n");
    desk.readThrough();
    CHECK(desk.words("intakeProblem") ==
          "sheet.csv, line 3: \"2026-02-30T08:00Z\" is not in the calendar. Expected: a date and time such as "
          "2026-03-01T08:00:00+01:00. Nothing was written.");
    CHECK(desk.find<QComboBox>("intakeBatch").isEnabled());
    Desk::press(Qt::Key_Escape);
    CHECK_FALSE(desk.isOpen());
    CHECK(desk.count("North batch") == 0);
}

TEST_CASE("another value than the book's is refused in words") {
    const NoQtWarnings quiet;
    Garden desk;
    const BinId bin = desk.addBin("North", {"core"});
    desk.addReading(bin, "core", desk.now - days(2), 600'000);
    desk.choose("sheet.csv", "time,temperature\n" + isoUtc(desk.now - days(2)) + ",61\n");
    desk.readThrough();
    CHECK(desk.words("intakeProblem").startsWith("sheet.csv, line 2: 61 °C here, but the logbook holds 60 °C"));
    CHECK(desk.words("intakeProblem").endsWith("Nothing was written."));
}

TEST_CASE("a header that fits nothing says what was expected") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.choose("prices.csv", "article,price\nspade,20\n");
    CHECK(desk.words("intakeSummary") == "prices.csv cannot be brought in.");
    CHECK(desk.words("intakeProblem").contains("the columns article, price"));
    CHECK(desk.words("intakeProblem").contains("Expected: time and temperature for readings"));
    CHECK_FALSE(desk.button("intakeGo").isVisible());
    CHECK_FALSE(desk.button("intakeBack").isVisible());
    Desk::press(Qt::Key_Return);
    CHECK_FALSE(desk.isOpen());
}

TEST_CASE("numbers without a unit can be in Fahrenheit") {
    const NoQtWarnings quiet;
    Garden desk;
    const BinId bin = desk.addBin("North", {"core"});
    desk.choose("sheet.csv", "time,temperature\n" + isoUtc(desk.now - days(2)) + ",131\n");
    desk.find<QComboBox>("intakeUnit").setFocus();
    Desk::press(Qt::Key_Down);
    CHECK(desk.find<QComboBox>("intakeUnit").currentText() == "°F");
    desk.readThrough();
    desk.bringIn();
    const auto reading = desk.reading(bin, "core", desk.now - days(2));
    REQUIRE(reading);
    CHECK(toCelsius(reading->written) == Celsius::ofTenThousandths(550'000));
    CHECK(reading->written.unit == TemperatureUnit::fahrenheit);
}

TEST_CASE("a header that names the unit leaves nothing to ask") {
    const NoQtWarnings quiet;
    Garden desk;
    const BinId bin = desk.addBin("North", {"core"});
    desk.choose("sheet.csv", "time,temperature (°F)\n" + isoUtc(desk.now - days(2)) + ",131\n");
    CHECK_FALSE(desk.find<QComboBox>("intakeUnit").isVisible());
    CHECK_FALSE(desk.find<QLineEdit>("intakeZone").isVisible());
    desk.readThrough();
    desk.bringIn();
    CHECK(desk.reading(bin, "core", desk.now - days(2))->written.unit == TemperatureUnit::fahrenheit);
}

TEST_CASE("times that came twice when the clocks went back are remarked on") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.choose(
        "autumn.csv",
        "time,temperature\n2025-10-26 00:30,60\n2025-10-26 01:30,61\n2025-10-26 01:30,62\n2025-10-26 02:30,63\n");
    Desk::type("Autumn");
    Desk::press(Qt::Key_Tab);
    Desk::type("Hedge");
    CHECK(desk.find<QLineEdit>("intakeZone").text() == "Europe/London");
    desk.readThrough();
    CHECK(desk.lines().contains("Please check: Line 3: this is the first of 2 times that came twice when the clocks"));
    desk.bringIn();
    CHECK(desk.count("Autumn") == 4);
}

TEST_CASE("a time zone that is none is asked for again") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.addBin("North", {"core"});
    desk.choose("sheet.csv", "time,temperature\n2026-03-01 08:00,60\n");
    auto& zone = desk.find<QLineEdit>("intakeZone");
    zone.setFocus();
    zone.setText("Mars/Olympus");
    Desk::press(Qt::Key_Return);
    CHECK(desk.words("intakeProblem") == "“Mars/Olympus” is no time zone. One is written as in Europe/London.");
    CHECK(Desk::focus() == "intakeZone");
    zone.setText("America/New_York");
    desk.readThrough();
    CHECK(desk.lines().contains("When: 1 March 2026 13:00"));
}

TEST_CASE("local times far down a file make the time zone a question") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.addBin("North", {"core"});
    std::string text = everyMinute(2'000);
    desk.choose("long.csv", text + "2026-03-01 08:00,60\n");
    CHECK_FALSE(desk.find<QLineEdit>("intakeZone").isVisible());
    desk.readThrough();
    CHECK(plain(desk.words("intakeProblem")) ==
          "Line 2,002 has a time without its offset from UTC. Say in which time zone such times are.");
    CHECK(Desk::focus() == "intakeZone");
    desk.readThrough();
    CHECK(desk.lines().startsWith("Readings: 2,001 new\n"));
}

TEST_CASE("a new batch whose bin is not in the file is refused in words") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.choose("sheet.csv", "time,temperature,bin\n2026-03-01T08:00Z,60,Shed\n");
    Desk::type("Spring");
    Desk::press(Qt::Key_Tab);
    Desk::type("Hedge");
    desk.readThrough();
    CHECK(
        desk.words("intakeProblem") ==
        "sheet.csv: nothing says when batch \"Spring\" began. Expected: entries of its own bin. Nothing was written.");
    CHECK_FALSE(desk.find<QLineEdit>("intakeZone").isVisible());
}

TEST_CASE("additions come in from a file of their own") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.addBin("North", {"core"});
    desk.choose("buckets.csv", "time,material,mass_kg\n" + isoUtc(desk.now - days(3)) + ",Straw,12.5\n");
    CHECK(desk.words("intakeSummary").startsWith("buckets.csv holds additions."));
    CHECK_FALSE(desk.find<QComboBox>("intakeUnit").isVisible());
    desk.readThrough();
    CHECK(desk.lines().startsWith("Additions: 1 new\n"));
    desk.bringIn();
    const auto additions = desk.book().log().additions(desk.book().log().batchNamed("North batch")->id);
    REQUIRE(additions.size() == 1);
    CHECK(additions[0].material == "Straw");
    CHECK(desk.words("status") == "Brought into “North batch”: 1 addition.");
}

TEST_CASE("aerations come in from a file of their own") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.addBin("North", {"core"});
    desk.choose("turnings.csv", "time,kind\n" + isoUtc(desk.now - days(3)) + ",turned\n");
    desk.readThrough();
    CHECK(desk.lines().startsWith("Aerations: 1 new\n"));
    desk.bringIn();
    CHECK(desk.book().log().record(desk.book().log().batchNamed("North batch")->id).aerations.size() == 1);
}

TEST_CASE("a long reading shows how far it has come and stops within a moment") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.addBin("North", {"core"});
    desk.choose("long.csv", everyMinute(1'500'000));
    Desk::press(Qt::Key_Return);
    REQUIRE(QTest::qWaitFor([&] { return desk.find<QProgressBar>("intakeProgress").value() > 0; }, 60'000));
    CHECK(desk.words("intakeDoing") == "Reading the file…");
    CHECK(Desk::focus() == "intakeClose");
    QElapsedTimer clock;
    clock.start();
    Desk::press(Qt::Key_Escape);
    CHECK(clock.elapsed() < 1'000);
    CHECK(desk.words("intakeProblem") == "Stopped. Nothing was written.");
    CHECK(desk.find<QComboBox>("intakeBatch").isEnabled());
    CHECK(desk.count("North batch") == 0);
}

TEST_CASE("writing that is stopped takes back what was written and can be begun again") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.addBin("North", {"core"});
    desk.choose("long.csv", everyMinute(1'500'000));
    desk.readThrough();
    Desk::press(Qt::Key_Return);
    REQUIRE(QTest::qWaitFor([&] { return desk.words("intakeDoing") == "Writing into the book…"; }, 60'000));
    Desk::press(Qt::Key_Escape);
    REQUIRE(QTest::qWaitFor([&] { return desk.button("intakeGo").isVisible(); }, 60'000));
    CHECK(desk.words("intakeProblem") == "Stopped. Nothing was written.");
    CHECK(desk.isOpen());
    CHECK(desk.count("North batch") == 0);
    CHECK(desk.book().undoStack().canUndo());
    Desk::press(Qt::Key_Escape);
    CHECK_FALSE(desk.isOpen());
}

TEST_CASE("Back leads to the questions again with the answers that were given") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.choose("last year.csv", sheet(4));
    Desk::type("Spring 2025");
    Desk::press(Qt::Key_Tab);
    Desk::type("Hedge");
    desk.readThrough();
    desk.button("intakeBack").setFocus();
    Desk::press(Qt::Key_Return);
    CHECK(desk.find<QLineEdit>("intakeNewBatch").text() == "Spring 2025");
    CHECK(desk.find<QComboBox>("intakeBin").currentText() == "Hedge");
    CHECK(desk.button("intakeGo").text() == "&Read it through");
}

TEST_CASE("while no book is open there is nothing to bring readings into") {
    const NoQtWarnings quiet;
    const Desk desk;
    CHECK_FALSE(desk.find<QAction>("actionBringInTable").isEnabled());
}

TEST_CASE("a book that is open for reading only takes nothing in") {
    const NoQtWarnings quiet;
    Garden desk;
    ui::Book book{Logbook::open(desk.path("plot.midden").toStdString(), Logbook::Mode::readOnly), TimeZone::utc(),
                  [] { return midden::testing::fourthOfMarch; }};
    QMenuBar bar;
    ui::fillMenus(bar, {.window = *desk.window, .book = &book, .prompts = desk.prompts});
    CHECK_FALSE(bar.findChild<QAction*>("actionBringInTable")->isEnabled());
    CHECK(desk.find<QAction>("actionBringInTable").isEnabled());
}

TEST_CASE("a file dropped onto the window is asked about") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.addBin("North", {"core"});
    QMimeData data;
    data.setUrls({QUrl::fromLocalFile(desk.write("sheet.csv", "time,temperature\n2026-03-01T08:00Z,60\n"))});
    QDragEnterEvent enter{{40, 40}, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier};
    QCoreApplication::sendEvent(desk.window.get(), &enter);
    CHECK(enter.isAccepted());
    QDropEvent drop{{40, 40}, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier};
    QCoreApplication::sendEvent(desk.window.get(), &drop);
    Desk::settle();
    REQUIRE(desk.isOpen());
    CHECK(desk.words("intakeSummary").startsWith("sheet.csv holds readings."));
}
