// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/schema/schema.h"

#include <sqlite3.h>

#include <array>
#include <tuple>

#include "core/quantities/sha256.h"
#include "core/records/dated_entries.h"
#include "core/store/schema/amendment_json.h"
#include "core/store/schema/amendment_rules.h"
#include "core/store/schema/replacement_rules.h"
#include "core/store/sqlite/damage_words.h"
#include "core/store/sqlite/json_object.h"
#include "core/store/sqlite/reading_slice.h"

namespace midden {

namespace {

constexpr int busyMilliseconds = 5'000;
/// Of a new book, and of its copies. Twice SQLite's own choice: ten million readings go in with some 6 % less work, and
/// an empty book still has less than half a megabyte.
constexpr int pageBytes = 8'192;

struct Limit {
    int what;
    int most;
};

/// No more than a logbook needs, so that a crafted one cannot ask for much (https://www.sqlite.org/security.html,
/// "Untrusted SQLite database files"). The longest value is the record of a certificate, some 30 bytes a reading.
constexpr std::array<Limit, 9> limits{{{SQLITE_LIMIT_LENGTH, 512 << 20},
                                       {SQLITE_LIMIT_SQL_LENGTH, 100'000},
                                       {SQLITE_LIMIT_COLUMN, 100},
                                       {SQLITE_LIMIT_EXPR_DEPTH, 50},
                                       {SQLITE_LIMIT_COMPOUND_SELECT, 20},
                                       {SQLITE_LIMIT_ATTACHED, 1},
                                       {SQLITE_LIMIT_LIKE_PATTERN_LENGTH, 50},
                                       {SQLITE_LIMIT_VARIABLE_NUMBER, 100},
                                       {SQLITE_LIMIT_TRIGGER_DEPTH, 10}}};

using SchemaRow = std::tuple<std::string, std::string, std::string>;

/// Kind, name and text of every object, but for the statistics any SQLite tool may leave.
std::vector<SchemaRow> schemaOf(DatabaseFile& file) {
    std::vector<SchemaRow> rows;
    Query query{
        file,
        "SELECT type, name, ifnull(sql, '') FROM sqlite_schema WHERE name NOT IN ('sqlite_stat1', 'sqlite_stat4') "
        "ORDER BY type, name"};
    while (query.next()) {
        rows.emplace_back(query.text(0), query.text(1), query.text(2));
    }
    return rows;
}

std::vector<SchemaRow> schemaAtTheTopOf(Migrations steps) {
    DatabaseFile model{":memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE};
    migrate(model, steps);
    return schemaOf(model);
}

/// Each text behind its length, so that no two schemas read the same.
std::string digestOf(const std::vector<SchemaRow>& schema) {
    std::string told;
    for (const auto& [kind, name, sql] : schema) {
        for (const auto& text : {kind, name, sql}) {
            told += std::to_string(text.size()) + ':' + text;
        }
    }
    return sha256(told);
}

/// A schema with the digest of ours need not be compared with one made for that, which takes 15 ms.
bool isAtTheTopOf(Migrations steps, const std::vector<SchemaRow>& schema) {
    const bool ours = steps.data() == migrations.data() && digestOf(schema) == schemaDigestOfOurs;
    return ours || schema == schemaAtTheTopOf(steps);
}

}  // namespace

void setUpConnection(DatabaseFile& file) {
    sqlite3_busy_timeout(file.handle(), busyMilliseconds);
    sqlite3_extended_result_codes(file.handle(), 1);
    for (const Limit& limit : limits) {
        sqlite3_limit(file.handle(), limit.what, limit.most);
    }
    sqlite3_db_config(file.handle(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(file.handle(), SQLITE_DBCONFIG_DQS_DML, 0, nullptr);
    sqlite3_db_config(file.handle(), SQLITE_DBCONFIG_DQS_DDL, 0, nullptr);
    file.run(
        "PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON; PRAGMA mmap_size = 0;"
        "PRAGMA foreign_keys = ON; PRAGMA synchronous = EXTRA; PRAGMA page_size = " +
        std::to_string(pageBytes));
    provideJsonObject(file);
    provideAmendedField(file);
    provideReadingSlice(file);
}

void migrate(DatabaseFile& file, Migrations steps) {
    for (std::size_t step = 0; step < steps.size(); ++step) {
        Transaction transaction{file};
        if (file.number("PRAGMA user_version") != static_cast<std::int64_t>(step)) {
            continue;  // taken before, by another program perhaps while this one waited for its turn
        }
        file.run(steps[step]);
        writeAmendmentRules(file);
        writeReplacementRules(file);
        file.run("PRAGMA application_id = " + std::to_string(applicationId) +
                 "; PRAGMA user_version = " + std::to_string(step + 1));
        transaction.commit();
    }
}

std::string schemaDigest(DatabaseFile& file) {
    return digestOf(schemaOf(file));
}

void expectOurSchema(DatabaseFile& file, Migrations steps) {
    if (!isAtTheTopOf(steps, schemaOf(file))) {
        throw LogbookError{LogbookError::Kind::damaged,
                           file.name() +
                               " has been tampered with or damaged: its tables and rules are not those of a "
                               "logbook, so it was left alone"};
    }
}

std::vector<std::string> tablesOfUnknownKinds(DatabaseFile& file) {
    const std::array<std::pair<const char*, int>, 3> lastKinds{
        {{"aeration", static_cast<int>(lastOf<AerationKind>)},
         {"observation", static_cast<int>(lastOf<ObservationKind>)},
         {"amendment", static_cast<int>(lastEntryKind)}}};
    std::vector<std::string> tables;
    for (const auto& [table, last] : lastKinds) {
        Query query{file, interned(std::string{"SELECT 1 FROM "} + table + " WHERE kind > ? LIMIT 1")};
        if (query.with(last).next()) {
            tables.emplace_back(table);
        }
    }
    return tables;
}

void expectSoundRows(DatabaseFile& file) {
    std::vector<std::string> tables;
    {
        Query query{file,
                    "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT IN ('reading', 'reading_more') "
                    "AND name NOT LIKE 'sqlite~_%' ESCAPE '~' ORDER BY name"};
        while (query.next()) {
            tables.push_back(query.text(0));
        }
    }
    for (const auto& table : tables) {
        if (const auto found = file.text(interned("PRAGMA quick_check(" + table + ")")); found != "ok") {
            throw LogbookError{LogbookError::Kind::damaged, file.name() + " is damaged: " + damageWords(found)};
        }
    }
    if (const auto unknown = tablesOfUnknownKinds(file); !unknown.empty()) {
        throw LogbookError{LogbookError::Kind::damaged,
                           file.name() + " is damaged: " + foreignValueAmong(unknown.front())};
    }
}

}  // namespace midden
