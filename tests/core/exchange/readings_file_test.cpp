// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/plan/readings_file.h"

#include <catch2/catch.hpp>
#include <string>

#include "tests/core/exchange/row_streams.h"
#include "tests/core/exchange/scratch.h"

using namespace midden;

namespace {

const testing::Scratch scratch;

struct Read {
    StagedReadings staged;
    std::vector<std::vector<StagedReading>> rows;  ///< by place
    std::vector<std::string> remarks;
    std::string refusal;  ///< without the folder
    bool wrongUsage = false;
};

Read read(std::string_view text, std::string_view zone = {}, std::optional<TemperatureUnit> unit = {}) {
    ReadingHabits habits;
    habits.unit = unit;
    if (!zone.empty()) {
        habits.zone = *TimeZone::named(zone);
    }
    Read made;
    const auto file = scratch.write("r.csv", text);
    auto refusal = readReadings(file, habits, made.staged, made.remarks);
    made.staged.rows.settle();
    for (std::size_t place = 0; place < made.staged.places.size() && !refusal; ++place) {
        RowStream stream{made.staged.rows, PlacedRows{{{place}}, {}}, made.staged.columns};
        auto rows = testing::rowsOf(stream);
        if (rows) {
            made.rows.push_back(std::move(*rows));
        } else {
            refusal = rows.error();
        }
    }
    if (refusal) {
        made.refusal = refusal->sentence().substr(scratch.folder().string().size() + 1);
        made.wrongUsage = refusal->wrongUsage;
    }
    return made;
}

/// The rows of the first place as "instant temperature".
std::vector<std::string> rowsOf(std::string_view text, std::string_view zone = {},
                                std::optional<TemperatureUnit> unit = {}) {
    const auto made = read(text, zone, unit);
    INFO(made.refusal);
    CHECK(made.refusal.empty());
    std::vector<std::string> rows;
    for (const auto& row : made.rows.at(0)) {
        const auto& column = made.staged.columns[row.column()];
        rows.push_back(isoLocal({row.at(), column.offset}) + " " + writtenWithUnit({row.tenThousandths, column.unit}));
    }
    return rows;
}

std::string refusalOf(std::string_view text, std::string_view zone = {}, std::optional<TemperatureUnit> unit = {}) {
    return read(text, zone, unit).refusal;
}

std::string timed(std::string_view time) {
    return "time;temperature\n" + std::string{time} + ";58.5\n";
}

using Rows = std::vector<std::string>;
constexpr auto fahrenheit = TemperatureUnit::fahrenheit;
constexpr auto celsius = TemperatureUnit::celsius;

}  // namespace

TEST_CASE("times are read as ISO 8601 writes them and keep their offset") {
    const Rows eight{"2026-03-01T08:00:00+01:00 58.5 °C"};
    for (const char* time :
         {"2026-03-01T08:00:00+01:00", "2026-03-01T08:00+01:00", "2026-03-01 08:00+01:00", "2026-03-01 08:00:00 +01:00",
          "2026-03-01T08:00:00.000+0100", "2026-03-01T08:00:00,0+01"}) {
        CHECK(rowsOf(timed(time)) == eight);
    }
    CHECK(rowsOf(timed("2026-03-01T08:00Z")) == Rows{"2026-03-01T08:00:00+00:00 58.5 °C"});
    CHECK(rowsOf(timed("2026-03-01T08:00"), "Europe/Berlin") == eight);
    CHECK(rowsOf(timed("2028-02-29T08:00Z")) == Rows{"2028-02-29T08:00:00+00:00 58.5 °C"});
    CHECK(rowsOf(timed("2126-03-01T08:00Z")) == Rows{"2126-03-01T08:00:00+00:00 58.5 °C"});
}

