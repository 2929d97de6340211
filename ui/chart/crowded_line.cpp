// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/crowded_line.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <vector>

namespace midden::ui {

namespace {

constexpr int slicesAPixel = 5;

/// From where to where something reaches in one slice, in pixels downwards.
struct Reach {
    float top = std::numeric_limits<float>::infinity();
    float bottom = -std::numeric_limits<float>::infinity();

    bool isEmpty() const { return top > bottom; }
    void add(float y) { take({y, y}); }
    void take(const Reach& other) {
        top = std::min(top, other.top);
        bottom = std::max(bottom, other.bottom);
    }
};

/// What an infinitely thin line reaches in each slice of an area.
class Slices {
  public:
    Slices(double left, int columns) : left_{left}, reaches_(static_cast<std::size_t>(columns) * slicesAPixel) {}

    const std::vector<Reach>& reaches() const { return reaches_; }

    void addSegment(QPointF from, QPointF to) {
        from.rx() = (from.x() - left_) * slicesAPixel;
        to.rx() = (to.x() - left_) * slicesAPixel;
        const double first = std::max(from.x(), 0.0);
        const double last = std::min(to.x(), static_cast<double>(reaches_.size()));
        if (first > last || reaches_.empty()) {
            return;
        }
        const double rise = to.x() > from.x() ? (to.y() - from.y()) / (to.x() - from.x()) : 0;
        const auto heightAt = [&](double x) { return static_cast<float>(from.y() + (x - from.x()) * rise); };
        for (std::size_t slice = sliceAt(first); slice <= sliceAt(last); ++slice) {
            reaches_[slice].add(heightAt(std::max(first, static_cast<double>(slice))));
            reaches_[slice].add(heightAt(std::min(last, static_cast<double>(slice + 1))));
        }
        if (to.x() <= last) {  // exactly there, upright segments and all
            reaches_[sliceAt(last)].add(static_cast<float>(to.y()));
        }
    }

  private:
    std::size_t sliceAt(double x) const { return std::min(static_cast<std::size_t>(x), reaches_.size() - 1); }

    double left_;
    std::vector<Reach> reaches_;
};

/// The same for a round pen.
std::vector<Reach> widened(const std::vector<Reach>& thin, double radius) {
    const auto aside = static_cast<std::ptrdiff_t>(radius * slicesAPixel);
    std::vector<Reach> wide(thin.size());
    for (std::ptrdiff_t by = -aside; by <= aside; ++by) {
        const double away = static_cast<double>(by) / slicesAPixel;
        const auto above = static_cast<float>(std::sqrt(radius * radius - away * away));
        const auto first = std::max<std::ptrdiff_t>(0, -by);
        const auto last = std::ssize(thin) - std::max<std::ptrdiff_t>(0, by);
        for (std::ptrdiff_t slice = first; slice < last; ++slice) {
            const Reach& reach = thin[static_cast<std::size_t>(slice + by)];
            wide[static_cast<std::size_t>(slice)].take({reach.top - above, reach.bottom + above});
        }
    }
    return wide;
}

/// How much of each pixel of one column is covered.
class ColumnCover {
  public:
    explicit ColumnCover(int height) : cover_(static_cast<std::size_t>(height)) {}

    void clear() {
        std::fill(cover_.begin() + first_, cover_.begin() + last_, std::uint16_t{0});
        first_ = last_ = 0;
    }
    void add(const Reach& reach, int top) {
        const float from = std::clamp(reach.top - static_cast<float>(top), 0.0F, height());
        const float to = std::clamp(reach.bottom - static_cast<float>(top), 0.0F, height());
        if (reach.isEmpty() || from >= to) {
            return;
        }
        const auto first = static_cast<std::ptrdiff_t>(from);
        const auto last = static_cast<std::ptrdiff_t>(std::ceil(to));
        std::for_each(cover_.begin() + first, cover_.begin() + last, [](std::uint16_t& cover) { cover += whole; });
        cover_[static_cast<std::size_t>(first)] -= partOf(from - std::floor(from));
        cover_[static_cast<std::size_t>(last - 1)] -= partOf(std::ceil(to) - to);
        first_ = first_ == last_ ? first : std::min(first_, first);
        last_ = std::max(last_, last);
    }
    std::ptrdiff_t first() const { return first_; }
    std::ptrdiff_t last() const { return last_; }
    /// 0 to 255.
    std::size_t at(std::ptrdiff_t row) const { return cover_[static_cast<std::size_t>(row)]; }

  private:
    static constexpr std::uint16_t whole = 255 / slicesAPixel;
    static std::uint16_t partOf(float share) { return static_cast<std::uint16_t>(share * whole); }
    float height() const { return static_cast<float>(cover_.size()); }

    std::vector<std::uint16_t> cover_;
    std::ptrdiff_t first_ = 0;
    std::ptrdiff_t last_ = 0;
};

/// The colour, by how much of a pixel it covers.
std::array<QRgb, 256> inksOf(const QColor& colour) {
    std::array<QRgb, 256> inks{};
    for (int alpha = 0; alpha < 256; ++alpha) {
        inks[static_cast<std::size_t>(alpha)] = qPremultiply(qRgba(colour.red(), colour.green(), colour.blue(), alpha));
    }
    return inks;
}

}  // namespace

QImage CrowdedLine::drawnIn(const QRect& area) const {
    QImage image{area.size(), QImage::Format_ARGB32_Premultiplied};
    image.fill(Qt::transparent);
    const int aside = static_cast<int>(std::ceil(radius));  // columns from which the pen reaches into the area
    Slices slices{static_cast<double>(area.left() - aside), area.width() + 2 * aside};
    for (qsizetype i = 1; i < points.size(); ++i) {
        slices.addSegment(points[i - 1], points[i]);
    }
    const auto reaches = widened(slices.reaches(), radius);
    auto* pixels = reinterpret_cast<QRgb*>(image.bits());
    const std::ptrdiff_t stride = image.bytesPerLine() / static_cast<std::ptrdiff_t>(sizeof(QRgb));
    const auto inks = inksOf(colour);
    ColumnCover column{area.height()};
    for (int x = 0; x < area.width(); ++x) {
        column.clear();
        for (int i = 0; i < slicesAPixel; ++i) {
            column.add(reaches[(static_cast<std::size_t>(x) + static_cast<std::size_t>(aside)) * slicesAPixel +
                               static_cast<std::size_t>(i)],
                       area.top());
        }
        for (std::ptrdiff_t y = column.first(); y < column.last(); ++y) {
            pixels[y * stride + x] = inks[column.at(y)];
        }
    }
    return image;
}

}  // namespace midden::ui
