// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QEvent>
#include <QLineEdit>
#include <functional>
#include <optional>

namespace midden::ui {

/// From now on there is nothing to undo in the line itself; its text, caret and selection stay.
void forgetTyping(QLineEdit& line);

/// A line whose text is saved when the cursor leaves it or on Enter. Escape restores what stood there.
/// Nothing typed is ever rewritten before it is saved.
class SavedLine : public QLineEdit {
    Q_OBJECT

  public:
    explicit SavedLine(QWidget* parent = nullptr);

    /// In pixels. Where there is no room for that it may be half as wide, never wider.
    void setUsualWidth(int width);
    QSize sizeHint() const override;

    /// What the book holds. Leaves alone what is being typed or waits to be corrected.
    void setStored(const QString& text);
    /// Typed, but not what the book holds.
    bool isPending() const { return text() != stored_; }
    /// Handed over, and not taken.
    bool isRefused() const { return isPending() && wasHandedOver_; }
    /// The book took the text as it stands.
    void setTaken();
    /// Hands over what is typed, and is empty for the next thing when `take` took it; else the text stays, and is
    /// handed over again on Enter or when the cursor leaves.
    void giveAway(const std::function<bool(const QString&)>& take);
    /// Goes on where another line that it replaces stands: what is typed and not saved, the caret and what is selected.
    void goOnFrom(const SavedLine& other);
    /// The book could not take it now: the text stays, and is handed over again on Enter or when the cursor leaves.
    void setRefused() { handedOver_ = stored_; }

  signals:
    void typed(const QString& text);  ///< only when it has changed since it was handed over last
    void enterPressed();
    void entered();  ///< the keyboard has come here

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void handOver();

  private:
    std::optional<int> usualWidth_;
    QString stored_;
    QString handedOver_;
    bool wasHandedOver_ = false;  ///< since something was stored last
};

/// The window is sent one whenever a line in it was handed over, taken or not.
inline const auto lineHandedOver = static_cast<QEvent::Type>(QEvent::registerEventType());

/// How many lines of a window hold something that was handed over and not taken.
int refusedIn(const QWidget& window);

}  // namespace midden::ui
