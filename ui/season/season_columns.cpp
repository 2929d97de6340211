// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/season/season_columns.h"

#include <QTableView>
#include <algorithm>

namespace midden::ui {

namespace {

// In average letters.
constexpr int leastPicture = 10;  ///< less would show nothing
constexpr int leastWords = 7;
constexpr int mostWords = 32;

}  // namespace

void fitColumns(QTableView& table, const std::vector<int>& words, std::optional<int> picture) {
    const int letter = table.fontMetrics().averageCharWidth();
    table.resizeColumnsToContents();
    int left = table.viewport()->width() - (picture ? leastPicture * letter : 0);
    for (int column = 0; column < table.model()->columnCount(); ++column) {
        const bool isFigure = column != picture && std::ranges::find(words, column) == words.end();
        left -= isFigure ? table.columnWidth(column) : 0;
    }
    int waiting = static_cast<int>(words.size());
    for (const int column : words) {
        const int share = std::clamp(left / waiting--, leastWords * letter, mostWords * letter);
        const int width = std::min(table.columnWidth(column), share);
        table.setColumnWidth(column, width);
        left -= width;
    }
    if (picture) {
        table.setColumnWidth(*picture, leastPicture * letter + std::max(0, left));
    }
}

}  // namespace midden::ui
