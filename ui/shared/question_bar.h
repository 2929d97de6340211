// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

class QLabel;
class QPushButton;

namespace midden::ui {

/// What is asked before something is lost.
struct Question {
    QString words;  ///< what would be lost, and the question; empty = nothing is to be asked
    QString yes;    ///< what its button does, never just "OK"
    QString no;
};

/// Asks in the page itself. The keyboard is on the answer that keeps, so that Enter and Escape keep.
class QuestionBar : public QWidget {
    Q_OBJECT

  public:
    explicit QuestionBar(QWidget* parent = nullptr);
    void ask(const Question& question);

  signals:
    void agreed();
    void declined();

  protected:
    void keyPressEvent(QKeyEvent* event) override;

  private:
    QLabel* words_;
    QPushButton* no_;
    QPushButton* yes_;
};

}  // namespace midden::ui
