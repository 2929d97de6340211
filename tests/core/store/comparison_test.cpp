// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/care/comparison.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/core/store/books.h"

using namespace midden;
using namespace midden::trial;
using Mode = Logbook::Mode;
namespace fs = std::filesystem;

namespace {

/// A row in every table.
fs::path fullBook(const Folder& folder) {
    auto book = Logbook::open(folder / "plot.midden", Mode::createIfAbsent);
    book.setHand("ada", [] { return at(70).at; });
    book.setSetting(setting::group, "Lane End");
    const auto north = putBin(book, "North");
    const auto south = putBin(book, "South");
    const auto probe = putProbe(book, "long", Kelvins::ofParts(45'000));
    auto batch = batchIn(north, "spring", 0);
    batch.stays.push_back({at(50).at, south});
    const auto id = std::get<BatchId>(book.apply(Put<Batch>{batch}).id);
    auto reading = readingOf({north, "core"}, 1, 55);
    reading.probe = probe;
    reading.note = "windy";
    book.apply(Put<Reading>{reading});
    auto addition = additionTo(id, 0, "straw", 1);
    addition.moisturePercent = 60;
    const auto added = std::get<EntryId>(book.apply(Put<Addition>{addition}).id);
    addition.massKilograms = 2;
    book.apply(Amend<Addition>{added, addition, "weighed again"});
    Aeration aeration;
    aeration.batch = id;
    aeration.when = at(3);
    book.apply(Put<Aeration>{aeration});
    Observation observation;
    observation.batch = id;
    observation.when = at(4);
    observation.value = "sour";
    book.apply(Put<Observation>{observation});
    Harvest harvest;
    harvest.batch = id;
    harvest.when = at(49);
    harvest.volumeLitres = 20;
    book.apply(Put<Harvest>{harvest});
    ThermometerCheck check;
    check.probe = probe;
    check.when = at(5);
    book.apply(Put<ThermometerCheck>{check});
    book.apply(Put<PlaceSetting>{{{north, "core"}, true}});
    book.storeCertificate({"N1", id, at(6).at, std::string(64, 'a'), "{}", ""});
    return folder / "plot.midden";
}

fs::path copyOf(const fs::path& file) {
    const auto copy = file.parent_path() / "copy.midden";
    fs::copy_file(file, copy, fs::copy_options::overwrite_existing);
    return copy;
}

struct Column {
    std::string table;
    std::string name;
};

std::vector<Column> columnsOf(const fs::path& file) {
    SQLite::Database database{file.string()};
    SQLite::Statement query{database,
                            "SELECT t.name, c.name FROM sqlite_schema t JOIN pragma_table_info(t.name) c "
                            "WHERE t.type = 'table' AND t.name NOT LIKE 'sqlite_%' ORDER BY t.name, c.cid"};
    std::vector<Column> columns;
    while (query.executeStep()) {
        columns.push_back({query.getColumn(0).getString(), query.getColumn(1).getString()});
    }
    return columns;
}

/// Against the file's own rules, as anything might differ: another value in that column of the first row.
void change(const fs::path& file, const Column& column) {
    SQLite::Database database{file.string(), SQLite::OPEN_READWRITE};
    database.exec("PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON");
    std::vector<std::string> rules;
    SQLite::Statement query{database, "SELECT name FROM sqlite_schema WHERE type = 'trigger'"};
    while (query.executeStep()) {
        rules.push_back(query.getColumn(0).getString());
    }
    query.reset();
    for (const auto& rule : rules) {
        database.exec("DROP TRIGGER " + rule);
    }
    const auto changed = database.exec(
        "UPDATE " + column.table + " SET " + column.name + " = CASE WHEN typeof(" + column.name +
        ") = 'text' OR (SELECT type FROM pragma_table_info('" + column.table + "') WHERE name = '" + column.name +
        "') = 'TEXT' THEN ifnull(" + column.name + ", '') || '9' ELSE ifnull(" + column.name + ", 0) + 1 END" +
        (column.table == "bin" || column.table == "setting" ? " WHERE name IN ('North', 'group')" : ""));
    INFO(column.table << "." << column.name);
    REQUIRE(changed > 0);
}

bool countsForNothing(const Column& column) {
    const auto all = notCompared();
    return std::any_of(all.begin(), all.end(), [&](const NotCompared& one) {
        return one.table == column.table && (one.column == column.name || one.column.empty());
    });
}

}  // namespace

TEST_CASE("a comparison counts what one has and the other has not") {
    const Folder folder;
    const auto file = fullBook(folder);
    const auto copy = copyOf(file);
    const auto add = [](const fs::path& to, double hour) {
        auto book = Logbook::open(to, Mode::readWrite);
        putReading(book, book.bins().at(0).id, "core", hour, 50);
    };
    CHECK(compare(Logbook::open(file, Mode::readOnly), copy).empty());
    add(file, 40);
    add(file, 45);
    add(copy, 48);
    const auto differences = compare(Logbook::open(file, Mode::readOnly), copy);
    REQUIRE(differences.size() == 1);
    CHECK(differences[0].many == "readings");
    CHECK(differences[0].book == 2);
    CHECK(differences[0].copy == 1);
}

TEST_CASE("a comparison sees a change in every column of every table but those that are known to say nothing") {
    const Folder folder;
    const auto file = fullBook(folder);
    for (const Column& column : columnsOf(file)) {
        if (countsForNothing(column)) {
            continue;
        }
        const auto copy = copyOf(file);
        change(copy, column);
        INFO(column.table << "." << column.name);
        CHECK_FALSE(compare(Logbook::open(file, Mode::readOnly), copy).empty());
    }
}

TEST_CASE("every column that a comparison leaves out is there and says why") {
    const Folder folder;
    const auto columns = columnsOf(fullBook(folder));
    for (const NotCompared& one : notCompared()) {
        INFO(one.table << "." << one.column);
        CHECK(std::any_of(columns.begin(), columns.end(), [&](const Column& column) {
            return column.table == one.table && (one.column.empty() || column.name == one.column);
        }));
        CHECK_FALSE(one.reason.empty());
    }
}

TEST_CASE("copies that numbered the same bins otherwise hold the same") {
    const Folder folder;
    const auto file = fullBook(folder);
    const auto copy = copyOf(file);
    execute(copy,
            "PRAGMA foreign_keys = OFF; DROP TRIGGER bin_corrected; DROP TRIGGER batch_corrected;"
            "DROP TRIGGER place_setting_corrected; DROP TRIGGER move_corrected; DROP TRIGGER series_stays;"
            "UPDATE bin SET id = id + 10; UPDATE batch SET bin = bin + 10; UPDATE move SET bin = bin + 10;"
            "UPDATE series SET bin = bin + 10; UPDATE place_setting SET bin = bin + 10");
    CHECK(compare(Logbook::open(file, Mode::readOnly), copy).empty());
}
