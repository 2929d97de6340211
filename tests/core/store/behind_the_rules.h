// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/core/store/books.h"

namespace midden::trial {

/// Runs a statement on a book whose triggers, checks and column types are taken away for as long. They are all back
/// afterwards, so that the file's tables and rules are those of a sound book.
inline void behindTheRules(const std::filesystem::path& file, const std::string& sql) {
    SQLite::Database rules{":memory:", SQLite::OPEN_READWRITE};
    rules.exec("ATTACH '" + file.string() +
               "' AS book; CREATE TABLE kept AS SELECT rowid AS place, * FROM book.sqlite_schema");
    rules.exec(
        "PRAGMA writable_schema = ON;"
        "UPDATE book.sqlite_schema SET sql = replace(replace(sql, ') STRICT, WITHOUT', ') WITHOUT'), ') STRICT', ')') "
        "WHERE type = 'table'; DELETE FROM book.sqlite_schema WHERE type = 'trigger'");
    execute(file, "PRAGMA ignore_check_constraints = ON; PRAGMA foreign_keys = OFF;" + sql);
    rules.exec(
        "DELETE FROM book.sqlite_schema; INSERT INTO book.sqlite_schema(rowid, type, name, tbl_name, rootpage, sql) "
        "SELECT place, type, name, tbl_name, rootpage, sql FROM kept");
}

}  // namespace midden::trial
