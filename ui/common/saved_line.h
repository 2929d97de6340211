// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLineEdit>

namespace midden::ui {

/// A line whose text is saved when the cursor leaves it or on Enter. Escape restores what stood there.
/// Nothing typed is ever rewritten before it is saved.
class SavedLine : public QLineEdit {
    Q_OBJECT

  public:
    explicit SavedLine(QWidget* parent = nullptr);

    /// What the book holds. Leaves alone what is being typed or waits to be corrected.
    void setStored(const QString& text);
    /// Typed, but not what the book holds.
    bool isPending() const { return text() != stored_; }
    /// The book took the text as it stands.
    void setTaken();
    /// The book could not take it now: the text stays, and is handed over again on Enter or when the cursor leaves.
    void setRefused() { handedOver_ = stored_; }

  signals:
    void typed(const QString& text);  ///< only when it has changed since it was handed over last
    void enterPressed();
    void entered();  ///< the keyboard has come here

  protected:
    /// Undo and redo are the book's, unless something is half typed here.
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void handOver();

  private:
    QString stored_;
    QString handedOver_;
};

}  // namespace midden::ui
