// SPDX-License-Identifier: GPL-3.0-or-later
// What may lie beside a book, and what a connection does with it.
#include <sqlite3.h>
#include <sys/stat.h>

#include <catch2/catch.hpp>
#include <fstream>

#include "core/store/care/book_summary.h"
#include "core/store/care/comparison.h"
#include "core/store/sqlite/database.h"
#include "tests/core/store/books.h"

using namespace midden;
using namespace midden::trial;
using Kind = LogbookError::Kind;
using Mode = Logbook::Mode;
namespace fs = std::filesystem;

namespace {

constexpr std::string_view journalMark{"\xd9\xd5\x05\xf9\x20\xa1\x63\xd7", 8};

fs::path smallBook(const Folder& folder, const std::string& name = "plot.midden") {
    auto book = Logbook::open(folder / name, Mode::createIfAbsent);
    putReading(book, putBin(book, "North"), "core", 1, 55);
    return folder / name;
}

std::string bytesOf(const fs::path& file) {
    std::ifstream in{file, std::ios::binary};
    return {std::istreambuf_iterator<char>{in}, {}};
}

void write(const fs::path& file, const std::string& bytes) {
    std::ofstream{file, std::ios::binary} << bytes;
}

std::string fourBytes(std::uint64_t number) {
    std::string bytes;
    for (const int shift : {24, 16, 8, 0}) {
        bytes += static_cast<char>((number >> static_cast<unsigned>(shift)) & 0xffU);
    }
    return bytes;
}

/// A journal with no page in it, of a book of so many pages.
std::string journalOf(std::uint64_t pages, std::uint64_t pageBytes = 8'192) {
    std::string head{journalMark};
    head += fourBytes(0) + fourBytes(1) + fourBytes(pages) + fourBytes(512) + fourBytes(pageBytes);
    head.resize(512, '\0');
    return head;
}

std::string naming(const fs::path& other) {
    const auto name = other.string();
    std::uint64_t sum = 0;
    for (const char byte : name) {
        sum += static_cast<unsigned char>(byte);
    }
    return fourBytes(0x40000000 / 8'192 + 1) + name + fourBytes(name.size()) + fourBytes(sum) +
           std::string{journalMark};
}

fs::path journalBeside(const fs::path& book) {
    return fs::path{book} += "-journal";
}

/// Refused in every mode, with a word for what lies there; the book stays as it was to the byte.
void checkRefused(const fs::path& book, const std::string& word) {
    const auto before = bytesOf(book);
    for (const auto mode : {Mode::readOnly, Mode::readWrite, Mode::createIfAbsent}) {
        std::string said;
        try {
            Logbook::open(book, mode);
        } catch (const LogbookError& error) {
            said = error.what();
            CHECK(error.kind == Kind::foreign);
        }
        CHECK_THAT(said, Catch::Contains(word) && Catch::Contains("nothing was opened or changed"));
    }
    CHECK(bytesOf(book) == before);
}

}  // namespace

TEST_CASE("a journal that names another file is refused, and both stay") {
    const Folder folder;
    const auto book = smallBook(folder);
    const auto other = folder / "diary.txt";
    const bool ofABook = GENERATE(false, true);
    write(other, ofABook ? bytesOf(smallBook(folder, "other.midden")) : "my diary");
    const auto before = bytesOf(other);
    const auto journal = journalOf(fs::file_size(book) / 8'192) + naming(other);
    write(journalBeside(book), journal);
    checkRefused(book, "names another file");
    CHECK(bytesOf(other) == before);
    CHECK(bytesOf(journalBeside(book)) == journal);
    CHECK(refusalOf([&] { Logbook::open(smallBook(folder, "third.midden"), Mode::readOnly).backUpTo(other); }));
    CHECK(bytesOf(other) == before);
}

TEST_CASE("a hostile journal beside a copy is refused when the copy is looked into or put in a book's place") {
    const Folder folder;
    const auto book = smallBook(folder);
    const auto copy = smallBook(folder, "copy.midden");
    const auto diary = folder / "diary.txt";
    write(diary, "my diary");
    write(journalBeside(copy), journalOf(fs::file_size(copy) / 8'192) + naming(diary));
    const auto before = bytesOf(book);
    CHECK(refusalOf([&] { compare(Logbook::open(book, Mode::readOnly), copy); }) == Kind::foreign);
    CHECK(refusalOf([&] { replaceBook(book, copy); }) == Kind::foreign);
    CHECK(bytesOf(diary) == "my diary");
    CHECK(bytesOf(book) == before);
}

TEST_CASE("a journal may not make a book larger than the two are together") {
    const Folder folder;
    const auto book = smallBook(folder);
    SECTION("many pages") {
        write(journalBeside(book), journalOf(1'000'000));
    }
    SECTION("the largest numbers there are") {
        write(journalBeside(book), journalOf(0xffff'ffff, 0xffff'ffff));
    }
    checkRefused(book, "larger than it can have been");
}

TEST_CASE("what lies where a journal would is refused unless it is a file") {
    const Folder folder;
    const auto book = smallBook(folder);
    const auto journal = journalBeside(book);
    const auto target = folder / "target";
    write(target, journalOf(1));
    SECTION("a link") {
        fs::create_symlink(target, journal);
    }
    SECTION("a pipe") {
        REQUIRE(::mkfifo(journal.c_str(), 0600) == 0);
    }
    SECTION("a folder") {
        fs::create_directory(journal);
    }
    SECTION("a device") {
        fs::create_symlink("/dev/zero", journal);
    }
    const auto kind = fs::symlink_status(journal).type();
    checkRefused(book, "plot.midden-journal beside the book is not a file");
    CHECK(bytesOf(target) == journalOf(1));
    CHECK(fs::symlink_status(journal).type() == kind);
}

TEST_CASE("a write-ahead log is not played into a book") {
    const Folder folder;
    const auto book = smallBook(folder);
    const auto log = fs::path{book} += "-wal";
    SECTION("beside a book") {
        write(log, "some log");
        checkRefused(book, "plot.midden-wal beside the book");
        CHECK(bytesOf(log) == "some log");
    }
    SECTION("of a book that was switched to one") {
        plainly(book, "PRAGMA journal_mode = WAL");
        checkRefused(book, "write-ahead log of plot.midden");
        CHECK_FALSE(fs::exists(log));
        CHECK(plainly(book, "PRAGMA journal_mode = DELETE") == "delete");
        CHECK_FALSE(refusalOf([&] { Logbook::open(book, Mode::readOnly); }));
    }
    CHECK_FALSE(fs::exists(fs::path{book} += "-shm"));
}

TEST_CASE("the journal of a change that was cut short is rolled back as ever") {
    const Folder folder;
    const auto book = smallBook(folder);
    const auto before = bytesOf(book);
    const auto cut = folder / "cut.midden";
    {
        SQLite::Database writer{book.string(), SQLite::OPEN_READWRITE};
        writer.exec("PRAGMA cache_size = 1; BEGIN; UPDATE bin SET note = hex(zeroblob(90000))");
        write(journalBeside(cut), bytesOf(journalBeside(book)));
        write(cut, bytesOf(book));
    }
    REQUIRE(bytesOf(cut) != before);
    CHECK(Logbook::open(cut, Mode::readOnly).bins().at(0).note.empty());
    CHECK_FALSE(fs::exists(journalBeside(cut)));
}

TEST_CASE("two connections of one program keep to their own files") {
    const Folder folder;
    DatabaseFile one{smallBook(folder), SQLITE_OPEN_READWRITE};
    DatabaseFile other{smallBook(folder, "other.midden"), SQLITE_OPEN_READWRITE};
    one.run("BEGIN; UPDATE hand SET who = 'ada'");
    other.run("BEGIN; UPDATE hand SET who = 'grace'");
    one.run("COMMIT");
    other.run("COMMIT");
    CHECK(one.text("SELECT who FROM hand") == "ada");
    CHECK(other.text("SELECT who FROM hand") == "grace");
}
