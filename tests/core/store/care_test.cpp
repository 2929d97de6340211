// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>
#include <fstream>

#include "core/store/soundness.h"
#include "core/store/sqlite/damage_words.h"
#include "tests/core/store/books.h"

using namespace midden;
using namespace midden::trial;
using Kind = LogbookError::Kind;
using Mode = Logbook::Mode;

namespace {

std::filesystem::path smallBook(const Folder& folder) {
    auto book = Logbook::open(folder / "plot.midden", Mode::createIfAbsent);
    const auto bin = putBin(book, "North");
    const auto batch = putBatch(book, bin, "spring", 0);
    putReading(book, bin, "core", 1, 55);
    Reading other = readingOf({bin, "core"}, 2, 56);
    other.when.offset = {60};
    book.apply(Put<Reading>{other});
    book.storeCertificate({"2026-1", batch, at(9).at, std::string(64, 'a'), "the record", ""});
    return folder / "plot.midden";
}

std::string allAs(std::string_view) {
    return std::string(64, 'a');
}

std::vector<std::string> faultsAfter(const std::filesystem::path& file, const std::string& sql) {
    execute(file, sql);
    return Logbook::open(file, Mode::readOnly).check(allAs).faults;
}

}  // namespace

TEST_CASE("a sound book passes its check and is not touched by it") {
    const Folder folder;
    const auto file = smallBook(folder);
    const auto before = std::filesystem::last_write_time(file);
    const auto report = Logbook::open(file, Mode::readOnly).check(allAs);
    CHECK(report.faults.empty());
    CHECK(report.batches == 1);
    CHECK(report.readings == 2);
    CHECK(report.certificates == 1);
    CHECK(std::filesystem::last_write_time(file) == before);
}

TEST_CASE("a check finds what contradicts the rules of the book") {
    const Folder folder;
    const auto file = smallBook(folder);
    SECTION("two readings at one place and instant") {
        const auto faults = faultsAfter(
            file, "UPDATE reading SET at = (SELECT min(at) FROM reading) WHERE at = (SELECT max(at) FROM reading)");
        CHECK(faults == std::vector<std::string>{"Two readings stand at core, North, 2026-03-01T13:00:00Z."});
    }
    SECTION("no two batches that come to one bin at once") {
        CHECK(faultsAfter(file,
                          "INSERT INTO batch(name, bin, started, started_offset, start_given, note) "
                          "SELECT 'summer', bin, started, 0, 1, '' FROM batch") ==
              std::vector<std::string>{});  // as copies of a book may say that are merged
    }
    SECTION("a row without its owner") {
        CHECK(faultsAfter(file, "PRAGMA foreign_keys = OFF; DELETE FROM bin") ==
              std::vector<std::string>{
                  "Among the batches is 1 that belongs to something that is not in the book.",
                  "Among the places and ways of reading are 2 that belong to something that is not in the book."});
    }
    SECTION("a value outside its range") {
        const auto faults = faultsAfter(file, "PRAGMA ignore_check_constraints = ON; UPDATE reading SET raw = 9999999");
        REQUIRE(faults.size() == 3);  // the two readings became amendments, which cannot be read either
        CHECK(faults[0] == "The file is damaged: among the readings is a value that no logbook holds.");
        CHECK_THAT(faults[1], Catch::StartsWith("Amendment ") && Catch::EndsWith(") cannot be read."));
        CHECK_THAT(faults[2], Catch::StartsWith("Amendment ") && Catch::EndsWith(") cannot be read."));
    }
    SECTION("a certificate changed behind its digest") {
        const auto book = Logbook::open(file, Mode::readOnly);
        const auto faults = book.check([](std::string_view) { return std::string(64, 'b'); }).faults;
        CHECK(faults ==
              std::vector<std::string>{"Certificate 2026-1 no longer matches the digest it was issued with."});
    }
}

