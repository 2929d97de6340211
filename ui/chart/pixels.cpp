// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/pixels.h"

#include <QImage>
#include <QPaintEngine>
#include <QPainter>
#include <QTransform>
#include <algorithm>
#include <cmath>

namespace midden::ui {

namespace {

/// How much of each of a row of pixels is covered, kept as what changes from one to the next.
class RowCover {
  public:
    explicit RowCover(int pixels) : changes_(static_cast<std::size_t>(pixels) + 2) {}

    void add(const Stretch& stretch) {
        change(stretch.left, 1);
        change(stretch.right, -1);
    }
    QImage drawnWith(const QColor& colour) const {
        const auto inks = inksOf(colour);
        QImage row{static_cast<int>(changes_.size()) - 2, 1, QImage::Format_ARGB32_Premultiplied};
        auto* pixels = reinterpret_cast<QRgb*>(row.bits());
        double cover = 0;
        for (std::size_t pixel = 0; pixel < changes_.size() - 2; ++pixel) {
            cover += changes_[pixel];
            pixels[pixel] = inks[static_cast<std::size_t>(std::lround(std::clamp(cover, 0.0, 1.0) * 255))];
        }
        return row;
    }

  private:
    void change(double at, double by) {
        const double inside = std::clamp(at, 0.0, static_cast<double>(changes_.size() - 2));
        const auto pixel = static_cast<std::size_t>(inside);
        const double after = (inside - static_cast<double>(pixel)) * by;
        changes_[pixel] += by - after;
        changes_[pixel + 1] += after;
    }

    std::vector<double> changes_;
};

}  // namespace

bool hasPixels(const QPainter& painter) {
    return painter.paintEngine()->type() == QPaintEngine::Raster &&
           painter.deviceTransform().type() <= QTransform::TxScale;
}

QRectF onWholePixels(const QPainter& painter, const QRectF& area) {
    if (!hasPixels(painter)) {
        return area;
    }
    const QTransform toDevice = painter.deviceTransform();
    return toDevice.inverted().mapRect(QRectF{toDevice.mapRect(area).toRect()});
}

std::array<QRgb, 256> inksOf(const QColor& colour) {
    std::array<QRgb, 256> inks{};
    for (int alpha = 0; alpha < 256; ++alpha) {
        inks[static_cast<std::size_t>(alpha)] = qPremultiply(qRgba(colour.red(), colour.green(), colour.blue(), alpha));
    }
    return inks;
}

void fillStretches(QPainter& painter, const QRectF& area, const std::vector<Stretch>& stretches, const QColor& colour) {
    if (!hasPixels(painter)) {
        for (const Stretch& stretch : stretches) {
            painter.fillRect(QRectF{QPointF{stretch.left, area.top()}, QPointF{stretch.right, area.bottom()}}, colour);
        }
        return;
    }
    const QTransform toDevice = painter.deviceTransform();
    const QRect place = toDevice.mapRect(area).toRect();
    RowCover cover{place.width()};
    const auto pixelAt = [&](double x) { return toDevice.map(QPointF{x, 0}).x() - place.left(); };
    for (const Stretch& stretch : stretches) {
        cover.add({pixelAt(stretch.left), pixelAt(stretch.right)});
    }
    painter.save();
    painter.setWorldTransform(toDevice.inverted() * painter.worldTransform());  // in pixels
    painter.setBrushOrigin(place.topLeft());
    painter.fillRect(place, QBrush{cover.drawnWith(colour)});
    painter.restore();
}

}  // namespace midden::ui
