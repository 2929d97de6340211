// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

class QLabel;
class QLineEdit;
class QPushButton;

namespace midden::ui {

/// Asks, in the page itself, before an entry is taken back. Only its button does so; Enter behind the reason goes
/// there.
class WithdrawBar : public QWidget {
    Q_OBJECT

  public:
    explicit WithdrawBar(QWidget* parent = nullptr);
    void ask(const QString& entry);

  signals:
    void withdrawn(const QString& why);
    void kept();

  protected:
    void keyPressEvent(QKeyEvent* event) override;

  private:
    void close(bool withdraw);

    QLabel* question_;
    QLineEdit* why_;
    QPushButton* withdraw_;
    QPushButton* keep_;
};

}  // namespace midden::ui
