// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QScrollArea>

namespace midden::ui {

/// Shows its content as large as there is room. Where there is less than the content needs at the least, it keeps that
/// size and scrolls, and what gets the keyboard is scrolled to.
class ScrollPane : public QScrollArea {
    Q_OBJECT

  public:
    explicit ScrollPane(QWidget* content, QWidget* parent = nullptr);
    ScrollPane(const ScrollPane&) = delete;
    ScrollPane& operator=(const ScrollPane&) = delete;
    ~ScrollPane() override;

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;
    /// What the content needs at the least when it is that wide.
    int leastHeight(int width) const;

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    void fit();
    void reveal(const QWidget* now);
};

}  // namespace midden::ui
