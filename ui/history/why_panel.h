// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "core/criteria/judgement.h"
#include "core/quantities/zone.h"

class QLabel;
class QToolButton;

namespace midden::ui {

/// Why an hour counts or not, and one press away what the criterion asks, of whom, and where that is written.
class WhyPanel : public QWidget {
    Q_OBJECT

  public:
    explicit WhyPanel(QWidget* parent = nullptr);
    void explain(const Judgement& judgement, Instant at, const TimeZone& zone);
    void clear();
    QString sentence() const;

  signals:
    void closed();

  private:
    QLabel* sentence_;
    QToolButton* more_;
    QToolButton* close_;
    QLabel* criterion_;
};

}  // namespace midden::ui