TEST_CASE("other dates are read when the whole file leaves no doubt") {
    const Rows march{"2026-03-01T08:05:00+00:00 58.5 °C"};
    for (const char* time : {"2026/03/01 08:05", "2026.3.1 8:05", "2026/03/01 08:05:00", "2026/03/01 8:05 am"}) {
        CHECK(rowsOf(timed(time), "UTC") == march);
    }
    CHECK(rowsOf(timed("2026/03/01 12:05 AM"), "UTC") == Rows{"2026-03-01T00:05:00+00:00 58.5 °C"});
    CHECK(rowsOf(timed("2026/03/01 12:05 pm"), "UTC") == Rows{"2026-03-01T12:05:00+00:00 58.5 °C"});
    CHECK(rowsOf(timed("31/12/2026 23:05Z")) == Rows{"2026-12-31T23:05:00+00:00 58.5 °C"});
    CHECK(rowsOf(timed("12/31/2026 11:05 PM"), "UTC") == Rows{"2026-12-31T23:05:00+00:00 58.5 °C"});
    CHECK(rowsOf(timed("31.12.2026 23:05"), "UTC") == Rows{"2026-12-31T23:05:00+00:00 58.5 °C"});
    CHECK(rowsOf(timed("31-12-2026 23:05"), "UTC") == Rows{"2026-12-31T23:05:00+00:00 58.5 °C"});
    CHECK(rowsOf("time;temperature\n03/04/2026 08:00;1\n04/04/2026 08:00;2\n13/04/2026 08:00;3\n", "UTC") ==
          Rows{"2026-04-03T08:00:00+00:00 1 °C", "2026-04-04T08:00:00+00:00 2 °C", "2026-04-13T08:00:00+00:00 3 °C"});
    CHECK(rowsOf("time;temperature\n03/04/2026 08:00;1\n04/13/2026 08:00;3\n", "UTC") ==
          Rows{"2026-03-04T08:00:00+00:00 1 °C", "2026-04-13T08:00:00+00:00 3 °C"});
    CHECK(rowsOf(timed("05/05/2026 08:00"), "UTC") == Rows{"2026-05-05T08:00:00+00:00 58.5 °C"});
}

TEST_CASE("dates in doubt are refused with the reason") {
    CHECK(refusalOf("time;temperature\n05/05/2026 08:00;1\n03/04/2026 08:00;1\n", "UTC") ==
          "r.csv:3: nothing in the file settles which number is the day and which the month; expected dates such as "
          "2026-03-01, or at least one row with a day after the 12th of its month");
    CHECK(refusalOf("time;temperature\n03/04/2026 08:00;1\n13/04/2026 08:00;1\n04/14/2026 08:00;1\n", "UTC") ==
          "r.csv:4: line 3 has the day first and line 4 the month; expected one order in the whole file, best as in "
          "2026-03-01");
    CHECK(refusalOf(timed("31/12/26 08:00"), "UTC") ==
          "r.csv:2: \"31/12/26 08:00\" has no year of four digits; expected a date and time such as "
          "2026-03-01T08:00:00+01:00");
}

TEST_CASE("times that are none are refused") {
    for (const char* time : {"2026-02-29T08:00Z", "2026-13-01T08:00Z", "2026-04-31T08:00Z", "2026-03-01T24:00Z",
                             "2026-03-01T08:60Z", "2026-03-01T08:00:60Z", "32/13/2026 08:00Z", "31/02/2026 08:00Z"}) {
        CHECK(refusalOf(timed(time)).find("is not in the calendar") != std::string::npos);
    }
    for (const char* time :
         {"", "yesterday", "2026-03-01", "08:00", "1/3/2026", "2026-03-01T8", "2026-03-01T08:00:00.5Z",
          "2026-03-01T08:00+25:00", "20260301T0800Z", "2026/03/01 13:00 pm", "2026/03-01 08:00", "3.4.2026 8 pm"}) {
        CHECK(refusalOf(timed(time), "UTC").starts_with("r.csv:2: \""));
    }
    CHECK(refusalOf(timed("1969-12-31T08:00Z")).find("is out of range; expected a year from 1970 to 9999") !=
          std::string::npos);
    CHECK(refusalOf(timed("1970-01-01T00:30+01:00")).find("is out of range") != std::string::npos);
    CHECK(refusalOf(timed("9999-12-31T23:30-01:00")).find("is out of range") != std::string::npos);
}

TEST_CASE("a bad time in a day already read is refused like any other") {
    const std::string first = "time;temperature\n2026-03-01T08:00Z;1\n";
    CHECK(refusalOf(first + "2026-03-01T24:00Z;1\n")
              .starts_with("r.csv:3: \"2026-03-01T24:00Z\" is not in the calendar"));
    CHECK(refusalOf(first + "2026-03-01T08:0xZ;1\n").starts_with("r.csv:3: \"2026-03-01T08:0xZ\" is not a date"));
    CHECK(refusalOf(first + "2026-03-01T09:00:7Z;1\n").starts_with("r.csv:3:"));
    CHECK(refusalOf(first + "2026-03-01T09:00\n").starts_with("r.csv:3:"));
    CHECK(rowsOf(first + "2026-03-01T09:00+02:00;2\n").at(0) == "2026-03-01T09:00:00+02:00 2 °C");
}

