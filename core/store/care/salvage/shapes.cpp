// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/care/salvage/shapes.h"

#include <sqlite3.h>

#include <algorithm>
#include <map>

#include "core/store/schema/schema.h"

namespace midden::salvage {

namespace {

ColumnShape whole(const char* name) {
    return {.name = name, .mayBeWhole = true};
}
ColumnShape text(const char* name) {
    return {.name = name, .mayBeText = true};
}

/// Indexes that say again what a lost page of their table said.
const std::map<std::string, std::vector<ColumnShape>>& tellingIndexes() {
    static const std::map<std::string, std::vector<ColumnShape>> telling{
        {"move_to_bin", {whole("bin"), whole("since"), whole("batch")}},
        {"batch_in_bin", {whole("bin"), whole("started"), whole("id")}},
        {"series_once",
         {whole("bin"), text("position"), whole("probe"), whole("unit"), whole("utc_offset"), whole("source"),
          text("who"), whole("id")}},
        {"sqlite_autoindex_bin_1", {text("key"), whole("id")}},
        {"sqlite_autoindex_bin_2", {text("name"), whole("id")}},
        {"sqlite_autoindex_probe_1", {text("key"), whole("id")}},
        {"sqlite_autoindex_probe_2", {text("name"), whole("id")}},
        {"sqlite_autoindex_batch_1", {text("key"), whole("id")}},
        {"sqlite_autoindex_batch_2", {text("name"), whole("id")}},
    };
    return telling;
}

/// 0: there is no such table.
std::size_t columnsIn(DatabaseFile& book, const std::string& table) {
    Query query{book, "SELECT count(*) FROM pragma_table_info(?)"};
    query.with(table);
    query.next();
    return static_cast<std::size_t>(query.number(0));
}

std::vector<ColumnShape> columnsOf(DatabaseFile& book, const TreeShape& tree, std::size_t inFirstFormat) {
    std::vector<ColumnShape> columns;
    Query query{book, "SELECT name, type, \"notnull\", pk, CAST(dflt_value AS INTEGER) FROM pragma_table_info(?)"};
    query.with(tree.name);
    while (query.next()) {
        const auto type = query.text(1);
        ColumnShape column{.name = query.text(0)};
        column.isRowid = !tree.isIndex && type == "INTEGER" && query.number(3) > 0;
        column.mayBeNothing = column.isRowid || (query.number(2) == 0 && query.number(3) == 0);
        column.mayBeText = type == "TEXT" || type.empty();
        column.mayBeReal = type == "REAL";
        column.mayBeWhole = type != "TEXT";
        column.cameLater = inFirstFormat > 0 && columns.size() >= inFirstFormat;
        if (column.cameLater && !query.isNull(4)) {
            column.otherwise = query.number(4);
        }
        columns.push_back(column);
    }
    return columns;
}

bool suits(const Value& value, const ColumnShape& column) {
    switch (value.index()) {
        case 0:
            return column.mayBeNothing;
        case 1:
            return column.mayBeWhole;
        case 2:
            return column.mayBeReal;
        default:
            return column.mayBeText;
    }
}

}  // namespace

bool TreeShape::fit(Row& row) const {
    while (row.values.size() < columns.size() && columns[row.values.size()].cameLater) {
        row.values.push_back(columns[row.values.size()].otherwise);
    }
    if (row.values.size() != columns.size() || row.rowid.has_value() == isIndex) {
        return false;
    }
    for (std::size_t i = 0; i < columns.size(); ++i) {
        if (!suits(row.values[i], columns[i])) {
            return false;
        }
        if (columns[i].isRowid) {
            row.values[i] = *row.rowid;
        }
    }
    return true;
}

std::vector<TreeShape> shapesOf(DatabaseFile& emptyBook) {
    DatabaseFile first{":memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE};
    migrate(first, Migrations{migrations}.first(1));
    std::vector<TreeShape> shapes;
    Query query{emptyBook,
                "SELECT s.name, ifnull(s.sql, ''), s.rootpage, s.type = 'index' OR ifnull(t.wr, 0), s.type "
                "FROM sqlite_schema s LEFT JOIN pragma_table_list t ON t.name = s.name AND t.schema = 'main' "
                "WHERE s.rootpage > 0 ORDER BY s.type = 'index', s.rowid"};
    while (query.next()) {
        TreeShape shape{
            query.text(0), query.text(1), static_cast<PageNumber>(query.number(2)), query.number(3) != 0, {}};
        const auto telling = tellingIndexes().find(shape.name);
        if (query.text(4) == "table") {
            shape.columns = columnsOf(emptyBook, shape, columnsIn(first, shape.name));
        } else if (telling != tellingIndexes().end()) {
            shape.columns = telling->second;
        }
        shapes.push_back(std::move(shape));
    }
    // A false pointer can claim a page only for a tree that comes before its own: those that matter come first.
    std::stable_partition(shapes.begin(), shapes.end(), [](const TreeShape& shape) { return !shape.columns.empty(); });
    return shapes;
}

}  // namespace midden::salvage
