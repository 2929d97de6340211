// SPDX-License-Identifier: GPL-3.0-or-later
// RFC 4180 "Common Format and MIME Type for CSV Files", section 2, for quotes and line breaks; the rest is our own.
#include "core/exchange/csv/csv_table.h"

#include <rapidcheck.h>

#include <array>
#include <catch2/catch.hpp>
#include <string>
#include <vector>

using namespace midden;
using namespace std::string_literals;

namespace {

constexpr std::array<ColumnSpec, 3> specs{{{"time", true}, {"temperature", true, true}, {"note"}}};

struct Read {
    std::vector<std::string> rows;  ///< "line|time|temperature|note"
    std::string refusal;
};

Read readAll(std::string_view text) {
    Read read;
    auto table = CsvTable::ofText("f.csv", text, specs);
    if (!table) {
        read.refusal = table.error().sentence();
        return read;
    }
    for (auto row = table->next(); !row || *row; row = table->next()) {
        if (!row) {
            read.refusal = row.error().sentence();
            return read;
        }
        read.rows.push_back(std::to_string(table->line()) + "|" + std::string{table->text(0)} + "|" +
                            std::string{table->text(1)} + "|" + std::string{table->text(2)});
    }
    return read;
}

std::vector<std::string> rowsOf(std::string_view text) {
    const auto read = readAll(text);
    CHECK(read.refusal.empty());
    return read.rows;
}

std::string refusalOf(std::string_view text) {
    return readAll(text).refusal;
}

using Rows = std::vector<std::string>;

}  // namespace

TEST_CASE("comma semicolon and tab are found in the header") {
    const Rows expected{"2|a|1|x"};
    CHECK(rowsOf("time,temperature,note\na,1,x\n") == expected);
    CHECK(rowsOf("time;temperature;note\na;1;x\n") == expected);
    CHECK(rowsOf("time\ttemperature\tnote\na\t1\tx\n") == expected);
    CHECK(rowsOf("\"time\";\"temperature\";\"note\"\na;1;x\n") == expected);
    CHECK(rowsOf("time;temperature;note\na;1,5;x,y\n") == Rows{"2|a|1,5|x,y"});
}

TEST_CASE("headers may be in any order and case with blanks around them") {
    CHECK(rowsOf(" Temperature , TIME \n1,a\n") == Rows{"2|a|1|"});
    CHECK(rowsOf("\xEF\xBB\xBFtime,temperature\na,1\n") == Rows{"2|a|1|"});
}

TEST_CASE("every kind of line end is understood and lines stay counted") {
    const Rows expected{"2|a|1|", "4|b|2|", "5|c|3|"};
    CHECK(rowsOf("time,temperature\na,1\n\nb,2\nc,3") == expected);
    CHECK(rowsOf("time,temperature\r\na,1\r\n\r\nb,2\r\nc,3\r\n") == expected);
    CHECK(rowsOf("time,temperature\ra,1\r\rb,2\rc,3\r") == expected);
    CHECK(rowsOf("time,temperature\na,1\n  \t \nb,2\nc,3\n\n\n") == expected);
    CHECK(rowsOf("\n\ntime,temperature\na,1\n") == Rows{"4|a|1|"});
}

TEST_CASE("quotes hold separators doubled quotes and line breaks") {
    CHECK(rowsOf("time,temperature,note\na,1,\"x, y\"\n") == Rows{"2|a|1|x, y"});
    CHECK(rowsOf("time,temperature,note\na,1,\"say \"\"hot\"\" twice\"\nb,2,\"\"\n") ==
          Rows{"2|a|1|say \"hot\" twice", "3|b|2|"});
    CHECK(rowsOf("time,temperature,note\na,1,\"x\ny\r\nz\"\nb,2,\n") == Rows{"2|a|1|x\ny\r\nz", "5|b|2|"});
    CHECK(rowsOf("time,temperature,note\na,1, \" x \" \n") == Rows{"2|a|1| x "});
    CHECK(rowsOf("time,temperature,note\n\"a\",\"1\",\"\"\"\"\n") == Rows{"2|a|1|\""});
}

TEST_CASE("a temperature header may carry its unit") {
    using Unit = TemperatureUnit;
    const auto unitOf = [](const std::string& header) {
        const auto table = CsvTable::ofText("f.csv", "time," + header + "\na,1\n", specs);
        return table ? table->unitOf(1) : std::optional<Unit>{};
    };
    CHECK(unitOf("temperature") == std::nullopt);
    for (const char* header : {"temperature_f", "temperature (°F)", "Temperature (F)", "temperature °F",
                               "TEMPERATURE_F", "temperature [°f]", "temperature fahrenheit"}) {
        CHECK(unitOf(header) == Unit::fahrenheit);
    }
    for (const char* header : {"temperature_c", "temperature (°C)", "temperature celsius"}) {
        CHECK(unitOf(header) == Unit::celsius);
    }
    CHECK(refusalOf("time,temperature_k\na,1\n") ==
          "f.csv:1: there is no use for a column \"temperature_k\"; expected the columns time, temperature, note");
}

