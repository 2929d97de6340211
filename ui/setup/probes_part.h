// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/setup/setup_grid.h"
#include "ui/shared/book.h"

namespace midden::ui {

/// The thermometers and how far they may be off. The last line is for a new one.
class ProbesPart : public SetupGrid {
    Q_OBJECT

  public:
    explicit ProbesPart(Book& book, QWidget* parent = nullptr);

  private:
    void refresh();
    void addRow(const Probe& probe);
    void addNew();
    bool amend(ProbeId id, const std::function<void(Probe&)>& how);

    Book& book_;
    std::vector<std::function<void(const Probe&)>> fillers_;  ///< one per row
};

}  // namespace midden::ui