TEST_CASE("local times need a zone") {
    const auto made = read(timed("2026-03-01T08:00"));
    CHECK(made.wrongUsage);
    CHECK(made.refusal ==
          "r.csv:2: the time has no offset from UTC; expected --zone with the name of the local time, such as --zone "
          "Europe/London");
}

// Clock changes: IANA time zone database, Europe/London 2026: 29 March 01:00 GMT to BST, 25 October 02:00 BST to GMT.
TEST_CASE("a time the clocks went over is refused") {
    CHECK(refusalOf("time;temperature\n2026-03-29T00:59;1\n2026-03-29T01:30;1\n", "Europe/London") ==
          "r.csv:3: the clocks of Europe/London went forward over \"2026-03-29T01:30\": it never happened; expected a "
          "time that was, or times with their offset from UTC");
}

TEST_CASE("a time that came twice is taken in the order of the rows and remarked on") {
    const std::string night =
        "time;temperature\n2026-10-25T00:30;1\n2026-10-25T01:00;2\n2026-10-25T01:30;3\n2026-10-25T01:00;4\n"
        "2026-10-25T01:30;5\n2026-10-25T02:00;6\n";
    CHECK(rowsOf(night, "Europe/London") == Rows{"2026-10-25T00:30:00+01:00 1 °C", "2026-10-25T01:00:00+01:00 2 °C",
                                                 "2026-10-25T01:30:00+01:00 3 °C", "2026-10-25T01:00:00+00:00 4 °C",
                                                 "2026-10-25T01:30:00+00:00 5 °C", "2026-10-25T02:00:00+00:00 6 °C"});
    const auto remarks = read(night, "Europe/London").remarks;
    REQUIRE(remarks.size() == 1);
    CHECK(remarks[0].find("r.csv:3: this is the first of 4 times that came twice when the clocks went back") !=
          std::string::npos);
    CHECK(rowsOf("time;temperature\n2026-10-25T01:30;1\n", "Europe/London") == Rows{"2026-10-25T01:30:00+01:00 1 °C"});
}

TEST_CASE("the order of rows in that night is kept for each place by itself") {
    const auto made =
        read("time;temperature;position\n2026-10-25T01:30;1;core\n2026-10-25T01:30;2;side\n2026-10-25T01:30;3;core\n",
             "Europe/London");
    INFO(made.refusal);
    REQUIRE(made.refusal.empty());
    CHECK(made.rows.at(0).size() == 2);
    CHECK(isoUtc(made.rows.at(1).at(0).at()) == "2026-10-25T00:30:00Z");
}

TEST_CASE("the unit comes from the header or a column or the question") {
    const auto one = [](const std::string& header, const std::string& cells, std::optional<TemperatureUnit> unit = {}) {
        return rowsOf("time;" + header + "\n2026-03-01T08:00Z;" + cells + "\n", {}, unit).at(0).substr(26);
    };
    CHECK(one("temperature", "58.5") == "58.5 °C");
    CHECK(one("temperature", "58,5") == "58.5 °C");
    CHECK(one("temperature", "137", fahrenheit) == "137 °F");
    CHECK(one("temperature", "137 °F", fahrenheit) == "137 °F");
    CHECK(one("temperature_f", "137") == "137 °F");
    CHECK(one("temperature (°F)", "137", fahrenheit) == "137 °F");
    CHECK(one("temperature;unit", "137;F") == "137 °F");
    CHECK(one("temperature;unit", "58;°C", fahrenheit) == "58 °C");
    CHECK(one("temperature;unit", "137;", fahrenheit) == "137 °F");
    CHECK(one("temperature_f;unit", "137;f") == "137 °F");
    CHECK(rowsOf("time,temperature\n2026-03-01T08:00Z,\"58,5\"\n") == Rows{"2026-03-01T08:00:00+00:00 58.5 °C"});
}

