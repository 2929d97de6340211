// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

namespace midden::ui {

class CertificateSheet;

/// The pages as they will print, one below the other, as wide as there is room.
class PageView : public QWidget {
    Q_OBJECT

  public:
    explicit PageView(QWidget* parent = nullptr);
    /// `sheet` must outlive its being shown; null shows nothing. `paper` in millimetres.
    void show(const CertificateSheet* sheet, QSizeF paper);

    bool hasHeightForWidth() const override { return true; }
    int heightForWidth(int width) const override;
    QSize sizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    double scaleFor(int width) const;  ///< pixels to a page unit
    QRectF pageAt(int page) const;     ///< in pixels

    const CertificateSheet* sheet_ = nullptr;
    QSizeF paper_;  ///< in page units
};

}  // namespace midden::ui
