// SPDX-License-Identifier: GPL-3.0-or-later
#include <rapidcheck.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "core/exchange/csv/csv_table.h"
#include "core/exchange/export/export.h"
#include "core/exchange/plan/import.h"
#include "tests/core/exchange/contents.h"
#include "tests/core/exchange/scratch.h"

using namespace midden;
using midden::testing::contentsOf;

namespace {

struct Row {
    std::int64_t minute = 0;
    int tenths = 0;
    bool side = false;
    bool written_f = false;
};

std::string header() {
    return "time,temperature,position,unit,note\n";
}

std::string lineOf(const Row& row) {
    const auto time =
        isoLocal({Instant{1'767'225'600 + row.minute * 60}, {static_cast<std::int16_t>(row.side ? 60 : 0)}});
    return time + "," + std::to_string(row.tenths / 10) + "." + std::to_string(row.tenths % 10) + "," +
           (row.side ? "side" : "core") + "," + (row.written_f ? "f" : "c") + "," +
           (row.tenths % 7 == 0 ? "\"=a, \"\"b\"\"\nc\"" : "") + "\n";
}

/// Rows of two places, at most one an instant, in no order.
std::vector<Row> someRows() {
    const auto count = *rc::gen::inRange<std::size_t>(1, 40);
    std::vector<Row> rows;
    std::set<std::pair<std::int64_t, bool>> taken;
    while (rows.size() < count) {
        const Row row{*rc::gen::inRange<std::int64_t>(0, 5'000), *rc::gen::inRange(0, 1'500),
                      *rc::gen::arbitrary<bool>(), *rc::gen::arbitrary<bool>()};
        if (taken.insert({row.minute, row.side}).second) {
            rows.push_back(row);
        }
    }
    return rows;
}

void importInto(Logbook& book, const std::filesystem::path& readings) {
    ImportRequest request;
    request.batch = "Spring";
    request.bin = "North";
    request.files.readings = readings;
    auto staged = readFiles(request);
    RC_ASSERT(staged.has_value());
    RC_ASSERT(storeImport(book, request, std::move(*staged)).has_value());
}

}  // namespace

TEST_CASE("the parts of a readings file in any order make the same book as the whole", "[random]") {
    CHECK(rc::check([] {
        const testing::Scratch scratch;
        const auto rows = someRows();
        std::string whole = header();
        std::vector<std::string> parts(*rc::gen::inRange<std::size_t>(1, 5), header());
        for (const auto& row : rows) {
            whole += lineOf(row);
            parts[*rc::gen::inRange<std::size_t>(0, parts.size())] += lineOf(row);
        }
        std::erase(parts, header());
        auto atOnce = Logbook::inMemory();
        importInto(atOnce, scratch.write("whole.csv", whole));
        auto inParts = Logbook::inMemory();
        for (const auto& part : parts) {
            importInto(inParts, scratch.write("part.csv", part));
        }
        RC_ASSERT(contentsOf(atOnce) == contentsOf(inParts));
    }));
}

TEST_CASE("what is exported imports to a book that exports the same bytes", "[random]") {
    CHECK(rc::check([] {
        const testing::Scratch scratch;
        std::string whole = header();
        for (const auto& row : someRows()) {
            whole += lineOf(row);
        }
        auto first = Logbook::inMemory();
        importInto(first, scratch.write("whole.csv", whole));
        exportLogbook(first, scratch.path("out"));
        auto second = Logbook::inMemory();
        importInto(second, scratch.path("out") / "Spring" / "readings.csv");
        RC_ASSERT(contentsOf(first) == contentsOf(second));
    }));
}

TEST_CASE("any bytes are read or refused and never more", "[random]") {
    constexpr std::string_view alphabet = "time,temperature;\t\"\r\n 0123456789-:TZ+.fcé\xFF\x01=";
    CHECK(rc::check([&] {
        const auto length = *rc::gen::inRange<std::size_t>(0, 300);
        std::string text =
            *rc::gen::element<std::string>("", "time,temperature\n", "time;temperature;note\n", "\xEF\xBB\xBF");
        for (std::size_t i = 0; i < length; ++i) {
            text += alphabet[*rc::gen::inRange<std::size_t>(0, alphabet.size())];
        }
        const testing::Scratch scratch;
        StagedReadings staged;
        std::vector<std::string> remarks;
        const auto refusal = readReadings(scratch.write("r.csv", text), {TimeZone::utc(), {}}, staged, remarks);
        if (refusal) {
            const auto lines = static_cast<std::uint64_t>(std::count(text.begin(), text.end(), '\n') +
                                                          std::count(text.begin(), text.end(), '\r')) +
                               1;
            RC_ASSERT(refusal->line >= 1);
            RC_ASSERT(refusal->line <= lines);
            RC_ASSERT(!refusal->problem.wrong.empty());
        } else {
            RC_ASSERT(!staged.places.empty());
        }
    }));
}
