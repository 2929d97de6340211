// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <optional>

#include "ui/stall/stall_plan.h"

class QLabel;
class QPushButton;
class QScrollArea;
class QVBoxLayout;

namespace midden::ui {

class Book;
class InlineForm;
struct BatchStatus;

/// What one press writes into the log.
struct Answer {
    QString text;
    QString spoken;
    Observation entry;               ///< without batch and time
    std::vector<AerationKind> acts;  ///< written down with it
    bool adds = false;               ///< asks what went in first
};
/// The remedy as done; for the cause nobody knows yet, the outcome of the squeeze test.
std::vector<Answer> answersTo(const CausePlan& cause);

/// A stalled bin's own strip, below the screens: one line that says so, and, opened, the likely causes with their
/// remedies, each logged by one key with the turning, watering or addition it is made of. Empty while the bin that the
/// window looks at has no open stall and nobody asked for one that is over; not there at all while no bin has.
class StallPanel : public QWidget {
    Q_OBJECT

  public:
    explicit StallPanel(Book& book, QWidget* parent = nullptr);

    bool isOpen() const;
    void setOpen(bool open);
    /// Opens it and puts the cursor on the first remedy.
    void takeKeyboard();
    /// Opens it on that stall of the batch looked at, which may be over.
    void showStall(const Stall& stall);
    /// On a screen that tells of stalls itself the line is left out while the panel is closed.
    void setDiscreet(bool discreet);
    /// The causes take no more height than this; they scroll.
    void setRoom(int height);

  private:
    void refresh();
    void fill(const StallPlan& plan);
    void settle();
    const BatchStatus* status() const;
    const BatchStatus* firstStalled() const;
    void answer(const Answer& answer);
    void askWhatWentIn(const Answer& answer);
    void log(const Answer& answer);
    QWidget* causeRow(const CausePlan& cause, bool isOver);
    QPushButton* answerButton(const Answer& answer);
    QLabel* line(const QString& text, bool muted);

    Book& book_;
    QLabel* headline_;
    QPushButton* opener_;
    QScrollArea* scroll_;
    QVBoxLayout* column_;
    std::optional<Stall> past_;  ///< asked for, and over
    InlineForm* form_ = nullptr;
    int room_ = 0;  ///< 0 = as much as they like
    bool hasPlan_ = false;
    bool keepsPlace_ = false;  ///< while it is not shown
    bool isDiscreet_ = false;
    int answers_ = 0;  ///< buttons made so far
};

}  // namespace midden::ui
