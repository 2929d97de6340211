// SPDX-License-Identifier: GPL-3.0-or-later
// The certificate laid out on paper: the same drawing for the preview, the printer and the PDF.
#pragma once

#include <QSizeF>
#include <functional>
#include <vector>

#include "core/certificate/certificate.h"
#include "ui/certificate/page_flow.h"

class QPagedPaintDevice;
class QPainter;
class QRectF;

namespace midden::ui {

using DrawChart = std::function<void(QPainter&, const QRectF&)>;

/// A certificate on sheets of one size. The page is in English whatever the desktop speaks, like the record it quotes.
class CertificateSheet {
  public:
    /// `paper` in millimetres; `drawChart` fills a rectangle in page units.
    CertificateSheet(Certificate certificate, DrawChart drawChart, QSizeF paper);

    // Its blocks draw from its own members.
    CertificateSheet(const CertificateSheet&) = delete;
    CertificateSheet& operator=(const CertificateSheet&) = delete;
    ~CertificateSheet() = default;

    int pageCount() const { return static_cast<int>(pages_.size()); }
    /// One page; the painter's unit is a hundredth of a millimetre, its origin the paper's top left corner.
    void drawPage(QPainter& painter, int page) const;
    /// All pages, on a device whose page is full: the margins are on the page. False: the device took nothing.
    bool print(QPagedPaintDevice& device) const;

  private:
    void layOut();
    std::vector<PageBlock> blocks(double chartHeight) const;
    void drawRunningHead(QPainter& painter, int page) const;
    void drawFooter(QPainter& painter, int page) const;

    Certificate certificate_;
    DrawChart drawChart_;
    QSizeF paper_;  ///< in page units
    std::vector<PageBlock> blocks_;
    std::vector<PlacedPage> pages_;
};

}  // namespace midden::ui
