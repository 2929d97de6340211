// SPDX-License-Identifier: GPL-3.0-or-later
// What stands in the cells of b-tree pages: "Database File Format", sqlite.org/fileformat2.html, sections 1.6 (cells),
// 1.7 (overflow pages) and 2.1 (records).
#pragma once

#include <variant>

#include "core/store/care/salvage/pages.h"

namespace midden::salvage {

/// Nothing, a whole number, a real number or a text. A logbook has no other values.
using Value = std::variant<std::monostate, std::int64_t, double, std::string>;

struct Row {
    std::optional<std::int64_t> rowid;  ///< of rows of tables that have one
    std::vector<Value> values;
};

struct Cell {
    PageNumber child = 0;    ///< of an interior page: what lies before this cell
    std::optional<Row> row;  ///< what the cell holds, if it can be read to its last byte
    bool mayHoldRow = true;  ///< cells of interior table pages hold none
};
Cell cellAt(const Pages& pages, const TreePage& page, std::size_t at);

}  // namespace midden::salvage
