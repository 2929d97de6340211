// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/care/comparison.h"

#include <fmt/core.h>
#include <sqlite3.h>

#include <algorithm>
#include <array>

#include "core/store/files/book_copy.h"
#include "core/store/merge/merge_side.h"
#include "core/store/schema/schema.h"
#include "core/store/sqlite/database.h"
#include "core/store/state.h"

namespace midden {

namespace {

constexpr std::string_view ownNumber = "a number of the file's own; the key beside it is the same in every copy";
constexpr std::array<NotCompared, 7> leftOut{{
    {"bin", "id", ownNumber},
    {"probe", "id", ownNumber},
    {"batch", "id", ownNumber},
    {"series", "id", "a number of the file's own; what the series says is compared with each of its readings"},
    {"certificate", "id", "a number of the file's own; the certificate's number is compared"},
    {"amendment", "id", ownNumber},
    {"hand", "", "says something only while an edit is being made"},
}};

struct Compared {
    const char* table;
    const char* one;
    const char* many;
};

constexpr std::array<Compared, 14> comparedTables{{
    {"reading", "reading", "readings"},
    {"addition", "addition", "additions"},
    {"aeration", "turning or other airing", "turnings and other airings"},
    {"observation", "observation", "observations"},
    {"harvest", "harvest", "harvests"},
    {"thermometer_check", "thermometer check", "thermometer checks"},
    {"batch", "batch", "batches"},
    {"move", "move", "moves"},
    {"bin", "bin", "bins"},
    {"place_setting", "position", "positions"},
    {"probe", "probe", "probes"},
    {"certificate", "certificate", "certificates"},
    {"setting", "setting", "settings"},
    {"amendment", "amendment", "amendments"},
}};

bool isLeftOut(std::string_view table, std::string_view column) {
    return std::any_of(leftOut.begin(), leftOut.end(), [&](const NotCompared& one) {
        return one.table == table && (one.column == column || one.column.empty());
    });
}

/// What a column of the row `t` says, without numbers of the file's own.
std::string said(const std::string& book, const std::string& table, const std::string& column) {
    if (column == "bin" || column == "batch" || column == "probe") {
        return fmt::format("(SELECT key FROM {0}.{1} WHERE id = t.{1})", book, column);
    }
    if (table == "amendment" && (column == "was" || column == "became")) {
        return fmt::format("iif(json_valid(t.{0}), json_remove(t.{0}, '$.id', '$.bin', '$.batch', '$.probe'), t.{0})",
                           column);
    }
    return "t." + column;
}

/// All that a row `t` of that table says, as a list for SELECT.
std::string allSaid(DatabaseFile& both, const std::string& book, const std::string& table) {
    std::string list;
    Query query{both, "SELECT name FROM pragma_table_info(?) ORDER BY cid"};
    query.with(table);
    while (query.next()) {
        if (!isLeftOut(table, query.text(0))) {
            list += (list.empty() ? "" : ", ") + said(book, table, query.text(0));
        }
    }
    return list;
}

/// Gives series that say the same, in whichever book, one number.
void numberSeries(DatabaseFile& both) {
    const auto seriesOf = [&](const std::string& book) {
        return fmt::format("SELECT '{0}' AS book, t.id AS series, json_array({1}) AS says FROM {0}.series t", book,
                           allSaid(both, book, "series"));
    };
    both.run(
        "CREATE TEMP TABLE alike(book TEXT, series INTEGER, number INTEGER, PRIMARY KEY(book, series)) WITHOUT ROWID;"
        "INSERT INTO alike SELECT book, series, dense_rank() OVER (ORDER BY says) FROM (" +
        seriesOf("main") + " UNION ALL " + seriesOf("other") + ")");
}

/// A reading is spread over three tables.
std::string readingsIn(DatabaseFile& both, const std::string& book) {
    std::string more;
    Query query{both, "SELECT name FROM pragma_table_info('reading_more') WHERE pk = 0 ORDER BY cid"};
    while (query.next()) {
        more += ", m." + query.text(0);
    }
    return fmt::format(
        "SELECT a.number, t.at, t.raw{1} FROM {0}.reading t JOIN temp.alike a ON a.book = '{0}' AND a.series = t.series"
        " LEFT JOIN {0}.reading_more m ON m.series = t.series AND m.at = t.at",
        book, more);
}

std::string rowsIn(DatabaseFile& both, const std::string& book, const std::string& table) {
    return table == "reading" ? readingsIn(both, book)
                              : fmt::format("SELECT {} FROM {}.{} t", allSaid(both, book, table), book, table);
}

/// To the file, or, where that is of an older format, to what the book made of it in memory.
std::unique_ptr<DatabaseFile> connectionTo(const Logbook& book) {
    auto file = std::make_unique<DatabaseFile>(book.file(), SQLITE_OPEN_READWRITE);
    setUpConnection(*file);
    if (file->number("PRAGMA user_version") == newestFormat) {
        return file;
    }
    auto inMemory = std::make_unique<DatabaseFile>(DatabaseFile::InMemoryOf{book.file()});
    setUpConnection(*inMemory);
    copyPages(Logbook::State::of(book).file, *inMemory);
    return inMemory;
}

void attachOther(DatabaseFile& both, const std::filesystem::path& copy) {
    const auto name = std::filesystem::absolute(copy).u8string();  // never "file:…", which SQLite takes for a link
    Query{both, "ATTACH ? AS other"}.with(std::string{name.begin(), name.end()}).run();
    if (both.number("PRAGMA other.user_version") < newestFormat) {
        both.run("DETACH other; ATTACH ':memory:' AS other; PRAGMA other.page_size = 8192");
        const auto upToDate = Logbook::open(copy, Logbook::Mode::readOnly);
        copyPages(Logbook::State::of(upToDate).file, both, "other");
    }
}

CountDifference compareTable(DatabaseFile& both, const Compared& compared) {
    const auto inBook = rowsIn(both, "main", compared.table);
    const auto inCopy = rowsIn(both, "other", compared.table);
    const auto countOf = [&](const std::string& these, const std::string& those) {
        return both.number(interned("SELECT count(*) FROM (" + these + " EXCEPT " + those + ")"));
    };
    return {compared.one, compared.many, countOf(inBook, inCopy), countOf(inCopy, inBook)};
}

}  // namespace

std::span<const NotCompared> notCompared() {
    return leftOut;
}

std::vector<CountDifference> compare(const Logbook& book, const std::filesystem::path& copy) {
    const auto connection = connectionTo(book);
    DatabaseFile& both = *connection;
    attachOther(both, copy);
    const ReadTransaction moment{both};
    numberSeries(both);
    both.run("PRAGMA query_only = ON");
    std::vector<CountDifference> differences;
    for (const Compared& compared : comparedTables) {
        if (auto only = compareTable(both, compared); only.book > 0 || only.copy > 0) {
            differences.push_back(std::move(only));
        }
    }
    return differences;
}

}  // namespace midden
