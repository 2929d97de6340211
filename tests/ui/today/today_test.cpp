// SPDX-License-Identifier: GPL-3.0-or-later
#include <QListView>

#include "tests/ui/shell/desk.h"
#include "ui/stall/stall_panel.h"
#include "ui/today/task_model.h"

using namespace midden;
using midden::testing::Desk;
using midden::testing::fourthOfMarch;
using midden::testing::NoQtWarnings;
using midden::testing::plain;

namespace {

/// A book on disk with invented bins, each read once a day at the core, last at `lastRead`.
struct MadeBin {
    std::string name;
    std::vector<int> temperatures;
};

void makeBook(const QString& path, const std::vector<MadeBin>& bins, Instant lastRead) {
    Logbook book = Logbook::open(path.toStdString(), Logbook::Mode::createIfAbsent);
    book.setSetting(setting::zone, "Europe/London");
    for (const MadeBin& made : bins) {
        const BinId bin = std::get<BinId>(book.apply(Put<Bin>{{.name = made.name}}).id);
        book.apply(Put<PlaceSetting>{{.place = {bin, "core"}}});
        const Instant start = lastRead - days(static_cast<std::int64_t>(made.temperatures.size()));
        book.apply(Put<Batch>{{.name = made.name + " batch", .started = {start, {}}, .stays = {{start, bin}}}});
        std::int64_t day = static_cast<std::int64_t>(made.temperatures.size());
        for (const int temperature : made.temperatures) {
            --day;
            book.apply(Put<Reading>{
                {.place = {bin, "core"}, .when = {lastRead - days(day), {}}, .written = {temperature * 10'000}}});
        }
    }
}

struct Opened : Desk {
    explicit Opened(const std::vector<MadeBin>& bins, Instant lastRead = fourthOfMarch - days(1)) {
        makeBook(path("plot.midden"), bins, lastRead);
        REQUIRE(window->openBook(path("plot.midden")));
        settle();
    }
    QListView& list() const { return find<QListView>("tasks"); }
    QString said(int row, int role) const { return plain(list().model()->index(row, 0).data(role).toString()); }
};

}  // namespace

TEST_CASE("a book with bins opens with what needs doing and a new one with its first bin") {
    const NoQtWarnings quiet;
    Opened opened{{{"North", {30, 58, 60}}}};
    CHECK(opened.window->workspace()->screen() == "today");
    CHECK(Desk::focus() == "tasks");
    Desk fresh;
    fresh.window->startBook(fresh.path("new.midden"));
    Desk::settle();
    CHECK(fresh.window->workspace()->screen() == "round");
}

TEST_CASE("tasks are ranked over all bins and say what until when and why") {
    const NoQtWarnings quiet;
    Opened opened{{{"North", {30, 58, 60}}, {"Shed", {20, 58, 60, 44, 38, 33}}, {"Hedge", {58, 71}}}};
    REQUIRE(opened.list().model()->rowCount() >= 4);
    CHECK(opened.said(0, Qt::DisplayRole) == "Hedge");
    CHECK(opened.said(0, ui::TaskModel::whatRole) == "Open it up, it is too hot");
    CHECK(opened.said(0, ui::TaskModel::untilRole) == "now");
    CHECK(opened.said(0, ui::TaskModel::whyRole).startsWith("71.0 °C at its warmest 24 h ago."));
    bool isStallThere = false;
    for (int row = 0; row < opened.list().model()->rowCount(); ++row) {
        isStallThere = isStallThere || opened.said(row, ui::TaskModel::whatRole) == "It has stalled, try a remedy";
    }
    CHECK(isStallThere);
    CHECK(opened.words("todayHeading").endsWith("things to do today"));
}

TEST_CASE("enter on a reading goes to its cell in the Round") {
    const NoQtWarnings quiet;
    Opened opened{{{"North", {30, 40, 42}}, {"Shed", {30, 40, 42}}}};
    Desk::press(Qt::Key_Down);
    CHECK(opened.said(1, Qt::DisplayRole) == "Shed");
    Desk::press(Qt::Key_Return);
    CHECK(opened.window->workspace()->screen() == "round");
    CHECK(Desk::focus() == "cell_Shed_core");
    Desk::type("44");
    Desk::press(Qt::Key_Return);
    Desk::press(Qt::Key_T, Qt::ControlModifier);
    CHECK(opened.window->workspace()->screen() == "today");
    REQUIRE(opened.list().model()->rowCount() == 1);
    CHECK(opened.said(0, Qt::DisplayRole) == "North");
}

TEST_CASE("enter on a stall opens its panel with the cursor on the first remedy") {
    const NoQtWarnings quiet;
    Opened opened{{{"North", {30, 58, 60}}, {"Shed", {20, 58, 60, 44, 38, 33}}}};
    for (int row = 0; row < opened.list().model()->rowCount(); ++row) {
        if (opened.said(row, ui::TaskModel::whatRole).startsWith("It has stalled")) {
            opened.list().setCurrentIndex(opened.list().model()->index(row, 0));
        }
    }
    Desk::press(Qt::Key_Return);
    CHECK(opened.find<ui::StallPanel>("stallPanel").isOpen());
    CHECK(Desk::focus() == "logRemedy1");
    CHECK(opened.words("stallHeadline").startsWith("Shed"));
}

TEST_CASE("enter on a reached hold goes to its certificate") {
    const NoQtWarnings quiet;
    Opened opened{{{"North", {58, 60, 60, 60, 60}}}, fourthOfMarch - hours(1)};
    REQUIRE(opened.list().model()->rowCount() == 1);
    CHECK(opened.said(0, ui::TaskModel::whatRole) == "Its certificate can be issued");
    Desk::press(Qt::Key_Return);
    CHECK(opened.window->workspace()->screen() == "certificate");
}

TEST_CASE("with nothing due one sentence says so") {
    const NoQtWarnings quiet;
    Opened opened{{{"North", {30, 40}}}, fourthOfMarch - hours(1)};
    CHECK(opened.words("todayNothing") == "Nothing needs doing today.");
    CHECK_FALSE(opened.list().isVisible());
}
