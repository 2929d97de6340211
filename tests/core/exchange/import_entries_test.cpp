// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>
#include <string>

#include "tests/core/exchange/asked.h"

using namespace midden;
using namespace midden::testing;

TEST_CASE("every column of an addition is kept") {
    auto book = Logbook::inMemory();
    imported(book,
             Asked{"Spring"}.additions(
                 "time;material;mass_kg;volume_l;moisture_percent;carbon_percent;nitrogen_percent;carbon_nitrogen;"
                 "raw;note\n2026-03-01T08:00Z;Straw;12,5;100;12;45;0,6;75;NO;\"two; bales\"\n"));
    const auto a = recordOf(book, "Spring").additions.at(0);
    CHECK(a.volumeLitres == 100);
    CHECK(a.moisturePercent == 12);
    CHECK(a.carbonPercent == 45);
    CHECK(a.nitrogenPercent == 0.6);
    CHECK(a.carbonNitrogen == 75);
    CHECK(a.raw == false);
    CHECK(a.note == "two; bales");
}

TEST_CASE("additions that make no sense are refused with line and column") {
    auto book = Logbook::inMemory();
    const auto refusal = [&](const std::string& columns, const std::string& cells) {
        return refusalOf(book, Asked{"Spring"}.additions("time;" + columns + "\n2026-03-01T08:00Z;" + cells + "\n"));
    };
    const auto mass = "; expected a mass in kg above 0, at most a million";
    CHECK(refusal("material;mass_kg", "Straw;0") == std::string{"additions.csv:2: mass_kg: 0 is out of range"} + mass);
    CHECK(refusal("material;mass_kg", "Straw;-1") ==
          std::string{"additions.csv:2: mass_kg: -1 is out of range"} + mass);
    CHECK(refusal("material;mass_kg", "Straw;") ==
          std::string{"additions.csv:2: mass_kg: nothing is written there"} + mass);
    for (const char* number : {"nan", "inf", "1e3", "1.234,5", "1,2,3", "0x1", "1 2", "--1", "1-"}) {
        CHECK(refusal("material;mass_kg", std::string{"Straw;"} + number) ==
              std::string{"additions.csv:2: mass_kg: \""} + number + "\" is not a number" + mass);
    }
    CHECK(refusal("material;mass_kg", ";1").starts_with("additions.csv:2: material: nothing is written there"));
    CHECK(refusal("material;mass_kg;moisture_percent", "Straw;1;101")
              .starts_with("additions.csv:2: moisture_percent: 101"));
    CHECK(refusal("material;mass_kg;nitrogen_percent", "Straw;1;-1")
              .starts_with("additions.csv:2: nitrogen_percent: -1"));
    CHECK(refusal("material;mass_kg;carbon_nitrogen", "Straw;1;0").starts_with("additions.csv:2: carbon_nitrogen: 0"));
    CHECK(refusal("material;mass_kg;volume_l", "Straw;1;0").starts_with("additions.csv:2: volume_l: 0"));
    CHECK(refusal("material;mass_kg;raw", "Straw;1;maybe") ==
          "additions.csv:2: raw: \"maybe\" is none of the words for this column; expected yes, no or nothing");
}

TEST_CASE("aerations and observations know their words") {
    auto book = Logbook::inMemory();
    imported(book,
             Asked{"Spring"}
                 .aerations("time,kind,note\n2026-03-01T08:00Z,turned,\n2026-03-01T08:00Z,Forked,\n2026-03-01T08:00Z,"
                            "poked,\n2026-03-01T08:00Z,opened,\n2026-03-01T08:00Z,watered,9 litres\n"
                            "2026-03-01T08:00Z,other,\n")
                 .observations("time,kind,value\n2026-03-01T08:00Z,squeeze,wet\n"));
    const auto record = recordOf(book, "Spring");
    CHECK(record.aerations.size() == 6);
    CHECK(record.observations.at(0).value == "wet");
    CHECK(refusalOf(book, Asked{"Spring"}.aerations("time,kind\n2026-03-01T08:00Z,stirred\n")) ==
          "aerations.csv:2: kind: \"stirred\" is none of the words for this column; expected turned, forked, poked, "
          "opened, watered or other");
}