TEST_CASE("units that contradict each other are refused") {
    const std::string row = "2026-03-01T08:00Z";
    CHECK(refusalOf("time;temperature_f\n" + row + ";137\n", {}, celsius) ==
          "r.csv:1: the header says °F, but --unit says °C; expected one unit, or no --unit");
    CHECK(refusalOf("time;temperature_f;unit\n" + row + ";58;c\n") ==
          "r.csv:2: the row says °C, but the header °F; expected the unit in one of the two places only");
    CHECK(refusalOf("time;temperature\n" + row + ";58\n2026-03-01T09:00Z;137 °F\n") ==
          "r.csv:3: \"137 °F\" stands in a column in °C; expected one unit, said by the header, a column \"unit\" or "
          "--unit");
    CHECK(refusalOf("time;temperature;unit\n" + row + ";58;K\n").starts_with("r.csv:2: \"K\" is none of the words"));
}

TEST_CASE("numbers that are no temperature of a heap are refused with their line") {
    for (const char* cell :
         {"nan", "NaN",  "inf",    "-inf",  "Infinity", "-273.16", "5000", "-60.1", "150.1", "58.12345",
          "1e2", "0x20", "58.5.1", "58..5", "1.234,5",  "--5",     "5-",   "n/a",   "58 61", "."}) {
        INFO(cell);
        CHECK(refusalOf("time;temperature\n2026-03-01T08:00Z;1\n2026-03-01T09:00Z;" + std::string{cell} + "\n")
                  .starts_with("r.csv:3: "));
    }
    CHECK(refusalOf("time;temperature\n2026-03-01T08:00Z;\n") ==
          "r.csv:2: the temperature is missing; expected a temperature such as 58.5 in every row");
    CHECK(
        rowsOf("time;temperature\n2026-03-01T08:00Z;-60\n2026-03-01T09:00Z;150\n2026-03-01T10:00Z;58.1234\n").size() ==
        3);
}

TEST_CASE("rows may come in any order and an equal repeat is one reading") {
    CHECK(rowsOf("time;temperature;unit\n2026-03-02T08:00Z;2;\n2026-03-01T08:00Z;55;\n2026-03-02T08:00Z;2.0;\n"
                 "2026-03-01T09:00+01:00;131;f\n") ==
          Rows{"2026-03-01T08:00:00+00:00 55 °C", "2026-03-02T08:00:00+00:00 2 °C"});
}

TEST_CASE("two values for one place and time are refused and both lines named") {
    CHECK(refusalOf("time;temperature\n2026-03-01T08:00Z;55\n\n2026-03-01T08:00Z;55.1\n") ==
          "r.csv:4: 55.1 °C here, but 55 °C in line 2, for the same place and time 2026-03-01T08:00:00+00:00; expected "
          "one value for each place and time");
    CHECK(refusalOf("time;temperature;ambient;position\n2026-03-01T08:00Z;55;5;core\n2026-03-01T08:00Z;50;6;side\n")
              .find("6 °C here, but 5 °C in line 2") != std::string::npos);
}

TEST_CASE("rows name their bin position probe ambient and note") {
    const auto made = read(
        "time;temperature;bin;position;probe;ambient;note\n2026-03-01T08:00Z;55;North;side;Long dial;6.5;'=hot\n"
        "2026-03-01T08:00Z;50;;;;;\n");
    INFO(made.refusal);
    REQUIRE(made.refusal.empty());
    REQUIRE(made.staged.places.size() == 3);
    const auto& north = made.staged.places[0];
    CHECK(north.where == StagedWhere{StagedWhere::Bin::named, "North", "side"});
    CHECK(north.notes.at(0).text == "=hot");
    CHECK(made.staged.columns.at(made.rows[0].at(0).column()).probe == "Long dial");
    CHECK(made.staged.places[1].where == StagedWhere{StagedWhere::Bin::named, "North", ""});
    CHECK(made.rows[1].at(0).tenThousandths == 65'000);
    CHECK(made.staged.places[2].where == StagedWhere{StagedWhere::Bin::ofTheBatch, "", "core"});
}

TEST_CASE("a file that cannot be read says why") {
    StagedReadings staged;
    std::vector<std::string> remarks;
    const auto absent = readReadings("/nonexistent/r.csv", {}, staged, remarks);
    REQUIRE(absent);
    CHECK(absent->sentence() == "/nonexistent/r.csv: cannot be read: No such file or directory; expected a CSV file");
    CHECK(readReadings(scratch.folder(), {}, staged, remarks)->problem.wrong == "cannot be read: Is a directory");
}