TEST_CASE("a header that cannot be used is refused") {
    CHECK(refusalOf("") ==
          "f.csv:1: the file is empty; expected a header row with the columns time, temperature, note");
    CHECK(refusalOf("\n \n") ==
          "f.csv:1: the file is empty; expected a header row with the columns time, temperature, note");
    CHECK(refusalOf("\xEF\xBB\xBF") ==
          "f.csv:1: the file is empty; expected a header row with the columns time, temperature, note");
    CHECK(refusalOf("time,note\na,1\n") ==
          "f.csv:1: the column \"temperature\" is missing; expected a header row with at least time, temperature");
    CHECK(refusalOf("time,temperature,Time\na,1,b\n") ==
          "f.csv:1: the column \"time\" is there twice; expected each column once");
    CHECK(refusalOf("time,temperature,temperature_f\na,1,b\n") ==
          "f.csv:1: the column \"temperature\" is there twice; expected each column once");
    CHECK(refusalOf("time,temperature,\na,1,\n") ==
          "f.csv:1: column 3 has no name; expected the columns time, temperature, note");
    CHECK(refusalOf("time,temperature\n") == "f.csv:1: there are no rows below the header; expected at least one row");
    CHECK(refusalOf("\xFF\xFEt\0i\0"s) == "f.csv:1: the text is UTF-16; expected a file saved as UTF-8");
}

TEST_CASE("a row of another length is refused") {
    CHECK(refusalOf("time,temperature\na,1\nb\n") ==
          "f.csv:3: the row has 1 field; expected 2 fields as in the header");
    CHECK(refusalOf("time,temperature\n\na,58,5\n") ==
          "f.csv:3: the row has 3 fields; expected 2 fields as in the header, and quotes around a text or number that "
          "holds the separator");
}

TEST_CASE("stray and unclosed quotes are refused where they stand") {
    CHECK(refusalOf("time,temperature,note\na,1,5\" deep\n") ==
          "f.csv:2: a quotation mark stands inside a field; expected fields with quotation marks in quotes, and each "
          "mark doubled");
    const auto notClosed =
        "f.csv:2: a field begins with a quotation mark and does not end with one; expected one at its end, and each "
        "mark inside doubled";
    CHECK(refusalOf("time,temperature,note\na,1,\"deep\nb,2,x\n") == notClosed);
    CHECK(refusalOf("time,temperature,note\na,1,\"x\ny\"z\n") == notClosed);
    CHECK(refusalOf("time,temperature,note\na,1,\"deep\nb,2,\"x\"\n") == notClosed);
    CHECK(refusalOf("time,temperature,note\na,\"1,\"x\"\n") == notClosed);
    CHECK(refusalOf("time\ttemperature\tnote\n\"\t1\t\"x\"\n") == notClosed);
    CHECK(refusalOf("time\ttemperature\tnote\n\"\t1\tx\n") == notClosed);
}

