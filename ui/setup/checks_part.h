// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <vector>

#include "core/records/entries.h"

class QLabel;
class QVBoxLayout;

namespace midden::ui {

class Book;
class ProbeChecks;

/// Ice and boiling checks of every thermometer.
class ChecksPart : public QWidget {
    Q_OBJECT

  public:
    explicit ChecksPart(Book& book, QWidget* parent = nullptr);

  private:
    void refresh();
    void arrange(const std::vector<ProbeId>& probes);

    Book& book_;
    QVBoxLayout* column_;
    QLabel* none_;
    std::vector<ProbeId> shown_;
    std::vector<ProbeChecks*> blocks_;
};

}  // namespace midden::ui
