// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

namespace midden::ui {

class Book;

/// Bins, positions, probes and their checks, criteria, and the settings of the book. Every line saves itself when it
/// is left; forms save on Enter.
class SetupScreen : public QWidget {
    Q_OBJECT

  public:
    explicit SetupScreen(Book& book, QWidget* parent = nullptr);
    SetupScreen(const SetupScreen&) = delete;
    SetupScreen& operator=(const SetupScreen&) = delete;
    ~SetupScreen() override;

  protected:
    void focusInEvent(QFocusEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    QWidget* page_;
};

}  // namespace midden::ui
