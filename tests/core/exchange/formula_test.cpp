// SPDX-License-Identifier: GPL-3.0-or-later
// Text that a spreadsheet would run as a formula: OWASP, "CSV Injection", names = + - @, tab and carriage return at the
// start of a cell.
#include <catch2/catch.hpp>
#include <cstdlib>

#include "core/exchange/export/export.h"
#include "core/exchange/plan/import.h"
#include "core/files/file_trouble.h"
#include "tests/core/exchange/contents.h"

using namespace midden;
using midden::testing::contentsOf;
using midden::testing::Scratch;

namespace {

namespace fs = std::filesystem;
using Row = std::vector<std::string>;

const Instant noon{1'772'366'400};  // 2026-03-01T12:00Z

/// A reader of its own, by RFC 4180, so that what we write is not judged by what we read.
std::vector<Row> rowsOf(const std::string& text) {
    std::vector<Row> rows{{""}};
    bool quoted = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (quoted && c == '"' && i + 1 < text.size() && text[i + 1] == '"') {
            rows.back().back() += text[++i];
        } else if (c == '"') {
            quoted = !quoted;
        } else if (!quoted && c == ',') {
            rows.back().emplace_back();
        } else if (!quoted && c == '\n') {
            rows.push_back({""});
        } else if (quoted || c != '\r') {
            rows.back().back() += c;
        }
    }
    rows.pop_back();  // after the last line break
    return rows;
}

bool isNumber(const std::string& cell) {
    char* end = nullptr;
    std::strtod(cell.c_str(), &end);
    return !cell.empty() && *end == '\0';
}

bool couldRun(const std::string& cell) {
    return !cell.empty() && std::string{"=+-@\t\r\n"}.find(cell[0]) != std::string::npos && !isNumber(cell);
}

/// A book in which every text that is exported begins with `start`.
Logbook bookOf(const std::string& start) {
    auto book = Logbook::inMemory();
    const Moment when{noon, {}};
    const auto text = [&](const std::string& rest) { return start + rest; };
    const auto bin = std::get<BinId>(book.apply(Put<Bin>{{.name = text("North"), .note = text("bin")}}).id);
    const auto next = std::get<BinId>(book.apply(Put<Bin>{{.name = text("South"), .note = text("next")}}).id);
    const auto probe = std::get<ProbeId>(book.apply(Put<Probe>{{.name = text("probe"), .note = text("dial")}}).id);
    book.apply(Put<PlaceSetting>{{{bin, text("core")}, true}});
    Batch batch{.name = "spring", .started = when};
    batch.stays = {{noon, bin}, {noon + days(2), next}};
    const auto id = std::get<BatchId>(book.apply(Put<Batch>{batch}).id);
    for (const Place& place : {Place{bin, text("core")}, Place{bin, ""}, Place{{}, ""}}) {
        Reading reading{.place = place, .when = {noon + hours(1), {}}, .written = {550'000}, .probe = probe};
        reading.note = text("windy");
        book.apply(Put<Reading>{reading});
    }
    Reading later{.place = {next, text("core")}, .when = {noon + days(40), {}}, .written = {-55'000}};
    book.apply(Put<Reading>{later});
    book.apply(
        Put<Addition>{{.batch = id, .when = when, .material = text("straw"), .massKilograms = 2, .note = text("wet")}});
    book.apply(Put<Aeration>{{.batch = id, .when = when, .note = text("turned")}});
    book.apply(Put<Observation>{
        {.batch = id, .when = when, .subject = text("smell"), .value = text("earth"), .note = text("good")}});
    book.apply(Put<ThermometerCheck>{{.probe = probe, .when = when, .read = {5'000}, .note = text("ice")}});
    return book;
}

const std::set<std::string> textColumns{"bin", "position", "probe", "material", "subject", "value", "note"};

/// Every text column was written, each in a cell that begins with an apostrophe.
std::set<std::string> columnsOf(const fs::path& file, const std::string& start) {
    std::set<std::string> guarded;
    const auto rows = rowsOf(Scratch::read(file));
    for (std::size_t i = 1; i < rows.size(); ++i) {
        REQUIRE(rows[i].size() == rows[0].size());
        for (std::size_t column = 0; column < rows[i].size(); ++column) {
            const auto& cell = rows[i][column];
            INFO(file.filename().string() << " " << rows[0][column] << " " << cell);
            CHECK_FALSE(couldRun(cell));
            if (cell.starts_with("'" + start)) {
                CHECK(textColumns.contains(rows[0][column]));
                guarded.insert(rows[0][column]);
            }
        }
    }
    return guarded;
}

std::optional<fs::path> fileOf(const fs::path& folder, const std::string& name) {
    return fs::exists(folder / name) ? std::optional{folder / name} : std::nullopt;
}

ImportRequest everythingIn(const fs::path& folder) {
    ImportRequest request;
    request.batch = "spring";
    request.start = Moment{noon, {}};
    request.files.readings = fileOf(folder / "spring", "readings.csv");
    request.files.additions = fileOf(folder / "spring", "additions.csv");
    request.files.aerations = fileOf(folder / "spring", "aerations.csv");
    request.files.observations = fileOf(folder / "spring", "observations.csv");
    request.files.moves = fileOf(folder / "spring", "moves.csv");
    request.files.outside = fileOf(folder, "outside.csv");
    request.files.bins = fileOf(folder, "bins.csv");
    request.files.positions = fileOf(folder, "positions.csv");
    request.files.probes = fileOf(folder, "probes.csv");
    request.files.checks = fileOf(folder, "checks.csv");
    return request;
}

}  // namespace

TEST_CASE("no exported text runs in a spreadsheet and each reads back as it was") {
    const std::string start = GENERATE("=1+", "+1", "-1", "@sum", "\tx", "\rx", "\nx", "'=", "''-");
    const auto book = bookOf(start);
    const Scratch space;
    const auto folder = space.path("out");
    exportLogbook(book, folder);
    std::set<std::string> guarded;
    for (const auto& entry : fs::recursive_directory_iterator{folder}) {
        if (entry.path().extension() == ".csv") {
            guarded.merge(columnsOf(entry.path(), start));
        }
    }
    CHECK(guarded == textColumns);

    auto again = Logbook::inMemory();
    auto request = everythingIn(folder);
    request.bin = start + "North";
    auto staged = readFiles(request);
    REQUIRE(staged);
    const auto stored = storeImport(again, request, std::move(*staged));
    REQUIRE(stored);
    CHECK(contentsOf(again) == contentsOf(book));
}

TEST_CASE("an export that finds no place is refused in words, however the machine says it") {
    const auto book = bookOf("=1+");
    CHECK_THROWS_AS(exportLogbook(book, fs::path{}), FileTrouble);
}
