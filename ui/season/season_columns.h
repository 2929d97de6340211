// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

class QTableView;

namespace midden::ui {

/// Shares the width of a table out: first every column of figures gets all it takes, then `words`, whose cells may be
/// cut, get what they take of the rest, each no more than its share; what then is left is the picture's.
void fitColumns(QTableView& table, const std::vector<int>& words, std::optional<int> picture);

}  // namespace midden::ui
