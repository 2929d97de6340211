// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QRectF>
#include <QString>
#include <vector>

#include "ui/certificate/paper_chart.h"

namespace midden::ui {

/// A mark on an axis of the printed chart.
struct FrameTick {
    double at = 0;  ///< UTC seconds, or °C
    QString label;
};

/// Midnights of the zone, no closer than their labels allow over this width in page units.
std::vector<FrameTick> datesOver(const Interval& visible, const TimeZone& zone, double width);

/// The axes of the printed chart: what lies where on the page.
class ChartFrame {
  public:
    ChartFrame(const PaperChart& chart, const QRectF& plot);

    const QRectF& plot() const { return plot_; }
    const Interval& visible() const { return visible_; }
    double x(Instant at) const;
    double y(double celsius) const;
    QRectF column(const Interval& interval) const;  ///< as high as the plot, clipped to it
    std::vector<FrameTick> degrees() const;         ///< every ten or twenty
    std::vector<FrameTick> dates() const;           ///< midnights of the zone, no closer than their labels allow

  private:
    QRectF plot_;
    TimeZone zone_;
    Interval visible_;
    double lowest_ = 0;
    double highest_ = 0;
};

}  // namespace midden::ui
