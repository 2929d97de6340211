// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QList>
#include <QWidget>
#include <functional>

class QLabel;
class QPushButton;

namespace midden::ui {

class FlowLayout;

/// A calm place under the menu for what went wrong, in words. It waits to be read and never takes the keyboard.
class TroubleBar : public QWidget {
    Q_OBJECT

  public:
    explicit TroubleBar(QWidget* parent = nullptr);

    void say(const QString& sentence);
    QString sentence() const;
    /// Something to do about it, until the next thing is said. `name` is the button's object name.
    void offer(const char* name, const QString& words, std::function<void()> act);

  private:
    QLabel* words_;
    FlowLayout* row_;  ///< of what can be done about it
    QList<QPushButton*> offers_;
    QPushButton* dismiss_;
};

}  // namespace midden::ui
