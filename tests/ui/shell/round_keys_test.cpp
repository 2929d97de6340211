// SPDX-License-Identifier: GPL-3.0-or-later
// The Round through real key events.
#include <QComboBox>

#include "tests/ui/shell/desk.h"

using namespace midden;
using midden::testing::Desk;
using midden::testing::fourthOfMarch;
using midden::testing::NoQtWarnings;
using midden::testing::waitUntil;

namespace {

/// Two bins, read yesterday.
struct RoundDesk : Desk {
    RoundDesk() {
        window->startBook(path("plot.midden"));
        settle();
        north = addBin("North", {"core", "side"});
        shed = addBin("Shed", {"core"});
        addReading(north, "core", now - hours(23), 610'000);
        addReading(north, "side", now - hours(23), 565'000);
        addReading(shed, "core", now - hours(23), 410'000);
        find<QLineEdit>("cell_North_core").setFocus();
        settle();
    }
    BinId north{};
    BinId shed{};
};

}  // namespace

TEST_CASE("a whole round is typed without the mouse") {
    const NoQtWarnings quiet;
    RoundDesk desk;
    Desk::type("63.5");
    Desk::press(Qt::Key_Return);
    CHECK(Desk::focus() == "cell_North_side");
    Desk::type("57");
    Desk::press(Qt::Key_Return);
    CHECK(Desk::focus() == "cell_Shed_core");
    Desk::type("40.5");
    Desk::press(Qt::Key_Return);
    CHECK(desk.reading(desk.north, "core", fourthOfMarch)->written.tenThousandths == 635'000);
    CHECK(desk.reading(desk.north, "side", fourthOfMarch)->written.tenThousandths == 570'000);
    CHECK(desk.reading(desk.shed, "core", fourthOfMarch)->written.tenThousandths == 405'000);
    CHECK(desk.words("roundSummary").startsWith("Round complete: 3 readings"));
}

TEST_CASE("a thermometer chosen goes with the readings and as before keeps to each place's own") {
    const NoQtWarnings quiet;
    RoundDesk desk;
    desk.book().change(Put<Probe>{{.name = "Dial"}}, QStringLiteral("a thermometer"));
    desk.book().change(Put<Probe>{{.name = "Spike"}}, QStringLiteral("another"));
    Desk::settle();
    auto& chooser = desk.find<QComboBox>("roundProbe");
    chooser.setFocus();
    Desk::press(Qt::Key_S);
    desk.find<QLineEdit>("cell_North_core").setFocus();
    Desk::type("63.5");
    Desk::press(Qt::Key_Return);
    const auto spike = desk.book().log().probeNamed("Spike")->id;
    CHECK(desk.reading(desk.north, "core", fourthOfMarch)->probe == spike);

    chooser.setFocus();
    Desk::press(Qt::Key_Home);  // as before
    desk.find<QLineEdit>("cell_North_side").setFocus();
    Desk::type("58");
    Desk::press(Qt::Key_Return);
    CHECK_FALSE(desk.reading(desk.north, "side", fourthOfMarch)->probe);
}

TEST_CASE("a reading typed more than a day late says so in the round") {
    const NoQtWarnings quiet;
    RoundDesk desk;
    const auto put = [&](const std::string& position, Instant at, Instant entered) {
        Reading reading{.place = {desk.north, position}, .when = {at, {}}, .written = {550'000}};
        reading.provenance.entered = entered;
        desk.book().change(Put<Reading>{reading}, QStringLiteral("a reading"));
    };
    put("core", fourthOfMarch - hours(20), fourthOfMarch + hours(5));
    put("side", fourthOfMarch - hours(20), fourthOfMarch - hours(19));
    Desk::settle();
    QStringList ages;
    for (const QLabel* label : desk.find("roundTable").findChildren<QLabel*>()) {
        if (label->text().contains("20 h ago")) {
            ages << label->text();
        }
    }
    CHECK(ages == QStringList{"20 h ago, typed late", "20 h ago"});
}

TEST_CASE("a number is saved when the cursor leaves the cell by any way") {
    const NoQtWarnings quiet;
    RoundDesk desk;
    Desk::type("63.5");
    Desk::press(Qt::Key_Down);
    CHECK(Desk::focus() == "cell_North_side");
    CHECK(desk.reading(desk.north, "core", fourthOfMarch));
    Desk::type("57.5");
    Desk::press(Qt::Key_Tab);
    CHECK(desk.reading(desk.north, "side", fourthOfMarch));
    Desk::type("40");
    Desk::press(Qt::Key_Up);
    CHECK(Desk::focus() == "cell_North_side");
    CHECK(desk.reading(desk.shed, "core", fourthOfMarch));
}

TEST_CASE("both decimal marks and both units are taken as written") {
    const NoQtWarnings quiet;
    const auto [typed, parts, unit] =
        GENERATE(table<const char*, int, TemperatureUnit>({{"58.5", 585'000, TemperatureUnit::celsius},
                                                           {"58,5", 585'000, TemperatureUnit::celsius},
                                                           {"137f", 1'370'000, TemperatureUnit::fahrenheit},
                                                           {"137 F", 1'370'000, TemperatureUnit::fahrenheit}}));
    RoundDesk desk;
    Desk::type(typed);
    Desk::press(Qt::Key_Return);
    CHECK(desk.reading(desk.north, "core", fourthOfMarch)->written == WrittenTemperature{parts, unit});
}

TEST_CASE("a number in degrees Fahrenheit keeps its unit in a column of degrees Celsius") {
    const NoQtWarnings quiet;
    RoundDesk desk;
    Desk::type(QString::fromUtf8("137 °F"));
    Desk::press(Qt::Key_Return);
    CHECK(desk.find<QLineEdit>("cell_North_core").text() == QString::fromUtf8("137\u00a0°F"));
}

TEST_CASE("an impossible number is questioned beside the cell and not saved") {
    const NoQtWarnings quiet;
    RoundDesk desk;
    const QString typed = GENERATE("500", "abc", "1e3", "5.8.5", "nan", "58.12345");
    Desk::type(typed);
    Desk::press(Qt::Key_Return);
    CHECK(Desk::focus() == "cell_North_side");
    CHECK_FALSE(desk.reading(desk.north, "core", fourthOfMarch));
    CHECK(desk.words("meaning_North_core").startsWith("Not saved"));
    CHECK(desk.find<QLineEdit>("cell_North_core").text() == typed);
    Desk::press(Qt::Key_F2);
    CHECK(Desk::focus() == "cell_North_core");
    Desk::type("58.5");
    Desk::press(Qt::Key_Return);
    CHECK(desk.reading(desk.north, "core", fourthOfMarch));
    CHECK_FALSE(desk.words("meaning_North_core").contains("Not saved"));
}

TEST_CASE("an unlikely number is saved and questioned") {
    const NoQtWarnings quiet;
    RoundDesk desk;
    Desk::type("16.5");
    Desk::press(Qt::Key_Return);
    CHECK(Desk::focus() == "cell_North_side");
    CHECK(desk.reading(desk.north, "core", fourthOfMarch)->written.tenThousandths == 165'000);
    CHECK(desk.words("meaning_North_core").contains("colder than last time"));
    Desk::press(Qt::Key_F2);
    Desk::type("61.5");
    Desk::press(Qt::Key_Return);
    CHECK_FALSE(desk.words("meaning_North_core").contains("colder"));
    CHECK(desk.reading(desk.north, "core", fourthOfMarch)->written.tenThousandths == 615'000);
}

TEST_CASE("retyping a cell of the same round amends it and keeps the old value") {
    const NoQtWarnings quiet;
    RoundDesk desk;
    Desk::type("63.5");
    Desk::press(Qt::Key_Return);
    desk.now = desk.now + minutes(20);
    Desk::press(Qt::Key_Up);
    Desk::type("62.5");
    Desk::press(Qt::Key_Return);
    CHECK(desk.reading(desk.north, "core", fourthOfMarch)->written.tenThousandths == 625'000);
    const auto batch = desk.book().log().occupant(desk.north, desk.now);
    REQUIRE(batch);
    const auto amendments = desk.book().log().amendments(*batch);
    REQUIRE(amendments.size() == 1);
    CHECK(amendments[0].was.find("63.5") != std::string::npos);
}

TEST_CASE("undo and redo follow what was typed") {
    const NoQtWarnings quiet;
    RoundDesk desk;
    Desk::type("63.5");
    Desk::press(Qt::Key_Return);
    Desk::press(Qt::Key_Z, Qt::ControlModifier);
    CHECK_FALSE(desk.reading(desk.north, "core", fourthOfMarch));
    CHECK(desk.find<QLineEdit>("cell_North_core").text().isEmpty());
    Desk::press(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
    CHECK(desk.reading(desk.north, "core", fourthOfMarch));
    CHECK(desk.find<QLineEdit>("cell_North_core").text() == "63.5");
}

TEST_CASE("escape gives back what stood in the cell") {
    const NoQtWarnings quiet;
    RoundDesk desk;
    Desk::type("63.5");
    Desk::press(Qt::Key_Return);
    Desk::press(Qt::Key_Up);
    Desk::type("99");
    Desk::press(Qt::Key_Escape);
    CHECK(desk.find<QLineEdit>("cell_North_core").text() == "63.5");
    Desk::press(Qt::Key_Return);
    CHECK(desk.reading(desk.north, "core", fourthOfMarch)->written.tenThousandths == 635'000);
}

TEST_CASE("an emptied cell takes its reading back") {
    const NoQtWarnings quiet;
    RoundDesk desk;
    Desk::type("63.5");
    Desk::press(Qt::Key_Return);
    Desk::press(Qt::Key_Up);
    Desk::press(Qt::Key_Delete);
    Desk::press(Qt::Key_Return);
    CHECK_FALSE(desk.reading(desk.north, "core", fourthOfMarch));
}

TEST_CASE("a round of the past is typed under its own time") {
    const NoQtWarnings quiet;
    RoundDesk desk;
    desk.find<QLineEdit>("roundTime").setFocus();
    desk.find<QLineEdit>("roundTime").selectAll();
    Desk::type("1 March 2026 18:30");
    Desk::press(Qt::Key_Tab);
    desk.find<QLineEdit>("cell_North_core").setFocus();
    Desk::type("48");
    Desk::press(Qt::Key_Return);
    const Instant then{1'772'389'800};  // 2026-03-01T18:30:00Z
    CHECK(desk.reading(desk.north, "core", then)->written.tenThousandths == 480'000);
    CHECK(desk.words("status").contains("North"));
}

TEST_CASE("a year of two digits and a time to come are asked about") {
    const NoQtWarnings quiet;
    RoundDesk desk;
    const auto [typed, words] = GENERATE(table<const char*, const char*>({{"01/03/26 08:00", "two digits"},
                                                                          {"5 March 2026 08:00", "still to come"},
                                                                          {"31 February 2026 08:00", "no such day"}}));
    desk.find<QLineEdit>("roundTime").setFocus();
    desk.find<QLineEdit>("roundTime").selectAll();
    Desk::type(typed);
    Desk::press(Qt::Key_Tab);
    CHECK(desk.words("roundTimeWords").contains(words));
}

TEST_CASE("one key enters a turning at the time of the round") {
    const NoQtWarnings quiet;
    RoundDesk desk;
    const auto turnings = [&] {
        return desk.book().log().record(*desk.book().log().occupant(desk.north, desk.now)).aerations;
    };
    Desk::press(Qt::Key_T, Qt::AltModifier);
    REQUIRE(waitUntil([&] { return turnings().size() == 1; }));  // a key shows the button go down first
    const auto turned = turnings();
    REQUIRE(turned.size() == 1);
    CHECK(turned[0].kind == AerationKind::turned);
    CHECK(turned[0].when.at == fourthOfMarch);
    CHECK(Desk::focus() == "cell_North_core");
    CHECK(desk.words("roundCaution").contains("mask"));
}

TEST_CASE("what may hurt is said where the act is and once") {
    const NoQtWarnings quiet;
    RoundDesk desk;
    const auto timesSaid = [&](const char* words) {
        const auto labels = desk.window->findChildren<QLabel*>();
        return std::ranges::count_if(
            labels, [&](const QLabel* label) { return label->isVisible() && label->text().contains(words); });
    };
    const auto [key, form, words] = GENERATE(
        table<Qt::Key, const char*, const char*>({{Qt::Key_I, "finishForm", "keep farm animals, pet hens among them"},
                                                  {Qt::Key_A, "addedForm", "wash your hands with soap"},
                                                  {Qt::Key_R, "moveForm", "releases spores"}}));
    INFO(form);
    Desk::press(key, Qt::AltModifier);
    REQUIRE(waitUntil([&, name = form] { return desk.window->findChild<QWidget*>(name) != nullptr; }));
    CHECK(timesSaid(words) == 1);
}

TEST_CASE("a bin that is set up is told of the air in a shed") {
    const NoQtWarnings quiet;
    Desk desk;
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    REQUIRE(waitUntil([] { return Desk::focus() == "firstBin"; }));
    Desk::press(Qt::Key_Return);
    REQUIRE(waitUntil([] { return Desk::focus() == "startBin"; }));
    const auto labels = desk.find("startForm").findChildren<QLabel*>();
    CHECK(std::ranges::count_if(labels, [](const QLabel* label) { return label->text().contains("a shed"); }) == 1);
}

TEST_CASE("what was added is weighed and saved with the round") {
    const NoQtWarnings quiet;
    RoundDesk desk;
    Desk::press(Qt::Key_A, Qt::AltModifier);
    REQUIRE(waitUntil([] { return Desk::focus() == "addedMaterial"; }));
    Desk::type("nettles");
    Desk::press(Qt::Key_Tab);
    Desk::type("4,5");
    Desk::press(Qt::Key_Return);
    const auto batch = desk.book().log().occupant(desk.north, desk.now);
    const auto added = desk.book().log().record(*batch).additions;
    REQUIRE(added.size() == 1);
    CHECK(added[0].material == "nettles");
    CHECK(added[0].massKilograms == 4.5);
    CHECK_FALSE(added[0].raw.has_value());
}

TEST_CASE("the air outside is kept for the whole site") {
    const NoQtWarnings quiet;
    RoundDesk desk;
    desk.find<QLineEdit>("cellOutside").setFocus();
    Desk::type("6.5");
    Desk::press(Qt::Key_Return);
    CHECK(Desk::focus() == "cell_North_core");
    REQUIRE(desk.book().log().lastOutside());
    CHECK(desk.book().log().lastOutside()->written.tenThousandths == 65'000);
    CHECK(desk.find<QLineEdit>("cellOutside").text() == "6.5");
}
