// SPDX-License-Identifier: GPL-3.0-or-later
// A book of format 1, written by the program that had it, comes to this one.
#include <sqlite3.h>

#include <catch2/catch.hpp>
#include <fstream>

#include "core/quantities/sha256.h"
#include "core/store/care/book_summary.h"
#include "core/store/care/comparison.h"
#include "core/store/care/salvage/salvage.h"
#include "core/store/schema/schema.h"
#include "tests/core/store/stewards.h"

using namespace midden;
using namespace midden::trial;
using Kind = LogbookError::Kind;
using Mode = Logbook::Mode;
namespace fs = std::filesystem;

namespace {

std::string bytesOf(const fs::path& file) {
    std::ifstream in{file, std::ios::binary};
    return {std::istreambuf_iterator<char>{in}, {}};
}

fs::path oldBook(const Folder& folder, const std::string& name = "plot.midden") {
    fs::copy_file(fs::path{MIDDENBOOK_SOURCE_DIR} / "tests/support/formats/format-1.midden", folder / name);
    fs::permissions(folder / name, fs::perms::owner_read | fs::perms::owner_write);
    return folder / name;
}

std::vector<std::string> namesIn(const Folder& folder) {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator{folder.path()}) {
        names.push_back(entry.path().filename().string());
    }
    std::sort(names.begin(), names.end());
    return names;
}

/// All of a book's rows, in the columns that format 1 had.
std::string rowsOfFormatOne(const fs::path& file, const fs::path& first) {
    std::string text;
    SQLite::Database columns{first.string(), SQLite::OPEN_READONLY};
    SQLite::Database book{file.string(), SQLite::OPEN_READONLY};
    SQLite::Statement tables{columns,
                             "SELECT t.name, group_concat(c.name) FROM sqlite_schema t, pragma_table_info(t.name) c "
                             "WHERE t.type = 'table' AND t.name NOT LIKE 'sqlite%' GROUP BY t.name ORDER BY t.name"};
    while (tables.executeStep()) {
        const auto list = tables.getColumn(1).getString();
        SQLite::Statement rows{book,
                               "SELECT " + list + " FROM " + tables.getColumn(0).getString() + " ORDER BY " + list};
        text += tables.getColumn(0).getString() + "\n";
        while (rows.executeStep()) {
            for (int i = 0; i < rows.getColumnCount(); ++i) {
                text += rows.getColumn(i).getString() + "|";
            }
            text += "\n";
        }
    }
    return text;
}

}  // namespace