TEST_CASE("probes and their checks are kept and contradictions refused") {
    auto book = Logbook::inMemory();
    const auto outcome = imported(book, Asked{"Spring"}
                                            .readings("time,temperature,probe\n2026-03-02T08:00Z,55,Stick\n")
                                            .probes("probe,accuracy\nDial,0.5\n")
                                            .checks("time,probe,kind,read,altitude_m,pressure_hpa,unit\n"
                                                    "2026-03-01T08:00Z,Dial,ice,32.5,,,f\n"
                                                    "2026-03-01T08:10Z,Dial,boiling,100,60,,\n"
                                                    "2026-03-01T08:20Z,Dial,boiling,99.5,,1001.2,\n"));
    CHECK(outcome.newProbes == std::vector<std::string>{"Stick"});
    CHECK(outcome.checks.added == 3);
    const auto dial = *book.probeNamed("Dial");
    CHECK(dial.accuracy == Kelvins::ofTenThousandths(5'000));
    CHECK(book.checks(dial.id).at(0).read == WrittenTemperature{325'000, TemperatureUnit::fahrenheit});
    CHECK(imported(book, Asked{"Spring"}.probes("probe,accuracy\nStick,1\n")).probes.added == 1);
    CHECK(
        refusalOf(book, Asked{"Spring"}.probes("probe,accuracy\nDial,0.7\n")) ==
        "probes.csv:2: thermometer \"Dial\" has ±0.7000 °C here, but ±0.5000 °C in the logbook; expected one accuracy "
        "for each thermometer");
    const auto check = [&](const std::string& row) {
        return refusalOf(book, Asked{"Spring"}.checks("time,probe,kind,read,altitude_m,pressure_hpa\n" + row + "\n"));
    };
    CHECK(
        check("2026-03-01T08:00Z,Dial,ice,1,,").starts_with("checks.csv:2: thermometer \"Dial\" already has a check"));
    CHECK(check("2026-03-01T08:00Z,Dial,boiling,100,,") ==
          "checks.csv:2: neither altitude nor pressure is given; expected altitude_m or pressure_hpa for a boiling "
          "check, "
          "one of the two");
    CHECK(check("2026-03-01T08:00Z,Dial,boiling,100,60,1000")
              .starts_with("checks.csv:2: altitude and pressure are both"));
    CHECK(
        check("2026-03-01T08:00Z,Dial,boiling,100,,13").starts_with("checks.csv:2: pressure_hpa: 13 is out of range"));
    CHECK(check("2026-03-01T08:00Z,Dial,steam,100,60,").starts_with("checks.csv:2: kind: \"steam\""));
    CHECK(check("2026-03-01T08:00Z,,ice,0,,").starts_with("checks.csv:2: probe: nothing is written there"));
}

TEST_CASE("what is said of a bin completes what the book knows and never contradicts it") {
    auto book = Logbook::inMemory();
    const auto asked = [](std::string_view rows) { return Asked{"Spring"}.start("2026-03-01T08:00:00Z").bins(rows); };
    CHECK(imported(book, asked("bin,volume_l\nNorth,600\n")).bins.added == 1);
    CHECK(imported(book, asked("bin,volume_l\nNorth,600\n")).bins.alreadyThere == 1);
    CHECK(imported(book, asked("bin,insulation_mm,note\nNorth,50,by the gate\n")).bins.added == 1);
    const auto bin = *book.binNamed("North");
    CHECK(bin.volumeLitres == 600);
    CHECK(bin.insulationMillimetres == 50);
    CHECK(refusalOf(book, asked("bin,volume_l\nNorth,500\n")) ==
          "bins.csv:2: the logbook says something else of bin \"North\"; expected what the logbook says, or nothing");
}
