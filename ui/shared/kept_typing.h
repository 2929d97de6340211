// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointer>
#include <QString>
#include <QStringList>

class QWidget;

namespace midden::ui {

/// Takes what a person is in the middle of from widgets that are about to be replaced to those in their place: the
/// keyboard, the caret, and what is typed and not saved yet. A widget is the same one by its object name.
class KeptTyping {
  public:
    /// From now on the lines in `old`, which may be null, save nothing.
    explicit KeptTyping(QWidget* old);
    /// Call once `fresh` is shown, while `old` still is. False: the widget with the keyboard has no successor.
    bool goOnIn(QWidget& fresh) const;
    /// Gives the keyboard to the next line to type in: none of its keys does anything by itself.
    void giveToNextLine(QWidget& fresh) const;

  private:
    QPointer<QWidget> old_;
    QPointer<QWidget> focus_;  ///< in `old_`
};

}  // namespace midden::ui