TEST_CASE("what the first step makes is what the program that had format 1 made") {
    DatabaseFile made{":memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE};
    setUpConnection(made);
    migrate(made, Migrations{migrations}.first(1));
    CHECK(schemaDigest(made) == "4bf79181ab8b0a05c7498f655a49ee8d4d8d81af65c03e4b2ab3b2a742e19338");
}

TEST_CASE("a book of format 1 is copied beside and then loses nothing") {
    const Folder folder;
    const auto file = oldBook(folder);
    const auto before = bytesOf(file);
    const auto rows = rowsOfFormatOne(file, file);
    {
        const auto book = Logbook::open(file, Mode::readWrite);
        CHECK_FALSE(book.isReadOnly());
        CHECK(book.check(sha256).faults.empty());
        for (const auto& batch : book.batches()) {
            CHECK_FALSE(batch.fed);
        }
    }
    CHECK(namesIn(folder) == std::vector<std::string>{"plot before format 2.midden", "plot.midden"});
    CHECK(plainly(file, "PRAGMA user_version") == "2");
    const auto kept = folder / "plot before format 2.midden";
    CHECK(plainly(kept, "PRAGMA user_version") == "1");
    CHECK(rowsOfFormatOne(file, kept) == rows);
    CHECK(rowsOfFormatOne(kept, kept) == rows);
}

TEST_CASE("a book of format 1 that is only read stays as it is to the byte") {
    const Folder folder;
    const auto file = oldBook(folder);
    const auto before = bytesOf(file);
    std::string read;
    {
        const auto book = Logbook::open(file, Mode::readOnly);
        CHECK(book.isReadOnly());
        CHECK(book.file() == file);
        CHECK(book.check(sha256).faults.empty());
        read = everything(book);
        book.backUpTo(folder / "backup.midden");
    }
    CHECK(bytesOf(file) == before);
    CHECK(namesIn(folder) == std::vector<std::string>{"backup.midden", "plot.midden"});
    CHECK(everything(Logbook::open(file, Mode::readWrite)) == read);
    CHECK(everything(Logbook::open(folder / "backup.midden", Mode::readOnly)) == read);
    CHECK(plainly(folder / "backup.midden", "PRAGMA user_version") == "2");
}

TEST_CASE("a kept copy of format 1 is compared with the book, merged into it, and takes its place") {
    const Folder folder;
    const auto file = oldBook(folder);
    const auto copy = oldBook(folder, "kept.midden");
    const auto before = bytesOf(copy);
    auto book = Logbook::open(file, Mode::readWrite);
    CHECK(compare(book, copy).empty());
    CHECK(compare(Logbook::open(copy, Mode::readOnly), file).empty());
    const auto whole = everything(book);
    CHECK(book.merge(Logbook::open(copy, Mode::readOnly)).conflicts.empty());
    CHECK(everything(book) == whole);
    putBin(book, "one more");
    const auto differences = compare(book, copy);
    REQUIRE(differences.size() == 1);
    CHECK(differences[0].book == 1);
    CHECK_FALSE(replaceBook(file, copy));
    CHECK(everything(Logbook::open(file, Mode::readOnly)) == whole);
    CHECK(plainly(file, "PRAGMA user_version") == "2");
    CHECK(bytesOf(copy) == before);
}

TEST_CASE("copies that were corrected before they came to this format meet as they would have") {
    const Folder folder;
    {
        DatabaseFile made{folder / "ada.midden", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE};
        setUpConnection(made);
        migrate(made, Migrations{migrations}.first(1));
        made.run(
            "INSERT INTO bin(key, name, note, retired) VALUES (lower(hex(zeroblob(16))), 'North', '', 0);"
            "INSERT INTO batch(key, name, bin, started, started_offset, start_given, note)"
            " VALUES (lower(hex(zeroblob(16))), 'spring', 1, 1772366400, 0, 1, '');"
            "INSERT INTO aeration VALUES ('0123456789abcdef0123456789abcdef', 1, 1772366400, 0, 1, '', 0, '', 1);"
            "INSERT INTO place_setting VALUES (1, 'core', 0)");
    }
    fs::copy_file(folder / "ada.midden", folder / "grace.midden");
    execute(folder / "ada.midden",
            "UPDATE hand SET at = 1772370000; UPDATE bin SET note = 'by the gate'; UPDATE batch SET note = 'early';"
            "UPDATE aeration SET kind = 0; UPDATE place_setting SET spot_check = 1; UPDATE hand SET at = NULL");
    auto ada = Logbook::open(folder / "ada.midden", Mode::readWrite);
    auto grace = Logbook::open(folder / "grace.midden", Mode::readWrite);
    const auto outcome = grace.merge(ada);
    CHECK(outcome.conflicts.empty());
    CHECK(outcome.changed == 4);
    CHECK(everything(grace) == everything(ada));
    CHECK(ada.merge(grace).conflicts.empty());
    CHECK(everything(grace) == everything(ada));
}

TEST_CASE("a book of format 1 with a rule that is not ours is left alone") {
    const Folder folder;
    const auto file = oldBook(folder);
    execute(file, "CREATE TRIGGER theirs AFTER INSERT ON observation BEGIN DELETE FROM reading_more; END");
    const auto before = bytesOf(file);
    CHECK(refusalOf([&] { Logbook::open(file, Mode::readWrite); }) == Kind::damaged);
    CHECK(refusalOf([&] { Logbook::open(file, Mode::readOnly); }) == Kind::damaged);
    CHECK(bytesOf(file) == before);
    CHECK(namesIn(folder).size() == 1);
}

TEST_CASE("a kind that no program of this format writes is damage") {
    const Folder folder;
    const auto file = folder / "plot.midden";
    {
        auto book = Logbook::open(file, Mode::createIfAbsent);
        const auto batch = putBatch(book, putBin(book, "North"), "spring", 0);
        book.apply(Put<Observation>{{.batch = batch, .when = at(1)}});
        book.apply(Put<Aeration>{{.batch = batch, .when = at(1)}});
    }
    const auto table = GENERATE("observation", "aeration");
    execute(file, std::string{"UPDATE "} + table + " SET kind = 77");
    CHECK(refusalOf([&] { Logbook::open(file, Mode::readOnly); }) == Kind::damaged);
}

TEST_CASE("a book of format 1 is salvaged as what it was, and comes out as this format") {
    const Folder folder;
    const auto file = oldBook(folder);
    auto bytes = bytesOf(file);
    SECTION("sound") {}
    SECTION("without its first page") {
        bytes.replace(0, 8'192, 8'192, '\0');
    }
    std::ofstream{folder / "damaged.midden", std::ios::binary} << bytes;
    const auto report = salvageBook(folder / "damaged.midden", folder / "fresh.midden", sha256);
    CHECK(report.faults.empty());
    CHECK(plainly(folder / "fresh.midden", "PRAGMA user_version") == "2");
    CHECK(everything(Logbook::open(folder / "fresh.midden", Mode::readOnly)) ==
          everything(Logbook::open(file, Mode::readOnly)));
}

TEST_CASE("a book that came from format 1 is salvaged with the rows it had before") {
    const Folder folder;
    const auto file = oldBook(folder);
    {
        auto book = Logbook::open(file, Mode::readWrite);
        auto bin = book.bins().front();
        bin.heightCentimetres = 90;
        book.apply(Amend<Bin>{bin.id, bin, ""});
    }
    const auto report = salvageBook(file, folder / "fresh.midden", sha256);
    CHECK(report.isWhole());
    CHECK(report.faults.empty());
    CHECK(everything(Logbook::open(folder / "fresh.midden", Mode::readOnly)) ==
          everything(Logbook::open(file, Mode::readOnly)));
}
