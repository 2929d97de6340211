// SPDX-License-Identifier: GPL-3.0-or-later
// Taking entries back, and staying with the entry while the list is filled anew.
#include <QPushButton>

#include "tests/ui/history/opened_history.h"
#include "ui/history/trace_view.h"
#include "ui/shared/looked_at.h"

using namespace midden;
using namespace midden::ui;
using namespace midden::testing;

namespace {

BatchRecord withAir() {
    BatchRecord record = madeRecord();
    record.tracks = {{"core", false, {sampleAt(0, 50), sampleAt(12, 61.5), sampleAt(24, 60)}}};
    record.outside = {sampleAt(1, 6.5), sampleAt(13, 8)};
    return record;
}

Reading siteAir(double hour, int tenThousandths) {
    return {.place = {}, .when = {afterHours(hour), {}}, .written = {tenThousandths, TemperatureUnit::celsius}};
}

int lineOf(Opened& opened, const QString& line) {
    const auto row = opened.lines().indexOf(line);
    REQUIRE(row >= 0);
    return static_cast<int>(row);
}

}  // namespace

TEST_CASE("a withdrawn reading of outside air stays in the list struck through") {
    const NoQtWarnings quiet;
    Opened opened{withAir()};
    const BinId bin = *opened.book->bin();
    opened.withdraw(lineOf(opened, "reading outside 8"));
    CHECK(opened.lines().contains("withdrawn outside air, North (was 8 °C)"));
    CHECK_FALSE(opened.book->log().reading({{bin, ""}, afterHours(13)}));
    opened.book->undoStack().undo();
    opened.settle();
    CHECK(opened.lines().contains("reading outside 8"));
}