TEST_CASE("control characters and text that is not UTF-8 are refused where they stand") {
    CHECK(refusalOf("time,temperature\na,1\nb\0,2\n"s) ==
          "f.csv:3: there is a control character (byte 0) in the text; expected plain text in UTF-8");
    CHECK(refusalOf("time,temperature,note\na,1,\"x\n\x1B[2J\"\n") ==
          "f.csv:3: there is a control character (byte 27) in the text; expected plain text in UTF-8");
    CHECK(refusalOf("time,temperature,note\na,1,ok\nb,1,\"\n\n20 \xB0"
                    "C\"\n") == "f.csv:5: the text is not UTF-8; expected a file saved as UTF-8");
    for (const char* wrong :
         {"\xC0\xAF", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xE2\x82", "\x80", "\xF8\x88\x80\x80\x80"}) {
        CHECK(refusalOf("time,temperature,note\na,1,"s + wrong + "\n") ==
              "f.csv:2: the text is not UTF-8; expected a file saved as UTF-8");
    }
    CHECK(rowsOf("time,temperature,note\na,1,Größe €\xF0\x9F\x94\xA5\n") == Rows{"2|a|1|Größe €\xF0\x9F\x94\xA5"});
}

TEST_CASE("a row longer than a megabyte is refused wherever it is long") {
    const std::string head = "time,temperature,note\na,1,x\n";
    const std::string longText(CsvSlices{}.longestRow + 10, 'x');
    const auto refusal = "f.csv:3: the row is longer than 1 MB; expected rows of a time, a temperature and a few words";
    CHECK(refusalOf(head + "b,2," + longText + "\n") == refusal);
    CHECK(refusalOf(head + "b,2,\"" + longText + "\"\n") == refusal);
    CHECK(refusalOf(head + "b,2," + longText) == refusal);
    CHECK(refusalOf(std::string(CsvSlices{}.longestRow * 2, ',')).starts_with("f.csv:1: the row is longer than 1 MB"));
    const std::string fits(CsvSlices{}.longestRow - 10, 'x');
    CHECK(rowsOf(head + "b,2," + fits + "\n").size() == 2);
}

namespace {

/// Whatever may matter in a field, and how loggers and people write it.
std::string anyText() {
    return *rc::gen::container<std::string>(
        rc::gen::elementOf(std::string{"a1.-T: \t,;\"\"\r\n\x01\x7F\x00\xC3\xA9\xFF"s}));
}

/// A row between the header and another row.
struct Lines {
    char separator = *rc::gen::element(',', ';', '\t');
    std::string first = anyText();
    std::string second = anyText();

    std::string with(const std::string& a, const std::string& b, const std::string& c) const {
        const auto line = [&](const std::string& time, const std::string& temperature, const std::string& note) {
            return time + separator + temperature + separator + note + "\n";
        };
        return line("time", "temperature", "note") + line(a, b, c) + line("x", "y", "z");
    }
};

bool readsTheSame(std::string_view one, std::string_view other) {
    const auto read = readAll(one);
    const auto again = readAll(other);
    RC_LOG() << read.refusal << "\n" << again.refusal << "\n";
    return read.rows == again.rows && read.refusal == again.refusal;
}

}  // namespace

// A row of plain fields is read at one go, any other field by field. A field in quotes forces the second way.
TEST_CASE("a row reads the same whichever way it is gone through", "[random]") {
    CHECK(rc::check("with a quoted field before the others", [] {
        const Lines lines;
        RC_ASSERT(
            readsTheSame(lines.with("a", lines.first, lines.second), lines.with("\"a\"", lines.first, lines.second)));
    }));
    CHECK(rc::check("with a quoted field after them", [] {
        const Lines lines;
        RC_ASSERT(readsTheSame(lines.with(lines.first, lines.second, "end"),
                               lines.with(lines.first, lines.second, "\"end\"")));
    }));
}

TEST_CASE("a text reads the same with and without a line break at its end", "[random]") {
    CHECK(rc::check([] {
        const Lines lines;
        const auto text = lines.with(lines.first, lines.second, "") + lines.first + "b";
        RC_ASSERT(readsTheSame(text, text + "\n"));
    }));
}

TEST_CASE("a plain row may be as long as the longest, and no longer") {
    const std::string header = "time,temperature,note\n";
    const CsvSlices slices{.longestRow = 40, .slice = 64};
    const auto readWith = [&](std::size_t noteLength) {
        const std::string text = header + "a,1," + std::string(noteLength, 'x') + "\nb,2,y\n";
        auto table = CsvTable::ofText("f.csv", text, specs, slices);
        REQUIRE(table);
        const auto row = table->next();
        return row ? std::string{table->text(2)} : row.error().sentence();
    };
    CHECK(readWith(35) == std::string(35, 'x'));
    CHECK(readWith(36) ==
          "f.csv:2: the row is longer than 1 MB; expected rows of a time, a temperature and a few words");
}

TEST_CASE("a row is as long in quotes as without and at the end of the text as before another") {
    const CsvSlices slices{.longestRow = 40, .slice = 64};
    const auto refused = [&](const std::string& row) {
        auto table = CsvTable::ofText("f.csv", "time,temperature,note\n" + row, specs, slices);
        REQUIRE(table);
        const auto read = table->next();
        return read ? "" : read.error().sentence();
    };
    const auto tooLong = "f.csv:2: the row is longer than 1 MB; expected rows of a time, a temperature and a few words";
    const std::string fits = "a,1," + std::string(35, 'x');
    const std::string fitsQuoted = "a,1,\"" + std::string(33, '\n') + "\"";
    const std::string fitsDoubled = "a,1,\"" + std::string(32, '"') + "x\"";
    for (const std::string after : {"", "\n", "\r\n", "\nb,2,y\n"}) {
        CHECK(refused(fits + after).empty());
        CHECK(refused(fits + "x" + after) == tooLong);
        CHECK(refused(fitsQuoted + after).empty());
        CHECK(refused(fitsQuoted + " " + after) == tooLong);
        CHECK(refused(fitsQuoted + ",x" + after) == tooLong);
        CHECK(refused(fitsQuoted + "\"" + after) == tooLong);
        CHECK(refused(fitsDoubled + after).empty());
        CHECK(refused(fitsDoubled + "\"\"" + after) == tooLong);
    }
}
