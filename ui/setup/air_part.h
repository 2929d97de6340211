// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/setup/setup_grid.h"
#include "ui/shared/book.h"

namespace midden::ui {

/// The air that goes through each bin, as far as it is known: openings, or changes of air, and what that comes to.
class AirPart : public SetupGrid {
    Q_OBJECT

  public:
    explicit AirPart(Book& book, QWidget* parent = nullptr);

  private:
    void refresh();
    void addRow(const Bin& bin);
    void addFigure(const Bin& bin, int row, int column, std::optional<double> Bin::*figure);

    Book& book_;
    std::vector<std::function<void(const Bin&)>> fillers_;  ///< one per cell, row by row
};

/// "about 3.2 m³ an hour, which takes 260 W": what the air of a bin comes to; empty when nothing is known of it.
QString airInWords(const Bin& bin);

}  // namespace midden::ui
