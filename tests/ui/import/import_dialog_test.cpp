// SPDX-License-Identifier: GPL-3.0-or-later
// CSV files are brought in by keyboard.
#include <QDropEvent>
#include <QMenuBar>
#include <QMimeData>
#include <QUndoStack>
#include <QUrl>

#include "core/store/care/copies.h"
#include "tests/ui/import/garden.h"
#include "ui/shell/menus.h"

using namespace midden;
using midden::testing::Desk;
using midden::testing::Garden;
using midden::testing::lastYear;
using midden::testing::NoQtWarnings;

namespace {

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
          "New bin: Hedge\n");
    CHECK(desk.book().log().bins().empty());
    desk.bringIn();
    CHECK(desk.count("Spring 2025") == 30);
    CHECK(desk.book().log().batchNamed("Spring 2025")->started.at == lastYear);
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
