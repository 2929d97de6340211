// SPDX-License-Identifier: GPL-3.0-or-later
#include <sqlite3.h>

#include <catch2/catch.hpp>
#include <fstream>
#include <future>
#include <thread>

#include "core/store/schema/schema.h"
#include "tests/core/store/books.h"

using namespace midden;
using namespace midden::trial;
using Kind = LogbookError::Kind;
using Mode = Logbook::Mode;
namespace fs = std::filesystem;

namespace {

fs::path smallBook(const Folder& folder, const std::string& name = "plot.midden") {
    auto book = Logbook::open(folder / name, Mode::createIfAbsent);
    const auto bin = putBin(book, "North");
    putBatch(book, bin, "spring", 0);
    putReading(book, bin, "core", 1, 55);
    return folder / name;
}

std::string bytesOf(const fs::path& file) {
    std::ifstream in{file, std::ios::binary};
    return {std::istreambuf_iterator<char>{in}, {}};
}

void write(const fs::path& file, const std::string& bytes) {
    std::ofstream{file, std::ios::binary} << bytes;
}

/// Opening is refused as `kind`, in every mode, and the file stays as it was to the byte.
void checkLeftAlone(const fs::path& file, Kind kind) {
    const auto before = bytesOf(file);
    for (const auto mode : {Mode::readOnly, Mode::readWrite, Mode::createIfAbsent}) {
        CHECK(refusalOf([&] { Logbook::open(file, mode); }) == kind);
    }
    CHECK(bytesOf(file) == before);
}

}  // namespace

TEST_CASE("a book is kept from one opening to the next") {
    const Folder folder;
    const auto file = smallBook(folder);
    const auto book = Logbook::open(file, Mode::readOnly);
    CHECK(book.isReadOnly());
    REQUIRE(book.batchNamed("spring"));
    CHECK(book.record(book.batchNamed("spring")->id).readings == 1);
    CHECK(book.binNamed("North"));
    CHECK_FALSE(book.binNamed("South"));
    CHECK(book.file() == file);
}

