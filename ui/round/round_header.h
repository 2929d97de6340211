// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "ui/round/round_plan.h"

class QLabel;
class QLineEdit;
class QPushButton;

namespace midden::ui {

class ReadingCell;

/// The line over the table: when the round is taken, and how warm the air is.
class RoundHeader : public QWidget {
    Q_OBJECT

  public:
    explicit RoundHeader(QWidget* parent = nullptr);

    void show(const RoundPlan& plan, Moment now, bool isPast);
    /// Words beside the time, or beside the air; empty = none.
    void questionTime(const QString& words);
    void questionOutside(const QString& words);
    ReadingCell* outside() const { return outside_; }

  signals:
    void timeTyped(const QString& text);
    void nowWanted();

  private:
    QLineEdit* time_;
    QPushButton* now_;
    QLabel* timeWords_;
    QLabel* outsideLabel_;
    ReadingCell* outside_;
    QLabel* outsideWords_;
    QString usualOutsideWords_;
};

}  // namespace midden::ui
