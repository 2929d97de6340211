// SPDX-License-Identifier: GPL-3.0-or-later
// Where the strip of a stall stands, when it is there, and how it goes.
#include <QPushButton>

#include "tests/ui/screens/busy_book.h"
#include "ui/round/reading_cell.h"
#include "ui/shared/inline_form.h"
#include "ui/stall/stall_panel.h"

using namespace midden;
using midden::testing::BusyDesk;

namespace {

BatchId batchNamed(const BusyDesk& desk, const std::string& name) {
    for (const Batch& batch : desk.book().log().batches()) {
        if (batch.name == name) {
            return batch.id;
        }
    }
    FAIL("no batch of that name");
    return {};
}

void lookAt(BusyDesk& desk, const char* bin, const char* batch) {
    desk.book().lookAt(desk.book().log().binNamed(bin)->id, batchNamed(desk, batch));
    BusyDesk::settle();
}

}  // namespace

TEST_CASE("a finished batch that ended cold asks for no remedy") {
    BusyDesk desk{{1'180, 760}};
    desk.show("history");
    auto& panel = desk.find<ui::StallPanel>("stallPanel");
    lookAt(desk, "North", "North, spring");
    CHECK_FALSE(panel.isVisible());
    lookAt(desk, "Shed", "Shed, summer");
    CHECK(panel.isVisible());
}

TEST_CASE("the stall of a finished batch can be looked at as one that is over") {
    BusyDesk desk{{1'180, 760}};
    desk.show("history");
    lookAt(desk, "North", "North, spring");
    auto& panel = desk.find<ui::StallPanel>("stallPanel");
    const auto record = desk.book().log().record(batchNamed(desk, "North, spring"));
    const auto stalls = stallsOf(record);
    REQUIRE_FALSE(stalls.empty());
    REQUIRE_FALSE(stalls.back().to);
    panel.showStall(stalls.back());
    CHECK(panel.isOpen());
    CHECK(desk.words("stallHeadline").contains("was cold from"));
    CHECK(panel.findChild<QPushButton*>("logRemedy1") == nullptr);
}

TEST_CASE("escape closes what to try from wherever the keyboard is") {
    BusyDesk desk{{1'180, 760}};
    desk.show("round");
    desk.find<ui::ReadingCell>("cell_Shed_core").setFocus();
    auto& panel = desk.find<ui::StallPanel>("stallPanel");
    panel.takeKeyboard();
    REQUIRE(panel.isVisible());
    REQUIRE(panel.isOpen());
    REQUIRE(BusyDesk::focus() == "logRemedy1");
    BusyDesk::press(Qt::Key_Escape);
    CHECK_FALSE(panel.isOpen());
    CHECK(BusyDesk::focus() == "cell_Shed_core");
    BusyDesk::press(Qt::Key_F8);
    REQUIRE(midden::testing::waitUntil([&] { return panel.isOpen(); }));  // a key presses a button for a moment
    desk.find<ui::ReadingCell>("cell_Shed_core").setFocus();
    BusyDesk::type("5");
    BusyDesk::press(Qt::Key_Escape);  // takes back what is half typed
    CHECK(panel.isOpen());
    CHECK(desk.find<ui::ReadingCell>("cell_Shed_core").text().isEmpty());
    BusyDesk::press(Qt::Key_Escape);
    CHECK_FALSE(panel.isOpen());
    CHECK(BusyDesk::focus() == "cell_Shed_core");
}

TEST_CASE("nothing in the round moves while the cursor crosses bins") {
    BusyDesk desk{{1'024, 600}};
    desk.show("round");
    auto& first = desk.find<ui::ReadingCell>("cell_Hedge_core");
    first.setFocus();
    BusyDesk::settle();
    const auto& table = desk.find<QWidget>("roundTable");
    const QWidget& viewport = *table.parentWidget()->parentWidget()->parentWidget();
    const QPoint place = table.mapTo(desk.window.get(), QPoint{});
    const int height = viewport.height();
    auto& panel = desk.find<ui::StallPanel>("stallPanel");
    REQUIRE_FALSE(panel.isVisible());
    for (const char* cell : {"cell_North_core", "cell_Shed_core", "cell_Hedge_core", "cell_Shed_core"}) {
        INFO(cell);
        desk.find<ui::ReadingCell>(cell).setFocus();
        BusyDesk::settle();
        CHECK(panel.isVisible() == (std::string{cell} == "cell_Shed_core"));
        CHECK(table.mapTo(desk.window.get(), QPoint{}) == place);
        CHECK(viewport.height() == height);
    }
}
