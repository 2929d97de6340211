// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "ui/stall/stall_plan.h"

class QLabel;
class QPushButton;
class QScrollArea;

namespace midden::ui {

class Book;

/// A stalled bin's own strip: one line that says so, and, opened, the likely causes with their remedies, each logged by
/// one key. Not there at all while the bin that the window looks at has no open stall.
class StallPanel : public QWidget {
    Q_OBJECT

  public:
    explicit StallPanel(Book& book, QWidget* parent = nullptr);

    bool isOpen() const;
    void setOpen(bool open);

  private:
    void refresh();
    void fill(const StallPlan& plan);
    void log(const CausePlan& cause);
    QWidget* causeRow(const CausePlan& cause, int number);
    QLabel* line(const QString& text, bool muted);

    Book& book_;
    QLabel* headline_;
    QPushButton* opener_;
    QScrollArea* scroll_;
};

}  // namespace midden::ui
