// SPDX-License-Identifier: GPL-3.0-or-later
// What a hostile book may ask of SQLite, and that honest books fit in.
#include <sqlite3.h>

#include <catch2/catch.hpp>

#include "core/store/schema/schema.h"
#include "tests/core/store/books.h"

using namespace midden;
using namespace midden::trial;
using Mode = Logbook::Mode;

TEST_CASE("a connection asks no more of SQLite than a logbook needs") {
    DatabaseFile file{":memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE};
    setUpConnection(file);
    const auto limit = [&](int which) { return sqlite3_limit(file.handle(), which, -1); };
    CHECK(limit(SQLITE_LIMIT_LENGTH) == 512 * 1'024 * 1'024);
    CHECK(limit(SQLITE_LIMIT_SQL_LENGTH) == 100'000);
    CHECK(limit(SQLITE_LIMIT_EXPR_DEPTH) == 50);
    CHECK(limit(SQLITE_LIMIT_TRIGGER_DEPTH) == 10);
    CHECK(limit(SQLITE_LIMIT_ATTACHED) == 1);
    CHECK_THROWS_AS(file.number("SELECT length(zeroblob(600000000))"), LogbookError);
    std::string deep = "SELECT 1";
    for (int i = 0; i < 60; ++i) {
        deep += " + (1";
    }
    deep += std::string(60, ')');
    CHECK_THROWS_AS(file.run(deep), LogbookError);
    CHECK_THROWS_AS(file.run("SELECT 1 --" + std::string(100'000, 'x')), LogbookError);
}

TEST_CASE("a note of a million letters is kept and amended and copied and merged and compared") {
    const Folder folder;
    const std::string letters(1'000'000, 'n');
    auto book = Logbook::open(folder / "plot.midden", Mode::createIfAbsent);
    const auto bin = putBin(book, "North");
    putBatch(book, bin, "spring", 0);
    auto reading = readingOf({bin, "core"}, 1, 55);
    reading.note = letters;
    book.apply(Put<Reading>{reading});
    book.copyTo(folder / "home.midden");
    reading.note = letters + "!";
    book.apply(Amend<Reading>{reading.id(), reading, letters});
    auto home = Logbook::open(folder / "home.midden", Mode::readWrite);
    home.merge(book);
    CHECK(home.reading(reading.id())->note == letters + "!");
    CHECK(home.amendments(home.batchNamed("spring")->id).at(0).why == letters);
    home.backUpTo(folder / "backup.midden");
    CHECK(Logbook::open(folder / "backup.midden", Mode::readOnly).check({}).faults.empty());
}
