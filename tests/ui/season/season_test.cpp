// SPDX-License-Identifier: GPL-3.0-or-later
#include <QAbstractItemModel>
#include <QLabel>
#include <QPushButton>
#include <QSignalSpy>
#include <QTableView>
#include <QTest>

#include "tests/ui/support/made_batch.h"
#include "tests/ui/support/made_book.h"
#include "tests/ui/support/qt_support.h"
#include "ui/season/season_screen.h"
#include "ui/season/time_line.h"
#include "ui/shared/palette.h"

using namespace midden;
using namespace midden::ui;
using namespace midden::testing;

namespace {

/// The screen of a made book, shown and loaded.
struct Opened {
    explicit Opened(const BatchRecord& record) : book{record, afterHours(24 * 70)}, screen{*book} {
        screen.resize(1'300, 700);
        screen.show();
        screen.activateWindow();
        REQUIRE(QTest::qWaitForWindowActive(&screen, aMinute));
        settle();
    }
    void settle() {
        REQUIRE(waitUntil([&] { return !screen.isLoading(); }));
        QCoreApplication::processEvents();
    }
    QTableView& table(const char* name) { return *screen.findChild<QTableView*>(QLatin1String{name}); }
    QString cell(const char* name, int row, int column) {
        return table(name).model()->index(row, column).data().toString();
    }

    MadeBook book;
    SeasonScreen screen;
};

SeasonScale yearsFrom2026(int years) {
    return {{instantOf({.year = 2026, .month = 3, .day = 4}, {}), instantOf({.year = 2026 + years, .month = 3}, {})},
            TimeZone::utc()};
}

QStringList labels(const std::vector<MonthMark>& marks) {
    QStringList all;
    for (const auto& mark : marks) {
        all << mark.label;
    }
    return all;
}

}  // namespace

TEST_CASE("months stand over the time line and give way to quarters and years when there is no room") {
    QLocale::setDefault(QLocale::C);
    CHECK(labels(monthMarks(yearsFrom2026(1), 12)).join(' ') == "Apr May Jun Jul Aug Sep Oct Nov Dec Jan 2027 Feb Mar");
    CHECK(labels(monthMarks(yearsFrom2026(1), 5)).join(' ') == "Apr Jul Oct Jan 2027");
    CHECK(labels(monthMarks(yearsFrom2026(5), 6)).join(", ") == "Jan 2027, Jan 2028, Jan 2029, Jan 2030, Jan 2031");
    for (const int most : {1, 2, 3, 7, 30}) {
        CHECK(monthMarks(yearsFrom2026(10), most).size() <= static_cast<std::size_t>(most));
    }
    CHECK(monthMarks(yearsFrom2026(1), 12).front().at == instantOf({.year = 2026, .month = 4}, {}));
}

TEST_CASE("a place on the time line is its share of the span") {
    const SeasonScale scale{{{1'000}, {3'000}}, TimeZone::utc()};
    CHECK(scale.shareAt({1'000}) == 0);
    CHECK(scale.shareAt({1'500}) == 0.25);
    CHECK(scale.shareAt({3'000}) == 1);
}

TEST_CASE("the season lists every batch with its figures and sums up the bins") {
    const NoQtWarnings quiet;
    Opened opened{madeRecord()};
    auto* batches = opened.table("seasonBatches").model();
    REQUIRE(batches->rowCount() == 1);
    CHECK(opened.cell("seasonBatches", 0, 0) == QString::fromStdString(madeRecord().batch.name));
    CHECK(batches->headerData(5, Qt::Horizontal).toString() == "Hold, h");
    REQUIRE(opened.table("seasonBins").model()->rowCount() == 2);
    CHECK(opened.cell("seasonBins", 1, 0) == "All bins");
    CHECK(opened.cell("seasonBins", 1, 1) == "1");
    CHECK(opened.cell("seasonBins", 0, 4) == opened.cell("seasonBatches", 0, 5));
}

TEST_CASE("the bar of a batch is filled where its hold is credited and nowhere else whether its row is chosen or not") {
    BatchRecord record = madeRecord();
    record.tracks = {{"core", false, {}}};
    for (int day = 0; day < 20; ++day) {
        record.tracks.front().samples.push_back(sampleAt(24 * day, day >= 10 && day <= 15 ? 62 : 30));
    }
    Opened opened{record};
    QTableView& table = opened.table("seasonBatches");
    const QRect cell = table.visualRect(table.model()->index(0, 2));
    const bool chosen = GENERATE(false, true);
    if (chosen) {
        REQUIRE(table.selectionModel()->isRowSelected(0));
    } else {
        table.clearSelection();
    }
    const QImage shown = table.viewport()->grab().toImage();
    const QColor filling = chosen ? Palette::of(table).onAccent : Palette::of(table).accent;
    const auto filledAt = [&](double day) {
        const double x = cell.left() + 8 + day / 19 * (cell.width() - 16);
        return shown.pixelColor(static_cast<int>(x), cell.center().y()) == filling;
    };
    CHECK_FALSE(filledAt(5));
    CHECK(filledAt(12));
    CHECK_FALSE(filledAt(17));
}

TEST_CASE("Enter on a batch asks for its history") {
    Opened opened{madeRecord()};
    opened.book->lookAt({}, {});
    QSignalSpy wanted{&opened.screen, &SeasonScreen::historyWanted};
    opened.screen.setFocus();
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
    CHECK(wanted.count() == 1);
    CHECK(opened.book->batch() == opened.book->log().batches().front().id);
}

TEST_CASE("a batch that comes while the season is shown is on it") {
    Opened opened{madeRecord()};
    Batch another{.name = "Another", .started = {afterHours(24 * 65), {}}};
    another.stays = {{another.started.at, opened.book->log().bins().front().id}};
    REQUIRE(opened.book->change(Put<Batch>{another}, "a batch"));
    opened.settle();
    REQUIRE(opened.table("seasonBatches").model()->rowCount() == 2);
    CHECK(opened.cell("seasonBatches", 1, 0) == "Another");
    CHECK(opened.cell("seasonBatches", 1, 3) == "not read yet");
}

TEST_CASE("a season without a batch is one sentence and one button") {
    ui::Book book{Logbook::inMemory(), TimeZone::utc(), [] { return afterHours(0); }};
    SeasonScreen screen{book};
    screen.show();
    REQUIRE(QTest::qWaitForWindowExposed(&screen, aMinute));
    QSignalSpy wanted{&screen, &SeasonScreen::roundWanted};
    auto* button = screen.findChild<QPushButton*>("seasonToRound");
    CHECK(button->isVisible());
    CHECK_FALSE(screen.findChild<QTableView*>("seasonBatches")->isVisible());
    screen.setFocus();
    QTest::keyClick(button, Qt::Key_Space);
    CHECK(wanted.count() == 1);
}

TEST_CASE("a fed batch is called fed, and no hold is told of it") {
    BatchRecord record = sixtyDays();
    record.batch.fed = true;
    Opened opened{record};
    CHECK(opened.cell("seasonBatches", 0, 3) == "fed");
    CHECK(opened.cell("seasonBatches", 0, 5) == "–");
}
