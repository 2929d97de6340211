// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/certificate/page_view.h"

#include <QPaintEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>

#include "ui/certificate/certificate_sheet.h"
#include "ui/certificate/paper_font.h"
#include "ui/shared/palette.h"

namespace midden::ui {

namespace {
constexpr int border = 24;          ///< pixels around a page
constexpr double widestPage = 900;  ///< pixels; beyond, the page is centred
}  // namespace

PageView::PageView(QWidget* parent) : QWidget{parent} {
    auto policy = QSizePolicy{QSizePolicy::Preferred, QSizePolicy::Minimum};
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

void PageView::show(const CertificateSheet* sheet, QSizeF paper) {
    sheet_ = sheet;
    paper_ = paper * mm;
    setAccessibleName(sheet == nullptr ? QString{} : tr("The certificate's page as it will print"));
    updateGeometry();
    update();
}

double PageView::scaleFor(int width) const {
    return std::min(std::max(1.0, width - 2.0 * border), widestPage) / std::max(1.0, paper_.width());
}

int PageView::heightForWidth(int width) const {
    const int pages = sheet_ == nullptr ? 0 : sheet_->pageCount();
    return border + pages * (static_cast<int>(std::ceil(paper_.height() * scaleFor(width))) + border);
}

QSize PageView::sizeHint() const {
    constexpr int comfortable = 640;
    return {comfortable, heightForWidth(comfortable)};
}

QRectF PageView::pageAt(int page) const {
    const QSizeF size = paper_ * scaleFor(width());
    return {QPointF{(width() - size.width()) / 2, border + page * (size.height() + border)}, size};
}

void PageView::paintEvent(QPaintEvent* event) {
    QPainter painter{this};
    const auto& palette = Palette::of(*this);
    painter.fillRect(rect(), palette.side);
    for (int page = 0; sheet_ != nullptr && page < sheet_->pageCount(); ++page) {
        const QRectF place = pageAt(page);
        if (!place.intersects(event->rect())) {
            continue;
        }
        painter.save();
        painter.setRenderHint(QPainter::Antialiasing);
        painter.translate(place.topLeft());
        painter.scale(scaleFor(width()), scaleFor(width()));
        sheet_->drawPage(painter, page);
        painter.restore();
        painter.setPen(palette.hairline);
        painter.drawRect(place.adjusted(-0.5, -0.5, 0.5, 0.5));
    }
}

}  // namespace midden::ui
