// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/shell/desk.h"

using namespace midden;
using midden::testing::Desk;
using midden::testing::fourthOfMarch;
using midden::testing::NoQtWarnings;

TEST_CASE("a newcomer comes from an empty book to the first reading by keyboard alone") {
    const NoQtWarnings quiet;
    Desk desk;
    desk.prompts.saveAnswer = desk.path("plot.midden");
    Desk::press(Qt::Key_N, Qt::ControlModifier);
    REQUIRE(desk.window->book() != nullptr);
    CHECK(desk.window->windowTitle().startsWith("plot.midden"));
    REQUIRE(Desk::focus() == "firstBin");
    Desk::press(Qt::Key_Return);
    REQUIRE(Desk::focus() == "startBin");
    Desk::type("North");
    Desk::press(Qt::Key_Return);
    REQUIRE(Desk::focus() == "cell_North_core");
    Desk::type("18,5");
    Desk::press(Qt::Key_Return);

    const auto bins = desk.book().log().bins();
    REQUIRE(bins.size() == 1);
    CHECK(bins[0].name == "North");
    CHECK(desk.book().log().places(bins[0].id).size() == 2);
    CHECK(desk.book().log().batches().at(0).name == "North, March 2026");
    const auto reading = desk.reading(bins[0].id, "core", fourthOfMarch);
    REQUIRE(reading);
    CHECK(reading->written == WrittenTemperature{185'000, TemperatureUnit::celsius});
    CHECK(Desk::focus() == "cell_North_side");
}

TEST_CASE("the first batch is taken back as one and given back as one") {
    const NoQtWarnings quiet;
    Desk desk;
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    Desk::press(Qt::Key_Return);
    Desk::type("North");
    Desk::press(Qt::Key_Return);
    REQUIRE(desk.book().log().batches().size() == 1);
    Desk::press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(desk.book().log().batches().empty());
    CHECK(desk.book().log().bins().empty());
    Desk::press(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
    CHECK(desk.book().log().batches().size() == 1);
    CHECK(desk.book().log().places(desk.book().log().bins().at(0).id).size() == 2);
}

TEST_CASE("a bin without a name is asked about and nothing is made") {
    const NoQtWarnings quiet;
    Desk desk;
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    Desk::press(Qt::Key_Return);
    Desk::press(Qt::Key_Return);
    CHECK(desk.words("formProblem").contains("name"));
    CHECK(desk.book().log().bins().empty());
    Desk::press(Qt::Key_Escape);
    CHECK(Desk::focus() == "firstBin");
}

TEST_CASE("a new logbook never overwrites a file that is there") {
    const NoQtWarnings quiet;
    Desk desk;
    QFile there{desk.path("letters.midden")};
    REQUIRE(there.open(QIODevice::WriteOnly));
    there.write("not a logbook");
    there.close();
    CHECK_FALSE(desk.window->startBook(there.fileName()));
    CHECK(desk.words("troubleWords").contains("letters.midden"));
    CHECK_FALSE(desk.window->openBook(there.fileName()));
    CHECK(desk.window->book() == nullptr);
    REQUIRE(there.open(QIODevice::ReadOnly));
    CHECK(there.readAll() == "not a logbook");
}

TEST_CASE("a book opens again with what was typed and stands among the recent files") {
    const NoQtWarnings quiet;
    Desk desk;
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    const BinId bin = desk.addBin("North", {"core"});
    desk.addReading(bin, "core", fourthOfMarch - hours(24), 600'000);
    desk.window->startBook(desk.path("other.midden"));
    CHECK(desk.book().log().bins().empty());
    CHECK(desk.window->openBook(desk.path("plot.midden")));
    CHECK(desk.book().log().bins().size() == 1);
    CHECK(desk.reading(bin, "core", fourthOfMarch - hours(24)));
    ui::MainWindow fresh{desk.prompts, [&] { return desk.now; }};
    CHECK(fresh.findChild<QWidget*>("welcomeRecent2") != nullptr);
}