TEST_CASE("damage is told in plain words, never in those of the library") {
    // The texts are those of SQLite 3.40, src/pragma.c ("PragTyp_INTEGRITY_CHECK") and src/btree.c (checkAppendMsg).
    CHECK(damageWords("CHECK constraint failed in batch") == "among the batches is a value that no logbook holds");
    CHECK(damageWords("NULL value in bin.name") == "among the bins is a value that no logbook holds");
    CHECK(damageWords("TEXT value in series.unit") ==
          "among the places and ways of reading is a value that no logbook holds");
    for (const char* found :
         {"row 3 missing from index batch_in_bin", "wrong # of entries in index sqlite_autoindex_bin_1",
          "non-unique entry in index series_once", "row not in PRIMARY KEY order for reading"}) {
        CHECK(damageWords(found) == "some of its entries and the lists that find them do not agree");
    }
    for (const char* found :
         {"*** in database main ***\nOn tree page 12 cell 3: Rowid 7 out of order", "Page 9: never used",
          "*** in database main ***\nFreelist: size is 3 but should be 4", "database disk image is malformed", ""}) {
        CHECK(damageWords(found) == "parts of it cannot be read");
    }
}

TEST_CASE("a book whose bins cannot be right is refused in plain words") {
    const Folder folder;
    const auto file = smallBook(folder);
    execute(file, "PRAGMA ignore_check_constraints = ON; UPDATE bin SET retired = 7");
    CHECK_THROWS_WITH(Logbook::open(file, Mode::readOnly),
                      "plot.midden is damaged: among the bins is a value that no logbook holds");
}

TEST_CASE("readings that cannot be right keep a certificate from being issued, in plain words") {
    const Folder folder;
    const auto file = smallBook(folder);
    execute(file, "PRAGMA ignore_check_constraints = ON; UPDATE reading SET raw = 9999999");
    CHECK_THROWS_WITH(expectSoundReadings(Logbook::open(file, Mode::readOnly)),
                      "plot.midden is damaged: among the readings is a value that no logbook holds");
}

TEST_CASE("a backup is a book of its own with everything in it") {
    const Folder folder;
    const auto file = smallBook(folder);
    const auto book = Logbook::open(file, Mode::readOnly);
    book.backUpTo(folder / "copy 'é'.midden");
    const auto copy = Logbook::open(folder / "copy 'é'.midden", Mode::readWrite);
    CHECK(copy.check(allAs).faults.empty());
    CHECK(copy.record(copy.batches().at(0).id).readings == 2);
    CHECK(copy.certificate("2026-1"));
    CHECK_FALSE(std::filesystem::exists(folder / "copy 'é'.midden.part"));
}

TEST_CASE("a backup while another program writes holds only what was finished") {
    const Folder folder;
    const auto file = smallBook(folder);
    auto writer = Logbook::open(file, Mode::readWrite);
    const auto reader = Logbook::open(file, Mode::readOnly);
    writer.inOneTransaction([&] {
        putBin(writer, "South");
        reader.backUpTo(folder / "copy.midden");
    });
    CHECK(Logbook::open(folder / "copy.midden", Mode::readOnly).bins().size() == 1);
    CHECK(writer.bins().size() == 2);
}

TEST_CASE("a backup never writes over a file and leaves nothing half made") {
    const Folder folder;
    const auto book = Logbook::open(smallBook(folder), Mode::readOnly);
    std::ofstream{folder / "taken.midden"} << "mine";
    CHECK(refusalOf([&] { book.backUpTo(folder / "taken.midden"); }) == Kind::refused);
    CHECK(std::filesystem::file_size(folder / "taken.midden") == 4);
    CHECK(refusalOf([&] { book.backUpTo(folder / "plot.midden"); }) == Kind::refused);
    CHECK(refusalOf([&] { book.backUpTo(folder / "nowhere/copy.midden"); }));
    CHECK(std::distance(std::filesystem::directory_iterator{folder.path()}, {}) == 2);
}
