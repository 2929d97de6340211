// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/care/salvage/found_rows.h"

#include <sqlite3.h>

namespace midden::salvage {

namespace {

OwnedStatement prepared(DatabaseFile& book, const std::string& sql) {
    sqlite3_stmt* statement = nullptr;
    book.expectDone(sqlite3_prepare_v2(book.handle(), sql.c_str(), -1, &statement, nullptr));
    return OwnedStatement{statement};
}

void bind(sqlite3_stmt* insert, int index, const Value& value) {
    if (const auto* whole = std::get_if<std::int64_t>(&value)) {
        sqlite3_bind_int64(insert, index, *whole);
    } else if (const auto* real = std::get_if<double>(&value)) {
        sqlite3_bind_double(insert, index, *real);
    } else if (const auto* text = std::get_if<std::string>(&value)) {
        sqlite3_bind_text64(insert, index, text->data(), text->size(), SQLITE_TRANSIENT, SQLITE_UTF8);
    } else {
        sqlite3_bind_null(insert, index);
    }
}

}  // namespace

FoundRows::FoundRows(DatabaseFile& book, const std::vector<TreeShape>& shapes) : book_{book} {
    for (const TreeShape& shape : shapes) {
        std::string columns;
        std::string marks;
        for (const ColumnShape& column : shape.columns) {
            columns += (columns.empty() ? "" : ", ") + column.name;
            marks += marks.empty() ? "?" : ", ?";
        }
        if (!columns.empty()) {
            book.run("CREATE TEMP TABLE found_" + shape.name + '(' + columns + ')');
            inserts_[shape.name] = prepared(book, "INSERT INTO temp.found_" + shape.name + " VALUES (" + marks + ')');
        }
    }
}

void FoundRows::add(const TreeShape& shape, const Row& row) {
    sqlite3_stmt* insert = inserts_.at(shape.name).get();
    for (std::size_t i = 0; i < row.values.size(); ++i) {
        bind(insert, static_cast<int>(i) + 1, row.values[i]);
    }
    const int code = sqlite3_step(insert);
    sqlite3_reset(insert);
    book_.expectDone(code);
}

}  // namespace midden::salvage
