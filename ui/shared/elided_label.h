// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLabel>

namespace midden::ui {

/// One line of other people's words: a name. Where there is no room for all of it, it ends in "…", its tool tip says it
/// whole, and a screen reader always hears it whole. It never asks for more than `letters` of width, nor for more than
/// its words take.
class ElidedLabel : public QLabel {
    Q_OBJECT

  public:
    explicit ElidedLabel(const QString& words = {}, QWidget* parent = nullptr, int letters = 24);

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

  protected:
    bool event(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

  private:
    QString shown() const;

    int letters_;
};

/// A name for a place that cannot tell how wide it is, a button or a title: no longer than `letters`, with "…" in the
/// middle where it was cut.
QString shortened(const QString& name, int letters = 32);

}  // namespace midden::ui
