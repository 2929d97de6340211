// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/setup/setup_grid.h"
#include "ui/shared/book.h"

namespace midden::ui {

/// The bins: name, size, wall, and whether they are in use. The last line is for a new one.
class BinsPart : public SetupGrid {
    Q_OBJECT

  public:
    explicit BinsPart(Book& book, QWidget* parent = nullptr);

  private:
    void refresh();
    void addRows(const std::vector<Bin>& bins);
    void addRow(const Bin& bin);
    void addName(const Bin& bin, int row);
    void addFigure(const Bin& bin, int row, int column, std::optional<double> Bin::*figure);

    Book& book_;
    std::vector<std::function<void(const Bin&)>> fillers_;  ///< one per cell, row by row
};

}  // namespace midden::ui
