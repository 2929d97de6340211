// SPDX-License-Identifier: GPL-3.0-or-later
// What the rows of each tree of a logbook look like, taken from an empty logbook of this program.
#pragma once

#include "core/store/care/salvage/cells.h"
#include "core/store/sqlite/database.h"

namespace midden::salvage {

struct ColumnShape {
    std::string name;
    bool mayBeNothing = false;
    bool mayBeWhole = false;
    bool mayBeReal = false;
    bool mayBeText = false;
    bool isRowid = false;    ///< the row's own number stands for it
    bool cameLater = false;  ///< not in an earlier format, so that a row written before ends without it
    Value otherwise;         ///< what it says then
};

/// A table, or an index that repeats what a table says.
struct TreeShape {
    std::string name;
    std::string text;      ///< the SQL that made it; empty for what SQLite makes by itself
    PageNumber root = 0;   ///< in an empty logbook
    bool isIndex = false;  ///< its rows are kept in their own order, without a number
    std::vector<ColumnShape> columns;

    /// Puts the row's number where it belongs; false when the row is none of this tree.
    bool fit(Row& row) const;
};

/// Every tree of a logbook of the format that `emptyBook` has; those without columns are only walked to know which
/// pages are theirs.
std::vector<TreeShape> shapesOf(DatabaseFile& emptyBook);

}  // namespace midden::salvage
