// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/setup/setup_grid.h"
#include "ui/shared/book.h"

namespace midden::ui {

/// How high things are inside each bin: its rim, its hatch, its positions. Needed where a bin is fed.
class HeightsPart : public SetupGrid {
    Q_OBJECT

  public:
    explicit HeightsPart(Book& book, QWidget* parent = nullptr);

  private:
    struct Height {
        QString name;    ///< of the cell
        QString what;    ///< "rim"
        QString spoken;  ///< "Rim of North, cm above the floor"
        bool isRim = false;
        std::function<std::optional<double>()> stored;
        std::function<bool(std::optional<double>)> store;
    };

    void refresh();
    void addRows();
    void addHeight(const Bin& bin, const Height& height, bool first);
    /// Why it cannot be; empty where it can.
    QString problemWith(BinId bin, bool isRim, double centimetres) const;

    Book& book_;
    std::vector<std::function<void()>> fillers_;
};

}  // namespace midden::ui