TEST_CASE("the air of the whole site is listed, corrected and withdrawn as the bin's own is") {
    const NoQtWarnings quiet;
    Opened opened{withAir()};
    REQUIRE(opened.book->change(Put<Reading>{siteAir(20, 90'000)}, "air"));
    opened.settle();
    opened.amend(lineOf(opened, "reading outside 9"), EntriesModel::typed, "10");
    const int row = lineOf(opened, "reading outside 10 (was 9 °C)");
    CHECK(plain(opened.askToWithdraw(row))
              .startsWith("Withdraw the reading 10 °C of the air outside, Mon 2 Mar 2026 04:00?"));
    auto* withdraw = opened.screen.findChild<QPushButton*>("withdraw");
    QTest::keyClick(opened.screen.findChild<QLineEdit*>("withdrawWhy"), Qt::Key_Return);
    opened.settle();
    CHECK(opened.lines().contains("reading outside 10 (was 9 °C)"));
    CHECK(withdraw->hasFocus());
    QKeyEvent held{QEvent::KeyPress, Qt::Key_Return, Qt::NoModifier, {}, true};
    QCoreApplication::sendEvent(withdraw, &held);
    opened.settle();
    CHECK(opened.lines().contains("reading outside 10 (was 9 °C)"));
    QTest::keyClick(withdraw, Qt::Key_Return);
    opened.settle();
    CHECK(opened.lines().contains("withdrawn outside air (was 10 °C)"));
}

TEST_CASE("air read before the batch stood and after it left is not in its list") {
    const NoQtWarnings quiet;
    Opened opened{withAir()};
    REQUIRE(opened.book->change(Put<Reading>{siteAir(-30, 10'000)}, "air before"));
    auto batch = *opened.book->log().batch(*opened.book->batch());
    batch.finished = Moment{afterHours(48), {}};
    REQUIRE(opened.book->change(Amend<Batch>{batch.id, batch, {}}, "finish"));
    REQUIRE(opened.book->change(Put<Reading>{siteAir(60, 20'000)}, "air after"));
    lookAtBatch(*opened.book, batch.id);
    opened.settle();
    CHECK(opened.lines().filter("outside") == QStringList{"reading outside 8", "reading outside 6.5"});
}

TEST_CASE("the question names kind, value, place and time of what would be withdrawn") {
    const NoQtWarnings quiet;
    BatchRecord record = sixtyDays();
    record.tracks = {{"core", false, {sampleAt(12, 61.5)}}};
    record.outside = {sampleAt(13, 8)};
    record.observations[0].when = {afterHours(490), {}};
    Observation note;
    note.when = {afterHours(500), {}};
    note.note = "100%1 steam";
    record.observations.push_back(note);
    Opened opened{record};
    const auto asked = [&](const QString& line) {
        const QString question = plain(opened.askToWithdraw(lineOf(opened, line)));
        QTest::keyClick(opened.screen.findChild<QLineEdit*>("withdrawWhy"), Qt::Key_Escape);
        return question.section('?', 0, 0);
    };
    CHECK(asked("reading core 61.5") == "Withdraw the reading 61.5 °C of North, core, Sun 1 Mar 2026 20:00");
    CHECK(asked("reading outside 8") == "Withdraw the reading 8 °C of North, the air outside, Sun 1 Mar 2026 21:00");
    CHECK(asked("straw 2 kg") == "Withdraw the addition “straw, 2 kg” of North, Sat 28 Mar 2026 00:00");
    CHECK(asked("watered") == "Withdraw the entry “watered” of North, Thu 5 Mar 2026 22:00");
    CHECK(asked("squeeze test: dry") == "Withdraw the entry “squeeze test: dry” of North, Sat 21 Mar 2026 18:00");
    CHECK(asked("note") == "Withdraw the note “100%1 steam” of North, Sun 22 Mar 2026 04:00");
}

TEST_CASE("the chosen line is still that entry's after it was amended, withdrawn, and each undone") {
    const NoQtWarnings quiet;
    Opened opened{withAir()};
    opened.amend(lineOf(opened, "reading core 61.5"), EntriesModel::typed, "59");
    CHECK(opened.chosen() == "reading core 59 (was 61.5 °C)");
    opened.book->undoStack().undo();
    opened.settle();
    CHECK(opened.chosen().startsWith("reading core 61.5"));
    opened.withdraw(opened.table().currentIndex().row());
    CHECK(opened.chosen() == "withdrawn core, North (was 61.5 °C)");
    opened.book->undoStack().undo();
    opened.settle();
    CHECK(opened.chosen().startsWith("reading core 61.5"));
    opened.book->undoStack().redo();
    opened.settle();
    CHECK(opened.chosen() == "withdrawn core, North (was 61.5 °C)");
}

TEST_CASE("a reading given another time is still the chosen one, in the list and in the chart") {
    const NoQtWarnings quiet;
    Opened opened{withAir()};
    opened.amend(lineOf(opened, "reading core 61.5"), EntriesModel::when, "3 March 2026 09:30");
    CHECK(opened.chosen() == "reading core 61.5");
    CHECK(opened.cell(opened.table().currentIndex().row(), EntriesModel::when) == "Tue 3 Mar 2026 09:30");
    CHECK(plain(opened.screen.spoken()).startsWith("core, Tue 3 Mar 2026 09:30: 61.5 °C"));
    opened.book->undoStack().undo();
    opened.settle();
    CHECK(opened.cell(opened.table().currentIndex().row(), EntriesModel::when) == "Sun 1 Mar 2026 20:00");
    CHECK(plain(opened.screen.spoken()).startsWith("core, Sun 1 Mar 2026 20:00: 61.5 °C"));
}

TEST_CASE("an entry that comes in before the chosen one does not move the choice to another") {
    const NoQtWarnings quiet;
    Opened opened{withAir()};
    opened.select(lineOf(opened, "reading core 61.5"), EntriesModel::typed);
    REQUIRE(opened.screen.trace().marked() == ReadingSpot{0, 1});
    Reading earlier{.place = {opened.book->bin(), "core"}, .when = {afterHours(6), {}}, .written = {550'000}};
    REQUIRE(opened.book->change(Put<Reading>{earlier}, "an earlier reading"));
    opened.settle();
    CHECK(opened.chosen() == "reading core 61.5");
    CHECK(opened.screen.trace().marked() == ReadingSpot{0, 2});
    CHECK(plain(opened.screen.spoken()).contains("61.5 °C"));
}

TEST_CASE("a choice far back in a long batch is kept when the list is filled anew") {
    const NoQtWarnings quiet;
    BatchRecord record = madeRecord();
    record.tracks.push_back(madeTrack("core", 0, 1, 1'600));
    Opened opened{record};
    while (opened.model().canFetchMore({})) {
        opened.model().fetchMore({});
    }
    opened.select(1'400, EntriesModel::typed);
    const QString chosen = opened.cell(1'400, EntriesModel::when);
    REQUIRE(opened.book->change(Put<Reading>{siteAir(1'500, 90'000)}, "air"));
    opened.settle();
    REQUIRE(opened.table().currentIndex().isValid());
    CHECK(opened.cell(opened.table().currentIndex().row(), EntriesModel::when) == chosen);
}

TEST_CASE("what is half typed over an entry survives a change made elsewhere") {
    const NoQtWarnings quiet;
    Opened opened{withAir()};
    opened.select(lineOf(opened, "reading core 61.5"), EntriesModel::typed);
    QTest::keyClick(&opened.table(), Qt::Key_Return);
    auto* value = opened.table().findChild<QLineEdit*>("amendValue");
    REQUIRE(value != nullptr);
    value->selectAll();
    QTest::keyClicks(value, "58");
    REQUIRE(opened.book->change(Put<Reading>{siteAir(30, 90'000)}, "air"));
    opened.settle();
    REQUIRE(opened.table().findChild<QLineEdit*>("amendValue") == value);
    CHECK(value->text() == "58");
    QTest::keyClick(value, Qt::Key_Return);
    opened.settle();
    CHECK(opened.chosen() == "reading core 58 (was 61.5 °C)");
    CHECK(opened.lines().contains("reading outside 9"));
}
