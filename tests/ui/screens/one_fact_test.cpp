// SPDX-License-Identifier: GPL-3.0-or-later
// One fact is said once: what two parts of the window say of a bin, a hold or what was saved is the same.
#include <QListView>

#include "tests/ui/screens/busy_book.h"
#include "ui/history/hours_left.h"
#include "ui/round/reading_cell.h"
#include "ui/shared/bin_summary.h"
#include "ui/shell/card_model.h"
#include "ui/stall/stall_plan.h"

using namespace midden;
using midden::testing::Desk;
using midden::testing::fourthOfMarch;
using midden::testing::plain;

namespace {

struct Plot : Desk {
    Plot() {
        window->startBook(path(QStringLiteral("plot.midden")));
        settle();
        bin = addBin("North", {"core"});
    }
    /// Once a day, the last one `age` ago.
    void read(std::initializer_list<int> tenths, Seconds age) {
        auto day = static_cast<std::int64_t>(tenths.size());
        for (const int value : tenths) {
            addReading(bin, "core", now - age - days(--day), value * 1'000);
        }
        settle();
    }
    void round() {
        window->workspace()->showScreen(QStringLiteral("round"));
        settle();
    }
    QString card(int role) const {
        return plain(find<QListView>("binCards").model()->index(0, 0).data(role).toString());
    }
    QString dues() const {
        const QVariant all = find<QListView>("binCards").model()->index(0, 0).data(ui::CardModel::dueRole);
        return plain(all.toStringList().join(QStringLiteral("; ")));
    }
    ui::ReadingCell* cell() const { return window->findChild<ui::ReadingCell*>("cell_North_core"); }
    Batch batch() const { return book().log().batches().front(); }
    void finish(Instant at) {
        Batch finished = batch();
        finished.finished = Moment{at, {}};
        book().change(Amend<Batch>{finished.id, finished, {}}, QStringLiteral("finished"));
        settle();
    }

    BinId bin{};
};

}  // namespace

TEST_CASE("a hold that broke unread is promised nowhere and what can be done is said") {
    Plot plot;
    plot.read({580, 600, 600}, hours(37));
    plot.round();
    CHECK(plot.card(ui::CardModel::creditRole) == "hold broke with 48 of 72 h");
    CHECK(plot.dues().contains("it broke at 07:10 today; type in any missed round"));
    CHECK_FALSE(plot.dues().contains("completes"));
    CHECK(plain(plot.words("meaning_North_core")) == "hold broke with 48 of 72 h");
    plot.addReading(plot.bin, "core", plot.now - hours(13), 600'000);
    Desk::settle();
    CHECK(plot.card(ui::CardModel::creditRole) == "72 h at 55.0 °C shown");
}

TEST_CASE("a hold that breaks while the window is open is said to have broken") {
    Plot plot;
    plot.read({580, 600, 600}, hours(35));
    CHECK(plot.card(ui::CardModel::creditRole) == "48 of 72 h credited");
    plot.now = plot.now + hours(2);
    static_cast<ui::CardModel*>(plot.find<QListView>("binCards").model())->refreshClock();
    CHECK(plot.card(ui::CardModel::creditRole) == "hold broke with 48 of 72 h");
    CHECK_FALSE(plot.dues().contains("completes"));
}

TEST_CASE("the hold as read is named where the certificate would name it") {
    Plot plot;
    plot.read({558, 600, 600, 558, 400}, hours(1));
    CHECK(plot.card(ui::CardModel::creditRole) == "longest hold 24 of 72 h, 72 h as read");
}

TEST_CASE("what is missing is rounded alike on the card and on the strip of the stall") {
    Stall stall;
    for (const double hours : {24.0, 24.0000001, 23.5, 0.1}) {
        stall.hoursShort = hours;
        const QString words = ui::words::shortBy(stall);
        BatchRecord record;
        record.binName = "North";
        CHECK(ui::stallPlanOf(record, stall, TimeZone::utc(), Moment{fourthOfMarch, {}}).headline.contains(words));
    }
    stall.hoursShort = 23.5;
    CHECK(plain(ui::words::shortBy(stall)) == "24 h short");
}

TEST_CASE("a bin whose batch was finished within the round's hour is empty on its card and in the round") {
    Plot plot;
    plot.addReading(plot.bin, "core", plot.now - minutes(20), 300'000);
    plot.round();
    REQUIRE(plot.cell() != nullptr);
    plot.finish(plot.now - minutes(5));
    CHECK(plot.card(ui::CardModel::phaseRole) == "empty");
    CHECK(plot.cell() == nullptr);
    CHECK(plot.find<QWidget>("start_North").isVisible());
}

TEST_CASE("a batch that came within the round's hour takes no reading of the one before it") {
    Plot plot;
    plot.addReading(plot.bin, "core", plot.now - minutes(20), 300'000);
    plot.finish(plot.now - minutes(5));
    const Instant arrival = plot.now - minutes(4);
    plot.book().change(Put<Batch>{{.name = "Next", .started = {arrival, {}}, .stays = {{arrival, plot.bin}}}},
                       QStringLiteral("next"));
    plot.round();
    REQUIRE(plot.cell() != nullptr);
    CHECK(plot.cell()->text().isEmpty());
    plot.cell()->setFocus();
    Desk::type("21.5");
    Desk::press(Qt::Key_Return);
    CHECK(plain(plot.words("status")) == "Saved: North, core 21.5 °C");
    const auto next = plot.book().log().occupant(plot.bin, plot.now);
    REQUIRE(next);
    const auto readings = plot.book().log().readings(*next, {plot.now - days(1), plot.now}, false, 9);
    REQUIRE(readings.size() == 1);
    CHECK(readings[0].when.at >= arrival);
    CHECK(readings[0].written.tenThousandths == 215'000);
}

TEST_CASE("what is not saved is not called saved") {
    Plot plot;
    plot.round();
    CHECK_FALSE(plot.words("status").startsWith("Every entry"));
    plot.cell()->setFocus();
    Desk::type("warm");
    Desk::press(Qt::Key_Return);
    CHECK(plot.words("status").startsWith("1 thing you typed is not saved."));
    CHECK(plot.words("roundSummary") == "0 of 1 read. 1 number is not saved.");
    plot.cell()->setFocus();
    plot.cell()->selectAll();
    Desk::type("58.5");
    Desk::press(Qt::Key_Return);
    Desk::settle();
    CHECK(plot.words("status").startsWith("Saved: North, core"));
    CHECK(plot.words("roundSummary") == "Round complete: 1 reading, saved.");
}
