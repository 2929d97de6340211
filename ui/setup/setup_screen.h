// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

namespace midden::ui {

class Book;

/// Bins, positions, probes and the settings of the book. Every line saves itself when it is left.
class SetupScreen : public QWidget {
    Q_OBJECT

  public:
    explicit SetupScreen(Book& book, QWidget* parent = nullptr);

  protected:
    void focusInEvent(QFocusEvent* event) override;
};

}  // namespace midden::ui
