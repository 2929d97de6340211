// SPDX-License-Identifier: GPL-3.0-or-later
// Writing merged values into their tables.
#include <fmt/core.h>

#include "core/store/merge/merger.h"

namespace midden {

void Merger::insertRow(const EntryName& entry, const Json& row) {
    std::string columns;
    std::string marks;
    const Json own = ours_.own(entry, row, false);  // with its old number, where this book had it once
    for (const auto& [column, value] : own.items()) {
        columns += (columns.empty() ? "" : ", ") + column;
        marks += marks.empty() ? "?" : ", ?";
    }
    Query query{state_.file,
                interned(fmt::format("INSERT INTO {} ({}) VALUES ({})", shapeOf(entry.kind).table, columns, marks))};
    for (const auto& [column, value] : own.items()) {
        addJson(query, value);
    }
    query.run();
}

void Merger::updateRow(const EntryName& entry, const Json& row) {
    Json own = ours_.own(entry, row, false);
    own.erase("id");
    own.erase("key");
    std::string sets;
    for (const auto& [column, value] : own.items()) {
        sets += (sets.empty() ? "" : ", ") + column + " = ?";
    }
    const bool isPlace = entry.kind == EntryKind::place;
    Query query{state_.file, interned(fmt::format("UPDATE {} SET {} WHERE {}", shapeOf(entry.kind).table, sets,
                                                  isPlace ? "bin = ? AND position = ?" : "id = ?"))};
    for (const auto& [column, value] : own.items()) {
        addJson(query, value);
    }
    if (isPlace) {
        query.add(ours_.readingId(entry).place.bin).add(ours_.readingId(entry).place.position);
    } else if (isSetUp(entry.kind)) {
        query.add(ours_.keys.idOf(shapeOf(entry.kind).table, entry.name));
    } else {
        query.add(entry.name);
    }
    query.run();
}

void Merger::removeRow(const EntryName& entry) {
    if (entry.kind == EntryKind::place) {
        const auto place = ours_.readingId(entry).place;
        Query{state_.file, "DELETE FROM place_setting WHERE bin = ? AND position = ?"}
            .with(place.bin, place.position)
            .run();
        return;
    }
    Query{state_.file, interned(fmt::format("DELETE FROM {} WHERE id = ?", shapeOf(entry.kind).table))}
        .with(entry.name)
        .run();
}

}  // namespace midden
