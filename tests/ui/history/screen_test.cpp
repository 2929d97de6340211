// SPDX-License-Identifier: GPL-3.0-or-later
#include <QAction>
#include <QComboBox>
#include <QLineEdit>
#include <QToolButton>

#include "tests/ui/history/opened_history.h"
#include "tests/ui/support/qt_support.h"
#include "ui/history/trace_view.h"
#include "ui/history/zoom.h"

using namespace midden;
using namespace midden::ui;
using namespace midden::testing;

namespace {

BatchRecord fewReadings() {
    BatchRecord record = madeRecord();
    record.tracks = {{"core", false, {sampleAt(0, 50), sampleAt(12, 61.5), sampleAt(24, 60)}}};
    return record;
}

}  // namespace

TEST_CASE("keys zoom and move the chart and Home brings the whole batch back") {
    NoQtWarnings quiet;
    Opened opened{sixtyDays()};
    TraceView& trace = opened.screen.trace();
    const Interval whole = trace.visible();
    QTest::keyClick(&trace, Qt::Key_Plus);
    CHECK(trace.visible().length() < whole.length());
    const Interval closer = trace.visible();
    QTest::keyClick(&trace, Qt::Key_Right, Qt::ShiftModifier);
    CHECK(trace.visible().from > closer.from);
    CHECK(trace.visible().length() == closer.length());
    QTest::keyClick(&trace, Qt::Key_Home);
    CHECK(trace.visible() == whole);
}

