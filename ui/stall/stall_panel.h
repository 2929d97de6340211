// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "ui/stall/stall_plan.h"

class QLabel;
class QPushButton;
class QScrollArea;

namespace midden::ui {

class Book;

/// What one press writes into the log.
struct Answer {
    QString text;
    QString spoken;
    Observation entry;  ///< without batch and time
};
/// The remedy as done; for the cause nobody knows yet, the outcome of the squeeze test.
std::vector<Answer> answersTo(const CausePlan& cause);

/// A stalled bin's own strip: one line that says so, and, opened, the likely causes with their remedies, each logged by
/// one key. Not there at all while the bin that the window looks at has no open stall.
class StallPanel : public QWidget {
    Q_OBJECT

  public:
    explicit StallPanel(Book& book, QWidget* parent = nullptr);

    bool isOpen() const;
    void setOpen(bool open);
    /// Opens it and puts the cursor on the first remedy.
    void takeKeyboard();

  private:
    void refresh();
    void fill(const StallPlan& plan);
    void log(const Answer& answer);
    QWidget* causeRow(const CausePlan& cause);
    QPushButton* answerButton(const Answer& answer);
    QLabel* line(const QString& text, bool muted);

    Book& book_;
    QLabel* headline_;
    QPushButton* opener_;
    QScrollArea* scroll_;
    int answers_ = 0;  ///< buttons made so far
};

}  // namespace midden::ui
