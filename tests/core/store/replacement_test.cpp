// SPDX-License-Identifier: GPL-3.0-or-later
// INSERT OR REPLACE and UPDATE OR REPLACE, by a tool that knows nothing of us: no row may go without a trace.
#include <fmt/core.h>

#include <catch2/catch.hpp>

#include "tests/core/store/books.h"

using namespace midden;
using namespace midden::trial;

namespace {

using Texts = std::vector<std::string>;

Texts column(SQLite::Database& database, const std::string& sql) {
    SQLite::Statement query{database, sql};
    Texts texts;
    while (query.executeStep()) {
        texts.push_back(query.getColumn(0).getString());
    }
    return texts;
}

std::string listed(const Texts& texts) {
    std::string list;
    for (const auto& text : texts) {
        list += (list.empty() ? "" : ", ") + text;
    }
    return list;
}

/// Two rows and more of every table.
void fill(const std::filesystem::path& file) {
    auto book = Logbook::open(file, Logbook::Mode::createIfAbsent);
    book.setHand("Ada", [] { return at(90).at; });
    for (const std::string name : {"North", "South"}) {
        const auto bin = putBin(book, name);
        const auto probe = std::get<ProbeId>(book.apply(Put<Probe>{{.name = name}}).id);
        book.apply(Put<PlaceSetting>{{{bin, "core"}, true}});
        const auto id = putBatch(book, bin, "batch " + name, 0);
        Batch batch = shown(book, id);
        batch.stays.push_back({at(48).at, putBin(book, name + " curing")});
        book.apply(Amend<Batch>{id, batch, ""});
        for (const double hours : {1, 2}) {
            auto reading = readingOf({bin, "core"}, hours, 55);
            reading.note = "windy";
            book.apply(Put<Reading>{reading});
        }
        putReading(book, bin, "side", 3, 50);
        book.apply(Amend<Reading>{{{bin, "side"}, at(3).at}, readingOf({bin, "side"}, 3, 51), "misread"});
        book.apply(Put<Addition>{additionTo(id, 1, "straw", 2)});
        book.apply(Put<Aeration>{{.batch = id, .when = at(30)}});
        book.apply(Put<Observation>{{.batch = id, .when = at(30)}});
        book.apply(Put<Harvest>{{.batch = id, .when = at(31), .volumeLitres = 20}});
        book.apply(Put<ThermometerCheck>{{.probe = probe, .when = at(5)}});
        book.storeCertificate({"2026 " + name, id, at(50).at, std::string(64, 'a'), "canonical", ""});
    }
}

struct Table {
    std::string name;
    Texts columns;
    std::vector<Texts> keys;
};

/// All that hold people's words, whatever tables there will be. An index over expressions is that of series: all
/// columns but the number.
std::vector<Table> tablesOf(SQLite::Database& database) {
    std::vector<Table> tables;
    for (const auto& name : column(database,
                                   "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%' "
                                   "AND name NOT IN ('setting', 'hand')")) {
        const auto info = "FROM pragma_table_info('" + name + "') ";
        Table table{name, column(database, "SELECT name " + info + "ORDER BY cid"), {}};
        for (const auto& index : column(
                 database, "SELECT name FROM pragma_index_list('" + name + "') WHERE \"unique\" AND origin <> 'pk'")) {
            const auto columns = "SELECT name FROM pragma_index_info('" + index + "') WHERE cid ";
            const bool hasExpressions = !column(database, columns + "= -2").empty();
            table.keys.push_back(column(
                database, hasExpressions ? "SELECT name " + info + "WHERE pk = 0" : columns + ">= 0 ORDER BY seqno"));
        }
        table.keys.push_back(column(database, "SELECT name " + info + "WHERE pk > 0 ORDER BY pk"));
        tables.push_back(table);
    }
    return tables;
}

bool contains(const Texts& texts, const std::string& text) {
    return std::find(texts.begin(), texts.end(), text) != texts.end();
}

/// A row that has just this key of a row that is there, and others of its own.
std::string rowOfKey(const Table& table, const Texts& key) {
    Texts values;
    for (const auto& name : table.columns) {
        const bool isOfAnother = std::any_of(table.keys.begin(), table.keys.end(),
                                             [&](const Texts& other) { return contains(other, name); });
        if (contains(key, name) || !isOfAnother) {
            values.push_back(name);
        } else {
            values.push_back(
                fmt::format("iif(typeof({0}) = 'text', lower(hex(randomblob(16))), (SELECT max({0}) + 2 FROM {1}))",
                            name, table.name));
        }
    }
    return "SELECT " + listed(values) + " FROM " + table.name + " LIMIT 1";
}

/// The last row takes a key of the first.
std::string takingTheKeyOfTheFirst(const Table& table, const Texts& key) {
    const auto primary = listed(table.keys.back());
    Texts backwards;
    for (const auto& name : table.keys.back()) {
        backwards.push_back(name + " DESC");
    }
    const auto from = " FROM " + table.name + " ORDER BY ";
    return "UPDATE OR REPLACE " + table.name + " SET (" + listed(key) + ") = (SELECT " + listed(key) + from + primary +
           " LIMIT 1) WHERE (" + primary + ") = (SELECT " + primary + from + listed(backwards) + " LIMIT 1)";
}

std::string everyRow(SQLite::Database& database, const std::vector<Table>& tables) {
    std::string rows;
    for (const auto& table : tables) {
        SQLite::Statement query{database, "SELECT * FROM " + table.name};
        while (query.executeStep()) {
            for (int i = 0; i < query.getColumnCount(); ++i) {
                rows += query.getColumn(i).getString() + "|";
            }
            rows += "\n";
        }
    }
    return rows;
}

std::string refusalOfSql(SQLite::Database& database, const std::string& sql) {
    try {
        database.exec(sql);
    } catch (const SQLite::Exception& refusal) {
        return refusal.what();
    }
    return "it went through";
}

}  // namespace

TEST_CASE("no tool puts a row in the place of another without a trace") {
    const Folder folder;
    const auto file = folder / "plot.midden";
    fill(file);
    SQLite::Database database{file.string(), SQLite::OPEN_READWRITE};
    const auto tables = tablesOf(database);
    CHECK(tables.size() >= 14);
    const auto before = everyRow(database, tables);
    for (const auto& table : tables) {
        CHECK(column(database, "SELECT 1 FROM " + table.name).size() >= 2);
        for (const auto& key : table.keys) {
            INFO(table.name << ": " << listed(key));
            CHECK_THAT(refusalOfSql(database, "INSERT OR REPLACE INTO " + table.name + " " + rowOfKey(table, key)),
                       Catch::Contains("is not replaced"));
            CHECK(refusalOfSql(database, takingTheKeyOfTheFirst(table, key)) != "it went through");
            CHECK(everyRow(database, tables) == before);
        }
    }
}

TEST_CASE("settings may be put in the place of others by any tool") {
    const Folder folder;
    const auto file = folder / "plot.midden";
    Logbook::open(file, Logbook::Mode::createIfAbsent).setSetting(setting::group, "Ferry Lane");
    execute(file, "INSERT OR REPLACE INTO setting VALUES ('group', 'Mill Field')");
    CHECK(Logbook::open(file, Logbook::Mode::readOnly).setting(setting::group) == "Mill Field");
}
