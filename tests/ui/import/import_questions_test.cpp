// SPDX-License-Identifier: GPL-3.0-or-later
// What a file does not say is asked; what is wrong with it is said.
#include "tests/ui/import/garden.h"

using namespace midden;
using midden::testing::Desk;
using midden::testing::everyMinute;
using midden::testing::Garden;
using midden::testing::NoQtWarnings;
using midden::testing::plain;

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
    CHECK(desk.words("intakeProblem") ==
          "sheet.csv: none of it is of bin \"Hedge\", so nothing says when batch \"Spring\" began. Expected: the bin "
          "that "
          "the file names, or a file without a column \"bin\". Nothing was written.");
    CHECK_FALSE(desk.find<QLineEdit>("intakeZone").isVisible());
}

TEST_CASE("Back leads to the questions again with the answers that were given") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.choose("last year.csv", "time,temperature\n2025-03-01 08:00,50\n");
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

TEST_CASE("a batch that would leave its bin is told of before it does, and Enter keeps it") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.addBin("North", {"core"});
    const std::string sheet = "time,temperature\n" + isoUtc(desk.now - days(2)) + ",61\n";
    const auto choose = [&] {
        desk.choose("sheet.csv", sheet);
        auto& batches = desk.find<QComboBox>("intakeBatch");
        batches.setCurrentIndex(batches.count() - 1);
        auto& name = desk.find<QLineEdit>("intakeNewBatch");
        REQUIRE(name.isVisible());
        name.setText("Summer");
        desk.find<QComboBox>("intakeBin").setCurrentText("North");
        name.setFocus();
        desk.readThrough();
    };
    choose();
    CHECK(
        desk.lines().contains("Leaves its bin: Batch \"North batch\" leaves bin \"North\" to batch \"Summer\": it "
                              "counts as finished on 2 March 2026 08:10."));
    CHECK(Desk::focus() == "intakeClose");
    Desk::press(Qt::Key_Return);
    CHECK_FALSE(desk.isOpen());
    CHECK_FALSE(desk.book().log().batchNamed("Summer"));
    choose();
    desk.button("intakeGo").setFocus();
    desk.bringIn();
    CHECK(desk.count("Summer") == 1);
}

TEST_CASE("raw material that would start a hold again is told of before it comes, and Enter keeps the hold") {
    const NoQtWarnings quiet;
    Garden desk;
    const BinId north = desk.addBin("North", {"core"});
    for (int hoursAgo = 60; hoursAgo >= 0; hoursAgo -= 12) {
        desk.addReading(north, "core", desk.now - hours(hoursAgo), 620'000);
    }
    Desk::settle();
    midden::testing::waitForBackgroundWork();
    const std::string time = isoUtc(desk.now - hours(1));
    desk.choose("buckets.csv", "time,material,mass_kg\n" + time + ",vegetable scraps,5\n");
    desk.readThrough();
    CHECK(
        desk.lines().contains("The hold: There is raw material in it. 60 of 72 h at 55.0 °C would start again at 0."));
    CHECK(Desk::focus() == "intakeClose");
    Desk::press(Qt::Key_Return);
    CHECK_FALSE(desk.isOpen());
    const auto additions = [&] { return desk.book().log().additions(desk.book().log().batchNamed("North batch")->id); };
    CHECK(additions().empty());
    desk.choose("buckets.csv", "time,material,mass_kg\n" + time + ",vegetable scraps,5\n");
    desk.readThrough();
    desk.button("intakeGo").setFocus();
    desk.bringIn();
    CHECK(additions().size() == 1);
}

TEST_CASE("dry material and a key held down since before bring in nothing by surprise") {
    const NoQtWarnings quiet;
    Garden desk;
    desk.addBin("North", {"core"});
    desk.choose("buckets.csv", "time,material,mass_kg\n" + isoUtc(desk.now - hours(1)) + ",Straw,5\n");
    desk.readThrough();
    CHECK_FALSE(desk.lines().contains("The hold"));
    CHECK(Desk::focus() == "intakeGo");
    QKeyEvent held{QEvent::KeyPress, Qt::Key_Return, Qt::NoModifier, {}, true};
    QCoreApplication::sendEvent(QApplication::focusWidget(), &held);
    Desk::settle();
    CHECK(desk.button("intakeGo").isVisible());
    CHECK(desk.book().log().additions(desk.book().log().batchNamed("North batch")->id).empty());
}
