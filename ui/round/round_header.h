// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "ui/round/round_plan.h"

class QComboBox;
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
    /// The thermometer a new reading is taken with, given the place's last one: the chosen one, or "as before".
    std::optional<ProbeId> probeFor(const std::optional<Reading>& last) const;

  signals:
    void timeTyped(const QString& text);
    void nowWanted();

  private:
    void offer(const std::vector<Probe>& probes);

    QLineEdit* time_;
    QPushButton* now_;
    QLabel* timeWords_;
    QComboBox* probe_;
    QWidget* probeGroup_;
    QLabel* outsideLabel_;
    ReadingCell* outside_;
    QLabel* outsideWords_;
    QString usualOutsideWords_;
};

}  // namespace midden::ui
