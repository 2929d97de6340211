// SPDX-License-Identifier: GPL-3.0-or-later
// Walking the trees of a damaged logbook, around whatever page cannot be read.
#pragma once

#include <functional>

#include "core/store/care/salvage/shapes.h"

namespace midden::salvage {

/// What became of one tree.
struct TreeFind {
    std::int64_t rows = 0;
    std::int64_t unreadableRows = 0;   ///< their place was found, but not what stood there
    std::int64_t leaves = 0;           ///< pages of rows that were read
    std::int64_t unreadablePages = 0;  ///< the tree leads there, but there is no such page any more
    std::int64_t strayPages = 0;       ///< nothing led to them, yet their rows can be no others

    bool isBroken() const { return unreadablePages > 0; }
};

/// Called for every row found, in no particular order.
using TakeRow = std::function<void(const TreeShape&, Row&&)>;

/// How many of the trees the file's own list of tables names in the very same words.
std::size_t treesNamed(const Pages& pages, const std::vector<TreeShape>& shapes);

/// Finds all rows of the trees in `shapes`. One find for each of them.
std::vector<TreeFind> findRows(const Pages& pages, const std::vector<TreeShape>& shapes, const TakeRow& take);

}  // namespace midden::salvage