TEST_CASE("the wheel zooms about the cursor and a drag moves") {
    NoQtWarnings quiet;
    Opened opened{sixtyDays()};
    TraceView& trace = opened.screen.trace();
    const QPointF at{trace.layoutNow().plot.center()};
    const Instant under = trace.layoutNow().instantAt(at.x());
    QWheelEvent wheel{
        at, trace.viewport()->mapToGlobal(at), {}, {0, 240}, Qt::NoButton, Qt::NoModifier, Qt::NoScrollPhase, false};
    QCoreApplication::sendEvent(trace.viewport(), &wheel);
    CHECK(trace.visible().length().hours() == Approx(wholeBatch(sixtyDays()).length().hours() * 0.64).epsilon(0.01));
    CHECK(std::abs((trace.layoutNow().instantAt(at.x()) - under).count) < 3'600);
    const Interval before = trace.visible();
    QTest::mousePress(trace.viewport(), Qt::LeftButton, {}, at.toPoint());
    QTest::mouseMove(trace.viewport(), at.toPoint() - QPoint{100, 0});
    QTest::mouseRelease(trace.viewport(), Qt::LeftButton, {}, at.toPoint() - QPoint{100, 0});
    CHECK(trace.visible().from > before.from);
}

TEST_CASE("arrow keys step from reading to reading and the list follows") {
    NoQtWarnings quiet;
    Opened opened{fewReadings()};
    TraceView& trace = opened.screen.trace();
    QTest::keyClick(&trace, Qt::Key_Right);
    QTest::keyClick(&trace, Qt::Key_Right);
    CHECK(plain(opened.screen.spoken()) == "core, Sun 1 Mar 2026 20:00: 61.5 °C, +11.5 in 12 h.");
    CHECK(opened.table().currentIndex().row() == 1);
    opened.select(0, EntriesModel::typed);
    CHECK(trace.marked() == ReadingSpot{0, 2});
    CHECK(plain(opened.screen.spoken()).contains("60.0 °C"));
}

TEST_CASE("the newest entry stands first and every column says its part") {
    NoQtWarnings quiet;
    Opened opened{fewReadings()};
    REQUIRE(opened.model().rowCount() == 3);
    CHECK(opened.cell(0, EntriesModel::when) == "Mon 2 Mar 2026 08:00");
    CHECK(opened.cell(0, EntriesModel::where) == "core");
    CHECK(opened.cell(0, EntriesModel::typed) == "60");
    CHECK(opened.cell(0, EntriesModel::corrected) == "60.0");
    CHECK(opened.model().headerData(EntriesModel::typed, Qt::Horizontal, Qt::DisplayRole) == "As typed, °C");
}

TEST_CASE("a value corrected in place becomes an amendment and undo restores it") {
    NoQtWarnings quiet;
    Opened opened{fewReadings()};
    opened.select(1, EntriesModel::typed);
    QTest::keyClick(&opened.table(), Qt::Key_Return);
    auto* value = opened.table().findChild<QLineEdit*>("amendValue");
    auto* why = opened.table().findChild<QLineEdit*>("amendWhy");
    REQUIRE(value != nullptr);
    CHECK(value->text() == "61.5");
    QTest::keyClicks(value, "16,5x");
    QTest::keyClick(value, Qt::Key_Return);
    CHECK(opened.cell(1, EntriesModel::typed) == "61.5");
    value->selectAll();
    QTest::keyClicks(value, "60,5");
    QTest::keyClicks(why, "misread the dial");
    QTest::keyClick(why, Qt::Key_Return);
    opened.settle();
    CHECK(opened.cell(1, EntriesModel::typed) == "60.5");
    CHECK(opened.model().index(1, EntriesModel::typed).data(EntriesModel::wasRole) == "61.5 °C");
    const auto amendments = opened.book->log().amendments(*opened.book->batch());
    REQUIRE(amendments.size() == 1);
    CHECK(amendments[0].why == "misread the dial");
    opened.book->undoStack().undo();
    opened.settle();
    CHECK(opened.cell(1, EntriesModel::typed) == "61.5");
}

TEST_CASE("a time corrected in place moves the reading") {
    NoQtWarnings quiet;
    Opened opened{fewReadings()};
    opened.select(2, EntriesModel::when);
    QTest::keyClick(&opened.table(), Qt::Key_F2);
    auto* value = opened.table().findChild<QLineEdit*>("amendValue");
    REQUIRE(value != nullptr);
    value->selectAll();
    QTest::keyClicks(value, "1 March 2026 09:30");
    QTest::keyClick(value, Qt::Key_Return);
    opened.settle();
    const BatchRecord record = opened.book->log().record(*opened.book->batch());
    CHECK(isoUtc(record.tracks.at(0).samples.front().at) == "2026-03-01T09:30:00Z");
}

TEST_CASE("Delete asks and withdraws with its reason and the entry stays struck through") {
    NoQtWarnings quiet;
    Opened opened{fewReadings()};
    opened.select(0, EntriesModel::typed);
    QTest::keyClick(&opened.table(), Qt::Key_Delete);
    auto* why = opened.screen.findChild<QLineEdit*>("withdrawWhy");
    REQUIRE(why->isVisible());
    QTest::keyClicks(why, "wrong bin");
    QTest::keyClick(why, Qt::Key_Return);
    QTest::keyClick(opened.screen.findChild<QPushButton*>("withdraw"), Qt::Key_Return);
    opened.settle();
    REQUIRE(opened.model().rowCount() == 3);
    CHECK(opened.cell(0, EntriesModel::what) == "withdrawn");
    CHECK(opened.cell(0, EntriesModel::note) == "wrong bin");
    CHECK(opened.model().index(0, EntriesModel::typed).data(EntriesModel::wasRole) == "60 °C");
    CHECK(opened.book->log().record(*opened.book->batch()).readings == 2);
}

TEST_CASE("an entry typed more than a day after the fact says that it is late") {
    NoQtWarnings quiet;
    Opened opened{fewReadings()};
    Reading reading;
    reading.place = {opened.book->bin(), "core"};
    reading.when = {afterHours(36), {}};
    reading.written = {590'000, TemperatureUnit::celsius};
    REQUIRE(opened.book->change(Put<Reading>{reading}, "a reading"));
    opened.settle();
    CHECK(opened.cell(0, EntriesModel::when) == "Mon 2 Mar 2026 20:00, late");
    CHECK(opened.cell(1, EntriesModel::when) == "Mon 2 Mar 2026 08:00");
}

TEST_CASE("the list shows only the kinds that are asked for") {
    NoQtWarnings quiet;
    Opened opened{sixtyDays()};
    opened.model().showKind(RowKind::reading, false);
    opened.model().showKind(RowKind::outside, false);
    CHECK(opened.model().rowCount() == 10);
    opened.model().showKind(RowKind::addition, false);
    CHECK(opened.model().rowCount() == 6);
}

TEST_CASE("clicking an hour tells why it does not count and what the criterion asks is one press away") {
    NoQtWarnings quiet;
    Opened opened{sixtyDays()};
    TraceView& trace = opened.screen.trace();
    const ChartLayout layout = trace.layoutNow();
    REQUIRE(layout.strips.size() == 1);
    const QPointF hour{layout.xOf(afterHours(225)), layout.strips[0].center().y()};
    QTest::mouseClick(trace.viewport(), Qt::LeftButton, {}, hour.toPoint());
    auto* why = opened.screen.findChild<QLabel*>("why");
    REQUIRE(why->isVisible());
    CHECK(why->text().contains("not credited"));
    CHECK(why->text().contains("72 h"));
    opened.screen.findChild<QToolButton*>("criterionText")->click();
    CHECK(opened.screen.grab().size() == opened.screen.size());
}

TEST_CASE("an empty batch is one sentence and one button") {
    NoQtWarnings quiet;
    Opened opened{madeRecord()};
    auto* button = opened.screen.findChild<QWidget*>("firstReading");
    CHECK(button->isVisible());
    CHECK_FALSE(opened.screen.trace().isVisible());
}

TEST_CASE("every part of History has a name to be spoken") {
    Opened opened{sixtyDays()};
    const QStringList silent = unnamed(opened.screen);
    INFO(silent.join("; ").toStdString());
    CHECK(silent.isEmpty());
}

TEST_CASE("a long batch is shown while the list holds but a page of it") {
    NoQtWarnings quiet;
    BatchRecord record = madeRecord();
    record.tracks.push_back(madeTrack("core", 0, 1.0 / 60, 100'000));
    Opened opened{record};
    const int rows = opened.model().rowCount();
    CHECK(rows > 100);
    CHECK(rows < 2'000);
    CHECK(opened.model().canFetchMore({}));
    TraceView& trace = opened.screen.trace();
    QTest::keyClick(&trace, Qt::Key_Right);
    const auto row = opened.table().currentIndex().row();
    REQUIRE(row >= 0);
    CHECK(opened.model().spotOfRow(row) == trace.marked());
}

TEST_CASE("pictures of the screen for a person who wants to look", "[.pictures]") {
    const QString folder = qEnvironmentVariable("MIDDENBOOK_PICTURES", ".");
    for (const Palette* palette : {&Palette::light(), &Palette::dark()}) {
        QApplication::setStyle("Fusion");
        QApplication::setPalette(palette->forWidgets());
        const QString look = palette->isDark() ? "dark" : "light";
        Opened opened{sixtyDays()};
        opened.select(3, EntriesModel::typed);
        const ChartLayout layout = opened.screen.trace().layoutNow();
        const QPointF hour{layout.xOf(afterHours(225)), layout.strips[0].center().y()};
        QTest::mouseClick(opened.screen.trace().viewport(), Qt::LeftButton, {}, hour.toPoint());
        opened.screen.findChild<QToolButton*>("criterionText")->click();
        QCoreApplication::processEvents();
        opened.screen.grab().save(folder + "/history-" + look + ".png");
        QTest::keyClick(&opened.table(), Qt::Key_Return);
        QCoreApplication::processEvents();
        opened.screen.grab().save(folder + "/history-edit-" + look + ".png");
    }
    Opened{madeRecord()}.screen.grab().save(folder + "/history-empty.png");
    BatchRecord one = madeRecord();
    one.tracks = {{"core", false, {sampleAt(0, 21.5)}}};
    Opened{one}.screen.grab().save(folder + "/history-one.png");
    BatchRecord many = madeRecord();
    many.tracks.push_back(madeTrack("core", 0, 1.0 / 60, 500'000));
    many.tracks.push_back(madeTrack("side", 6, 1.0 / 60, 500'000));
    Opened opened{many};
    opened.screen.grab().save(folder + "/history-many.png");
    QElapsedTimer timer;
    timer.start();
    for (int i = 0; i < 10; ++i) {
        QTest::keyClick(&opened.screen.trace(), Qt::Key_Plus);
        opened.screen.trace().grab();
    }
    WARN("one zoom frame of a million readings: " << timer.elapsed() / 10 << " ms");
    opened.screen.grab().save(folder + "/history-many-close.png");
}