TEST_CASE("the digest by which a book's schema is known is that of what the ladder makes") {
    DatabaseFile made{":memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE};
    setUpConnection(made);
    migrate(made);
    CHECK(schemaDigest(made) == schemaDigestOfOurs);
    made.run("CREATE INDEX one_more ON batch(name)");
    CHECK(schemaDigest(made) != schemaDigestOfOurs);
}

TEST_CASE("the file carries our marks and keeps its rules") {
    const Folder folder;
    const auto file = smallBook(folder);
    CHECK(bytesOf(file).substr(68, 4) == "Midn");
    CHECK(plainly(file, "PRAGMA application_id") == std::to_string(0x4D69646E));
    CHECK(plainly(file, "PRAGMA user_version") == "2");
    CHECK(plainly(file, "PRAGMA journal_mode") == "delete");
    CHECK(plainly(file, "PRAGMA integrity_check") == "ok");
    CHECK(plainly(file,
                  "SELECT count(*) FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND strict = 0 "
                  "AND name NOT LIKE 'sqlite%'") == "0");
    CHECK(plainly(file, "SELECT group_concat(name) FROM pragma_table_info('reading')") == "series,at,raw");
    CHECK(plainly(file, "SELECT ncol || ',' || wr || ',' || strict FROM pragma_table_list WHERE name = 'reading'") ==
          "3,1,1");
}

TEST_CASE("the schema refuses nonsense by itself") {
    const Folder folder;
    const auto file = smallBook(folder);
    const auto sql =
        GENERATE("INSERT INTO reading VALUES ((SELECT min(id) FROM series), 5, 1500001)",
                 "INSERT INTO reading VALUES ((SELECT min(id) FROM series), 5, -600001)",
                 "INSERT INTO reading VALUES ((SELECT min(id) FROM series), 253402300800, 1)",
                 "INSERT INTO reading VALUES ((SELECT min(id) FROM series), 5, 'warm')",
                 "INSERT INTO series VALUES (5, 1, 'core', NULL, 0, 0, 0, '')",
                 "INSERT INTO series VALUES (6, NULL, 'core', NULL, 0, 0, 0, '')",
                 "INSERT INTO addition VALUES (hex(randomblob(16)), 1, 5, 0, 'straw', 0, NULL, NULL, NULL, NULL, NULL, "
                 "NULL, '', 0, "
                 "'', NULL)",
                 "INSERT INTO addition VALUES (hex(randomblob(16)), 1, 5, 0, 'straw', 1, NULL, 101, NULL, NULL, NULL, "
                 "NULL, '', 0, "
                 "'', NULL)",
                 "UPDATE batch SET finished = started - 1, finished_offset = 0", "UPDATE batch SET name = ''",
                 "INSERT INTO bin(name, note, retired) VALUES ('North', '', 0)");
    CHECK_THROWS_AS(execute(file, sql), SQLite::Exception);
}

TEST_CASE("an absent or empty file becomes a book only when asked") {
    const Folder folder;
    const auto file = folder / "none.midden";
    for (const bool empty : {false, true}) {
        if (empty) {
            fs::remove(file);
            write(file, "");
        }
        CHECK(refusalOf([&] { Logbook::open(file, Mode::readOnly); }) == Kind::absent);
        CHECK(refusalOf([&] { Logbook::open(file, Mode::readWrite); }) == Kind::absent);
        CHECK(fs::exists(file) == empty);
        CHECK_FALSE(refusalOf([&] { Logbook::open(file, Mode::createIfAbsent); }));
        CHECK_FALSE(refusalOf([&] { Logbook::open(file, Mode::readOnly); }));
    }
    CHECK(refusalOf([&] { Logbook::open(folder.path(), Mode::readWrite); }) == Kind::foreign);
    CHECK(refusalOf([&] { Logbook::open(folder / "no/such/folder.midden", Mode::createIfAbsent); }));
}

TEST_CASE("names with a special meaning to SQLite are plain names to us") {
    const Folder folder;
    for (const std::string name : {":memory:", "file:x?mode=memory", "a 'b' \"c\"\n\xf0\x9f\x8d\x82.midden"}) {
        Logbook::open(folder / name, Mode::createIfAbsent);
        CHECK(fs::file_size(folder / name) > 0);
    }
}

TEST_CASE("files of other programs are left alone") {
    const Folder folder;
    write(folder / "text.midden", "time,temperature\n" + std::string(2'000, 'x'));
    checkLeftAlone(folder / "text.midden", Kind::foreign);
    SQLite::Database{(folder / "other.db").string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE}.exec(
        "CREATE TABLE notes(text)");
    checkLeftAlone(folder / "other.db", Kind::foreign);
}

TEST_CASE("a newer format is refused and untouched") {
    const Folder folder;
    const auto file = smallBook(folder);
    execute(file, "PRAGMA user_version = 3");
    checkLeftAlone(file, Kind::newer);
}

TEST_CASE("a book with things that are not ours is refused") {
    const Folder folder;
    const auto file = smallBook(folder);
    const auto sql =
        GENERATE("CREATE TRIGGER extra AFTER INSERT ON reading BEGIN DELETE FROM setting; END",
                 "CREATE VIEW extra AS SELECT 1", "CREATE TABLE extra(x)", "DROP TRIGGER reading_withdrawn",
                 "CREATE INDEX extra ON reading(raw)", "DROP TABLE setting");
    execute(file, sql);
    checkLeftAlone(file, Kind::damaged);
}

TEST_CASE("statistics that a SQLite tool leaves do no harm") {
    const Folder folder;
    const auto file = smallBook(folder);
    execute(file, "ANALYZE");
    CHECK_FALSE(refusalOf([&] { Logbook::open(file, Mode::readWrite); }));
}

TEST_CASE("a torn file is called damaged") {
    const Folder folder;
    const auto file = smallBook(folder);
    const auto whole = bytesOf(file);
    write(file, whole.substr(0, 4'096) + std::string(whole.size() - 4'096, '\xAA'));
    const auto kind = refusalOf([&] {
        const auto book = Logbook::open(file, Mode::readOnly);
        book.record(book.batches().at(0).id);
    });
    CHECK(kind == Kind::damaged);
}

TEST_CASE("a read only book refuses to be written") {
    const Folder folder;
    const auto file = smallBook(folder);
    auto book = Logbook::open(file, Mode::readOnly);
    CHECK(refusalOf([&] { putBin(book, "South"); }) == Kind::readOnly);
    CHECK(refusalOf([&] { book.setSetting(setting::unit, "f"); }) == Kind::readOnly);
    CHECK(book.bins().size() == 1);
}

TEST_CASE("two openings see each other and wait for each other") {
    const Folder folder;
    const auto file = smallBook(folder);
    auto one = Logbook::open(file, Mode::readWrite);
    auto two = Logbook::open(file, Mode::readWrite);
    const auto before = two.dataVersion();
    CHECK(two.dataVersion() == before);
    putBin(one, "South");
    CHECK(two.dataVersion() != before);
    CHECK(two.bins().size() == 2);

    std::promise<void> begun;
    std::thread other{[&] {
        one.inOneTransaction([&] {
            putBin(one, "East");
            begun.set_value();
            std::this_thread::sleep_for(std::chrono::milliseconds{200});  // somebody who takes his time
        });
    }};
    begun.get_future().wait();
    putBin(two, "West");  // waits for the other
    other.join();
    CHECK(one.bins().size() == 4);
}

TEST_CASE("a transaction is all or nothing") {
    auto book = Logbook::inMemory();
    CHECK_THROWS_AS(book.inOneTransaction([&] {
        putBin(book, "North");
        throw std::runtime_error{"enough"};
    }),
                    std::runtime_error);
    CHECK(book.bins().empty());
    CHECK_THROWS_AS(book.inOneTransaction([&] { book.inOneTransaction([] {}); }), std::logic_error);
    book.inOneTransaction([&] {
        putBin(book, "North");
        CHECK(refusalOf([&] { putBin(book, "North"); }) == Kind::refused);
        putBin(book, "South");
    });
    CHECK(book.bins().size() == 2);
}

TEST_CASE("a hot journal is rolled back and is no fault") {
    const Folder folder;
    const auto file = smallBook(folder);
    {
        // A writer that dies: its journal and half-written pages are what a crash leaves.
        SQLite::Database writer{file.string(), SQLite::OPEN_READWRITE};
        writer.exec(
            "PRAGMA cache_size = 1; BEGIN IMMEDIATE;"
            "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 5000)"
            " INSERT INTO reading SELECT (SELECT min(id) FROM series), 4000000 + i, 1 FROM n");
        fs::copy_file(file, folder / "crashed.midden");
        fs::copy_file(file.string() + "-journal", folder / "crashed.midden-journal");
    }
    REQUIRE(bytesOf(folder / "crashed.midden-journal").size() > 512);
    REQUIRE(fs::file_size(folder / "crashed.midden") != fs::file_size(file));
    const auto mode = GENERATE(Mode::readOnly, Mode::readWrite, Mode::createIfAbsent);
    const auto book = Logbook::open(folder / "crashed.midden", mode);
    CHECK(book.record(book.batches().at(0).id).readings == 1);
    CHECK_FALSE(fs::exists(folder / "crashed.midden-journal"));
}

TEST_CASE("a reading of a logger takes no more than sixteen and a half bytes") {
    const Folder folder;
    const auto file = folder / "plot.midden";
    std::uintmax_t empty = 0;
    constexpr int count = 200'000;
    {
        auto book = Logbook::open(file, Mode::createIfAbsent);
        const ReadingColumn column{{putBin(book, "North"), "core"}};
        empty = fs::file_size(file);
        std::vector<RawReading> readings;
        for (int i = 0; i < count; ++i) {
            readings.push_back({noon + Seconds{60 * i}, 550'000 + i % 50'000});
        }
        CHECK(book.addReadings(column, readings).added == count);
    }
    const auto each = static_cast<double>(fs::file_size(file) - empty) / count;
    INFO(each << " bytes a reading");
    CHECK(each <= 16.5);
    CHECK(each > 8);
}

TEST_CASE("settings are kept as they were said") {
    auto book = Logbook::inMemory();
    CHECK_FALSE(book.storedSetting(setting::unit));
    CHECK(book.setting(setting::unit) == "c");
    book.setSetting(setting::unit, "f");
    book.setSetting(setting::unit, "c'; DROP TABLE bin");
    CHECK(book.setting(setting::unit) == "c'; DROP TABLE bin");
}

TEST_CASE("an issued certificate is kept and never changed") {
    const Folder folder;
    const auto file = smallBook(folder);
    auto book = Logbook::open(file, Mode::readWrite);
    const auto batch = book.batchNamed("spring")->id;
    const IssuedCertificate first{"2026-1", batch, at(9).at, std::string(64, 'a'), "the record", ""};
    IssuedCertificate second{"2026-2", batch, at(10).at, std::string(64, 'b'), "the record, corrected", "2026-1"};
    book.storeCertificate(second);
    book.storeCertificate(first);
    CHECK(refusalOf([&] { book.storeCertificate(first); }) == Kind::refused);
    REQUIRE(book.certificates(batch).size() == 2);
    CHECK(book.certificates(batch)[0].number == "2026-1");
    CHECK(book.certificate("2026-2")->supersedes == "2026-1");
    CHECK(book.certificate("2026-2")->canonical == second.canonical);
    CHECK(book.certificate("2026-2")->digest == second.digest);
    CHECK_FALSE(book.certificate("2026-3"));
    CHECK(refusalOf([&] { book.apply(Withdraw<Batch>{batch, ""}); }) == Kind::refused);
    CHECK_THROWS_AS(execute(file, "UPDATE certificate SET canonical = 'nicer'"), SQLite::Exception);
    CHECK_THROWS_AS(execute(file, "DELETE FROM certificate"), SQLite::Exception);
}
