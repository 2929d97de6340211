// SPDX-License-Identifier: GPL-3.0-or-later
// Files that do not fit into memory at once: read in slices, put in order in runs. Here with very little memory.
#include <rapidcheck.h>
#include <sys/resource.h>
#include <sys/stat.h>

#include <array>
#include <catch2/catch.hpp>
#include <csignal>
#include <fstream>
#include <thread>

#include "core/exchange/csv/csv_table.h"
#include "tests/core/exchange/asked.h"
#include "tests/core/exchange/contents.h"

using namespace midden;
using namespace std::string_literals;
using testing::Asked;
using testing::contentsOf;
using testing::Scratch;

namespace {

constexpr std::array<ColumnSpec, 3> specs{{{"time", true}, {"temperature", true}, {"note"}}};
constexpr std::size_t longestRow = 40;

/// Every row with its line, or where and why the text was refused.
std::string readInSlices(std::string_view text, std::size_t slice) {
    auto table = CsvTable::ofText("f.csv", text, specs, {longestRow, slice});
    if (!table) {
        return table.error().sentence();
    }
    std::string rows;
    for (auto more = table->next();; more = table->next()) {
        if (!more) {
            return rows + more.error().sentence();
        }
        if (!*more) {
            return rows;
        }
        rows += std::to_string(table->line());
        for (std::size_t column = 0; column < specs.size(); ++column) {
            rows += "|" + std::string{table->text(column)};
        }
        rows += "\n";
    }
}

std::string inOneSlice(std::string_view text) {
    return readInSlices(text, text.size() + longestRow + 3);
}

void expectTheSameInAnySlice(const std::string& text) {
    const auto whole = inOneSlice(text);
    for (std::size_t slice = longestRow + 3; slice < text.size() + longestRow + 3; ++slice) {
        INFO(slice);
        CHECK(readInSlices(text, slice) == whole);
    }
}

struct Imported {
    std::string refusal;
    std::string contents;
    std::string words;
};

Imported importWith(const Asked& asked, std::size_t rowsInMemory) {
    Asked careful = asked;
    careful.request.habits.room.rowsInMemory = rowsInMemory;
    auto book = Logbook::inMemory();
    const auto outcome = import(book, careful);
    return {outcome ? "" : outcome.error().sentence(), contentsOf(book), outcome ? inWords(*outcome, false) : ""};
}

/// Rows of some places in no order, with repeats, in two offsets, here and there with a note.
std::string someRows() {
    std::string text = "time,temperature,position,note\n";
    const auto count = *rc::gen::inRange(1, 60);
    const auto span = *rc::gen::inRange<std::int64_t>(20, 2'000);
    for (int row = 0; row < count; ++row) {
        const auto minute = *rc::gen::inRange<std::int64_t>(0, span);
        const auto offset = static_cast<std::int16_t>(*rc::gen::element(0, 60));
        text += isoLocal({Instant{1'767'225'600 + minute * 60}, {offset}}) + "," +
                std::to_string(minute % 90 + (*rc::gen::inRange(0, 150) == 0 ? 1 : 0)) + "," +
                *rc::gen::element<std::string>("core", "side") + "," + (minute % 11 == 0 ? "seen" : "") + "\n";
    }
    return text;
}

std::string hourly(int rows) {
    std::string text = "time,temperature\n";
    for (int row = 0; row < rows; ++row) {
        text += isoUtc(Instant{1'767'225'600 + row * 3'600}) + "," + std::to_string(row % 70) + ".5\n";
    }
    return text;
}

std::string readTable(CsvTable table) {
    for (auto more = table.next();; more = table.next()) {
        if (!more || !*more) {
            return more ? "read to the end" : more.error().problem.sentence();
        }
    }
}

}  // namespace

TEST_CASE("fields and line ends that lie across slices are read as if they did not") {
    const std::string head = "time,temperature,note\n";
    expectTheSameInAnySlice(head + "a,1,\"two\nlines\"\nb,2,\"a \"\"word\"\"\"\n\n\nc,3,Größe €\n");
    expectTheSameInAnySlice("time,temperature,note\r\na,1,x\r\n\r\nb,2,\"y\r\nz\"\r\nc,3,\r\n");
    expectTheSameInAnySlice("\xEF\xBB\xBF\ntime;temperature;note\ra;1,5;x\rb;2;y");
    expectTheSameInAnySlice(head + "a,1,no newline at the end of this last line");
    expectTheSameInAnySlice(head + "a,1,\nb,2,a quote that is\nc,3,\"never closed\n\n\n");
    expectTheSameInAnySlice(head + "a,1,\nb,2,x\0y\nc,3,\n"s);
    expectTheSameInAnySlice(head + "a,1,\nb,2," + std::string(longestRow, 'x') + "\nc,3,\n");
    expectTheSameInAnySlice(head + "a,1,\nb,2," + std::string(longestRow - 5, 'x') + "\r\nc,3,\n");
    expectTheSameInAnySlice(head + "a,1,\nb,2,half of a letter: \xE2\x82");
    CHECK(inOneSlice(head + "a,1,x") == "2|a|1|x\n");
}

TEST_CASE("any text is read the same in slices of any size", "[random]") {
    constexpr std::string_view alphabet = "time,;\t\"\r\n\"\r\n 01:TZ+.fé\xFF\x01=";
    CHECK(rc::check([&] {
        std::string text =
            *rc::gen::element<std::string>("time,temperature,note\n", "time;temperature\r\n", "\xEF\xBB\xBF");
        const auto length = *rc::gen::inRange<std::size_t>(0, 250);
        for (std::size_t i = 0; i < length; ++i) {
            text += alphabet[*rc::gen::inRange<std::size_t>(0, alphabet.size())];
        }
        const auto slice = *rc::gen::inRange<std::size_t>(longestRow + 3, 200);
        RC_ASSERT(readInSlices(text, slice) == inOneSlice(text));
    }));
}

TEST_CASE("rows in any order make the same book however few of them fit into memory", "[random]") {
    CHECK(rc::check([] {
        Asked asked{"Spring"};
        asked.readings(someRows());
        if (*rc::gen::arbitrary<bool>()) {
            asked.start("2025-12-31T00:00Z").moves("time,bin\n2026-01-01T05:00Z,South\n2026-01-01T15:00Z,North\n");
        }
        const auto whole = importWith(asked, 1'000);
        const auto careful = importWith(asked, *rc::gen::inRange<std::size_t>(1, 40));
        RC_ASSERT(careful.refusal == whole.refusal);
        RC_ASSERT(careful.contents == whole.contents);
        RC_ASSERT(careful.words == whole.words);
    }));
}

TEST_CASE("a repeat far behind in the file is one reading and another value names both lines") {
    Asked asked{"Spring"};
    asked.readings(hourly(50) + "2026-01-01T03:00:00Z,3.50\n");
    CHECK(importWith(asked, 4).words.find("50 readings added.") != std::string::npos);
    asked.readings(hourly(50) + "2026-01-01T03:00:00Z,3.6\n");
    const auto refusal = importWith(asked, 4).refusal;
    CHECK(refusal.find("readings.csv:52: 3.6 °C here, but 3.5 °C in line 5, for the same place") != std::string::npos);
}

TEST_CASE("a conflict with the book names its line however few rows fit into memory") {
    auto book = Logbook::inMemory();
    imported(book, Asked("Spring").readings("time,temperature\n2026-01-01T20:00Z,9\n"));
    Asked asked{"Spring"};
    asked.readings(hourly(50)).request.habits.room.rowsInMemory = 4;
    CHECK(refusalOf(book, asked).starts_with("readings.csv:22: 20.5 °C here, but the logbook holds 9 °C"));
}

TEST_CASE("a file that grows or shrinks while it is read is refused") {
    const Scratch scratch;
    const auto file = scratch.write("r.csv", hourly(20));
    auto growing = CsvTable::open(file, specs);
    REQUIRE(growing);
    std::ofstream{file, std::ios::app} << "2027-01-01T00:00Z,5\n";
    const std::string changed =
        "the file was changed while it was read; expected a file that no other program is writing; try again, or take "
        "a copy";
    CHECK(readTable(std::move(*growing)) == changed);
    auto shrinking = CsvTable::open(file, specs);
    REQUIRE(shrinking);
    std::filesystem::resize_file(file, 100);
    CHECK(readTable(std::move(*shrinking)) == changed);
    CHECK(readTable(*CsvTable::open(scratch.write("s.csv", hourly(20)), specs)) == "read to the end");
}

TEST_CASE("a pipe is read twice where the order of day and month asks for it") {
    const Scratch scratch;
    const auto pipe = scratch.path("pipe");
    REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
    std::thread writer{[&] { std::ofstream{pipe} << "time,temperature\n03/04/2026 08:00,1\n13/04/2026 08:00,2\n"; }};
    Asked asked{"Spring"};
    asked.request.habits.zone = TimeZone::utc();
    asked.request.files.readings = pipe;
    auto book = Logbook::inMemory();
    const auto outcome = import(book, asked);
    writer.join();
    REQUIRE(outcome);
    CHECK(isoUtc(outcome->started.at) == "2026-04-03T08:00:00Z");
}

TEST_CASE("a folder that cannot keep the rows meanwhile is named and nothing is stored") {
    Asked asked{"Spring"};
    asked.readings(hourly(50));
    asked.request.habits.room = {"/nonexistent", 10};
    auto book = Logbook::inMemory();
    CHECK_THROWS_WITH(import(book, asked), Catch::StartsWith("the folder /nonexistent cannot hold"));
    CHECK(book.batches().empty());
}

TEST_CASE("a scratch folder without room is told from other troubles") {
    const Scratch scratch;
    ScratchFile file{scratch.folder()};
    struct rlimit before {};
    ::getrlimit(RLIMIT_FSIZE, &before);
    const auto onTooLong = std::signal(SIGXFSZ, SIG_IGN);
    const struct rlimit tight { 4'096, before.rlim_max };
    ::setrlimit(RLIMIT_FSIZE, &tight);
    const std::vector<std::byte> bytes(10'000);
    std::optional<LogbookError::Kind> kind;
    try {
        file.append(bytes);
    } catch (const LogbookError& error) {
        kind = error.kind;
    }
    ::setrlimit(RLIMIT_FSIZE, &before);
    std::signal(SIGXFSZ, onTooLong);
    CHECK(kind == LogbookError::Kind::full);
    CHECK(std::filesystem::is_empty(scratch.folder()));
}
