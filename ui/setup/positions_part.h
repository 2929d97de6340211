// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/setup/setup_grid.h"
#include "ui/shared/book.h"

namespace midden::ui {

/// Where in each bin the thermometer goes. A spot check is read now and then and is no part of "every position".
class PositionsPart : public SetupGrid {
    Q_OBJECT

  public:
    explicit PositionsPart(Book& book, QWidget* parent = nullptr);

  private:
    void refresh();
    void addRows();
    void addPosition(const Bin& bin, const PlaceSetting& place, bool first);
    void addNew(const Bin& bin, bool first);

    Book& book_;
};

}  // namespace midden::ui
