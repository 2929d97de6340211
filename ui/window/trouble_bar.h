// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

class QLabel;
class QPushButton;

namespace midden::ui {

/// One calm line under the menu for what went wrong, in words. It waits to be read and never takes the keyboard.
class TroubleBar : public QWidget {
    Q_OBJECT

  public:
    explicit TroubleBar(QWidget* parent = nullptr);

    void say(const QString& sentence);
    QString sentence() const;

  private:
    QLabel* words_;
    QPushButton* dismiss_;
};

}  // namespace midden::ui
