// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QList>
#include <QObject>

class QRect;
class QWidget;

namespace midden::ui {

/// Keeps a form in sight within the page it stands in: all of it where there is room, else its feet, and before all
/// else the field with the keyboard. It follows every change of layout, which may come long after the form was shown.
class InView : public QObject {
  public:
    /// `feet`: what the form must not be without, such as its buttons. Lives as long as the form.
    InView(QWidget* form, QList<QWidget*> feet);

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void follow();
    void bring();

    QWidget* form_;
    QList<QWidget*> feet_;
    bool isDue_ = false;
};

}  // namespace midden::ui
