// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>

#include "core/store/care/salvage/shapes.h"

namespace midden::salvage {

/// What was found, in passing tables beside a new logbook: "found_" and the name of the tree.
class FoundRows {
  public:
    FoundRows(DatabaseFile& book, const std::vector<TreeShape>& shapes);
    void add(const TreeShape& shape, const Row& row);

  private:
    DatabaseFile& book_;
    std::map<std::string, OwnedStatement> inserts_;
};

/// Puts what was found together to a book that keeps its own rules. What other rows speak of and is lost stands in by a
/// name that says so.
void compose(DatabaseFile& book);

}  // namespace midden::salvage
