// SPDX-License-Identifier: GPL-3.0-or-later
#include <QComboBox>
#include <algorithm>

#include "core/store/read/book_rules.h"
#include "tests/ui/shell/desk.h"

using namespace midden;
using midden::testing::Desk;
using midden::testing::NoQtWarnings;
using midden::testing::waitUntil;

namespace {

BatchRecord recordOf(const Desk& desk) {
    return desk.book().log().record(desk.book().log().batches().front().id);
}

}  // namespace

TEST_CASE("curing and its tests are written down by keys with their dates") {
    const NoQtWarnings quiet;
    Desk desk;
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    desk.addBin("North", {"core"});
    desk.find("cell_North_core").setFocus();
    Desk::press(Qt::Key_C, Qt::AltModifier);
    REQUIRE(waitUntil([] { return Desk::focus() == "ripeningWhat"; }));
    Desk::press(Qt::Key_Tab);
    Desk::press(Qt::Key_Return);
    auto record = recordOf(desk);
    REQUIRE(record.observations.size() == 1);
    CHECK(record.observations[0].kind == ObservationKind::curing);
    CHECK(record.observations[0].when.at == desk.now);
    desk.find("cell_North_core").setFocus();
    Desk::press(Qt::Key_C, Qt::AltModifier);
    REQUIRE(waitUntil([] { return Desk::focus() == "ripeningWhat"; }));
    Desk::press(Qt::Key_Down);
    CHECK(desk.find<QComboBox>("ripeningWhat").currentText() == "self-heating test");
    Desk::press(Qt::Key_Tab);
    Desk::press(Qt::Key_Return);
    CHECK(recordOf(desk).observations.size() == 1);
    Desk::press(Qt::Key_Tab);
    Desk::type("27 °C at most, room 20 °C");
    Desk::press(Qt::Key_Return);
    record = recordOf(desk);
    REQUIRE(record.observations.size() == 2);
    // Entries of one instant come in no particular order.
    const auto& seen = record.observations;
    const auto test = std::find_if(seen.begin(), seen.end(),
                                   [](const Observation& one) { return one.kind == ObservationKind::selfHeating; });
    REQUIRE(test != seen.end());
    CHECK(test->value == "27 °C at most, room 20 °C");
}

TEST_CASE("the border between warm and hot is set in Setup and the cards follow it") {
    const NoQtWarnings quiet;
    Desk desk;
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    const BinId north = desk.addBin("North", {"core"});
    desk.addReading(north, "core", desk.now - hours(1), 420'000);
    Desk::press(Qt::Key_6, Qt::ControlModifier);
    auto& hot = desk.find<QLineEdit>("setting_hot_celsius");
    CHECK(hot.text() == "45");
    hot.setFocus();
    hot.selectAll();
    Desk::type("40");
    Desk::press(Qt::Key_Return);
    CHECK(outlookSettingsOf(desk.book().log()).stalls.hot == Celsius::ofTenThousandths(400'000));
    hot.selectAll();
    Desk::type("4000");
    Desk::press(Qt::Key_Return);
    CHECK(outlookSettingsOf(desk.book().log()).stalls.hot == Celsius::ofTenThousandths(400'000));
}
