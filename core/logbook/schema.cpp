// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/logbook/schema.h"

#include <sqlite3.h>

#include <tuple>

namespace midden {

namespace {

constexpr int busyMilliseconds = 5'000;

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

const std::vector<SchemaRow>& ourSchema() {
    static const std::vector<SchemaRow> ours = [] {
        DatabaseFile model{":memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE};
        climb(model, 0);
        return schemaOf(model);
    }();
    return ours;
}

}  // namespace

void setUpConnection(DatabaseFile& file) {
    sqlite3_busy_timeout(file.handle(), busyMilliseconds);
    sqlite3_extended_result_codes(file.handle(), 1);
    sqlite3_db_config(file.handle(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(file.handle(), SQLITE_DBCONFIG_DQS_DML, 0, nullptr);
    sqlite3_db_config(file.handle(), SQLITE_DBCONFIG_DQS_DDL, 0, nullptr);
    file.run(
        "PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON; PRAGMA mmap_size = 0;"
        "PRAGMA foreign_keys = ON; PRAGMA synchronous = EXTRA;");
    provideJsonObject(file);
}

void climb(DatabaseFile& file, std::int64_t format) {
    for (auto step = format; step < newestFormat; ++step) {
        Transaction transaction{file};
        file.run(migrations.at(static_cast<std::size_t>(step)));
        file.run("PRAGMA application_id = " + std::to_string(applicationId) +
                 "; PRAGMA user_version = " + std::to_string(step + 1));
        transaction.commit();
    }
}

void expectOurSchema(DatabaseFile& file) {
    if (schemaOf(file) != ourSchema()) {
        throw LogbookError{LogbookError::Kind::damaged,
                           file.name() +
                               " has been tampered with or damaged: its tables and rules are not those of a "
                               "logbook, so it was left alone"};
    }
}

}  // namespace midden
