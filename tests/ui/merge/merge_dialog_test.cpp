// SPDX-License-Identifier: GPL-3.0-or-later
// Another steward's copy is brought in by keyboard.
#include <QAction>
#include <QPushButton>
#include <QTableView>
#include <QUndoStack>

#include "core/store/care/copies.h"
#include "tests/ui/shell/desk.h"
#include "ui/merge/merge_dialog.h"

using namespace midden;
using midden::testing::Desk;
using midden::testing::NoQtWarnings;
using midden::testing::waitUntil;

namespace {

/// Ada's book is open; Grace took a copy home, and both corrected the first reading since.
struct Together : Desk {
    Together() {
        window->keepCopiesIn(path("copies").toStdString(), [this] { return now; });
        window->startBook(path("plot.midden"));
        book().setSetting(setting::who, "Ada");
        settle();
        bin = addBin("North", {"core"});
        addReading(bin, "core", first, 550'000);
        book().log().copyTo(home());
        correct(570'000);
    }

    std::filesystem::path home() const { return path("home.midden").toStdString(); }
    Logbook grace() const {
        auto copy = Logbook::open(home(), Logbook::Mode::readWrite);
        copy.setHand("Grace", [at = now + Seconds{3'600}] { return at; });
        return copy;
    }
    void correct(int tenThousandths) {
        auto reading = *book().log().reading({{bin, "core"}, first});
        reading.written = {tenThousandths};
        book().change(Amend<Reading>{reading.id(), reading, ""}, QStringLiteral("correction"));
    }
    void graceCorrects(int tenThousandths) const {
        auto copy = grace();
        auto reading = *copy.reading({{bin, "core"}, first});
        reading.written = {tenThousandths};
        copy.apply(Amend<Reading>{reading.id(), reading, "misread"});
    }
    void graceReads(Instant at) const {
        auto copy = grace();
        copy.apply(Put<Reading>{{.place = {bin, "core"}, .when = {at, {}}, .written = {600'000}}});
    }

    /// Chooses the file by the menu and waits until it has been looked through.
    ui::MergeDialog& look() {
        prompts.openAnswer = path("home.midden");
        find<QAction>("actionBringIn").trigger();
        auto& dialog = find<ui::MergeDialog>("merge");
        auto& progress = dialog.findChild<QLabel*>("mergeSummary")[0];
        REQUIRE(waitUntil([&] { return !progress.text().startsWith("Looking"); }));
        settle();
        return dialog;
    }
    /// By the keyboard, from wherever it is.
    void bringIn() {
        while (focus() != "mergeGo") {
            press(Qt::Key_Tab);
        }
        press(Qt::Key_Return);
    }
    void waitUntilDone() {
        REQUIRE(waitUntil([this] { return window->findChild<ui::MergeDialog*>("merge") == nullptr; }));
        settle();
    }
    int firstReads() const { return reading(bin, "core", first)->written.tenThousandths; }

    const Instant first = now - days(3);
    BinId bin{};
};

QString words(const ui::MergeDialog& dialog, const char* name) {
    return dialog.findChild<QLabel*>(QLatin1String{name})->text();
}

}  // namespace

TEST_CASE("what comes from the other copy is told before it comes") {
    const NoQtWarnings quiet;
    Together desk;
    desk.graceReads(desk.now);
    const auto& dialog = desk.look();
    CHECK(words(dialog, "mergeSummary") == "1 reading is new here.");
    CHECK_FALSE(dialog.findChild<QTableView*>("mergeConflicts")->isVisible());
    CHECK_FALSE(desk.reading(desk.bin, "core", desk.now));
    CHECK(Desk::focus() == "mergeClose");
    desk.bringIn();
    desk.waitUntilDone();
    REQUIRE(desk.reading(desk.bin, "core", desk.now));
    CHECK(desk.reading(desk.bin, "core", desk.now)->provenance.who == "Grace");
    CHECK(desk.words("status") == "1 reading is new here.");
}

TEST_CASE("Enter brings nothing in before the button that does is reached") {
    const NoQtWarnings quiet;
    Together desk;
    SECTION("where nothing differs it leaves the other copy") {
        desk.graceReads(desk.now);
        desk.look();
        Desk::press(Qt::Key_Return);
        desk.waitUntilDone();
        CHECK_FALSE(desk.reading(desk.bin, "core", desk.now));
    }
    SECTION("in the list of what differs it goes on, and a key held down presses nothing") {
        desk.graceCorrects(560'000);
        auto& dialog = desk.look();
        REQUIRE(Desk::focus() == "mergeConflicts");
        Desk::press(Qt::Key_Return);
        CHECK(Desk::focus() == "mergeGo");
        QKeyEvent held{QEvent::KeyPress, Qt::Key_Return, Qt::NoModifier, {}, true};
        QCoreApplication::sendEvent(QApplication::focusWidget(), &held);
        Desk::settle();
        CHECK(dialog.findChild<QPushButton*>("mergeGo")->isVisible());
        CHECK(desk.firstReads() == 570'000);
        Desk::press(Qt::Key_Return);
        desk.waitUntilDone();
        CHECK(desk.firstReads() == 560'000);
    }
}

TEST_CASE("a conflict is decided with the arrow keys and both values stay in the book") {
    const NoQtWarnings quiet;
    Together desk;
    desk.graceCorrects(560'000);  // the later of the two
    auto& dialog = desk.look();
    auto* table = dialog.findChild<QTableView*>("mergeConflicts");
    REQUIRE(table->isVisible());
    CHECK(Desk::focus() == "mergeConflicts");
    const auto cell = [&](int column) { return table->model()->index(0, column).data().toString(); };
    CHECK(cell(0) == "core, North\n1 March 2026 08:10");
    CHECK(cell(1) == "55 °C");
    CHECK(cell(2) == "57 °C\nAda, 4 March 2026 08:10");
    CHECK(cell(3) == "✓ 56 °C\nGrace, 4 March 2026 09:10");
    const bool here = GENERATE(true, false);
    Desk::press(here ? Qt::Key_Left : Qt::Key_Right);
    CHECK(cell(here ? 2 : 3).startsWith(here ? "✓ 57 °C" : "✓ 56 °C"));
    desk.bringIn();
    desk.waitUntilDone();
    CHECK(desk.firstReads() == (here ? 570'000 : 560'000));
    std::string told;
    for (const Amendment& one : desk.book().log().amendments(desk.book().log().batches()[0].id)) {
        told += one.was + " > " + one.became + "; ";
    }
    CHECK(told.find("55 °C > 57 °C") != std::string::npos);
    CHECK(told.find("55 °C > 56 °C") != std::string::npos);
}

TEST_CASE("leaving it with Escape changes nothing") {
    const NoQtWarnings quiet;
    Together desk;
    desk.graceCorrects(560'000);
    desk.look();
    Desk::press(Qt::Key_Escape);
    desk.waitUntilDone();
    CHECK(desk.firstReads() == 570'000);
    CHECK(desk.book().undoStack().canUndo());
}

TEST_CASE("a copy of the book is kept first and Undo ends at the merge") {
    const NoQtWarnings quiet;
    Together desk;
    desk.graceReads(desk.now);
    const auto& dialog = desk.look();
    CHECK(words(dialog, "mergeCaution").contains("Undo does not reach back behind this step"));
    desk.bringIn();
    desk.waitUntilDone();
    CHECK_FALSE(desk.book().undoStack().canUndo());
    const std::filesystem::path place = desk.path("copies").toStdString();
    const auto copies = keptCopies(place / copyFolderName(desk.book().log().file()));
    REQUIRE(copies.size() == 1);
    CHECK_FALSE(Logbook::open(copies[0].file, Logbook::Mode::readOnly).reading({{desk.bin, "core"}, desk.now}));
}

TEST_CASE("the book of another group and the open book itself are refused in words") {
    const NoQtWarnings quiet;
    Together desk;
    desk.book().setSetting(setting::group, "Ferry Lane");
    desk.grace().setSetting(setting::group, "Mill Field");
    CHECK(words(desk.look(), "mergeSummary").contains("Mill Field"));
    Desk::press(Qt::Key_Return);
    desk.waitUntilDone();
    desk.prompts.openAnswer = desk.path("plot.midden");
    desk.find<QAction>("actionBringIn").trigger();
    auto& dialog = desk.find<ui::MergeDialog>("merge");
    CHECK(waitUntil([&] { return words(dialog, "mergeSummary").startsWith("That is the book"); }));
}
