// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/dense_line.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>
#include <vector>

#include "ui/chart/pixels.h"

namespace midden::ui {

namespace {

constexpr int slicesAPixel = 15;  // a divisor of 255

/// From where to where something reaches in one slice, in pixels downwards.
struct Reach {
    float top = std::numeric_limits<float>::infinity();
    float bottom = -std::numeric_limits<float>::infinity();

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
        float height = heightAt(first);
        const std::size_t lastSlice = sliceAt(last);
        for (std::size_t slice = sliceAt(first); slice < lastSlice; ++slice) {
            reaches_[slice].add(height);
            height = heightAt(static_cast<double>(slice + 1));
            reaches_[slice].add(height);
        }
        reaches_[lastSlice].add(height);
        // Exactly there, upright segments and all.
        reaches_[lastSlice].add(to.x() <= last ? static_cast<float>(to.y()) : heightAt(last));
    }

  private:
    std::size_t sliceAt(double x) const { return std::min(static_cast<std::size_t>(x), reaches_.size() - 1); }

    double left_;
    std::vector<Reach> reaches_;
};

/// The same for a round pen.
std::vector<Reach> widened(const std::vector<Reach>& thin, double radius) {
    // The middle slice and so many to each side are as wide as the pen, give or take half a slice.
    const auto asideName = static_cast<std::ptrdiff_t>(std::lround(std::max(0.0, radius * slicesAPixel - 0.5)));
    std::vector<Reach> wide(thin.size());
    for (std::ptrdiff_t by = -asideName; by <= asideName; ++by) {
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

/// How much of each pixel of one column is covered: kept as what changes from row to row, so that a long reach takes no
/// longer to add than a short one.
class ColumnCover {
  public:
    explicit ColumnCover(int height) : height_{static_cast<float>(height)}, changes_(asIndex(height) + 2) {}

    void add(const Reach& reach, int top) {
        const float from = std::clamp(reach.top - static_cast<float>(top), 0.0F, height_);
        const float to = std::clamp(reach.bottom - static_cast<float>(top), 0.0F, height_);
        if (from < to) {
            change(from, whole);
            change(to, -whole);
            first_ = std::min(first_, static_cast<int>(from));
            last_ = std::max(last_, static_cast<int>(std::ceil(to)));
        }
    }
    /// Calls `paint` with each row and its cover, 0 to 255, and starts afresh.
    template <class Paint>
    void empty(const Paint& paint) {
        int cover = 0;
        for (int row = first_; row < last_; ++row) {
            cover += std::exchange(changes_[asIndex(row)], 0);
            paint(row, asIndex(cover));
        }
        changes_[asIndex(last_)] = 0;
        changes_[asIndex(last_) + 1] = 0;
        first_ = static_cast<int>(height_);
        last_ = 0;
    }

  private:
    static constexpr int whole = 255 / slicesAPixel;
    static std::size_t asIndex(int row) { return static_cast<std::size_t>(row); }

    void change(float at, int by) {
        const int row = static_cast<int>(at);
        const int below = static_cast<int>((at - static_cast<float>(row)) * static_cast<float>(by));
        changes_[asIndex(row)] += by - below;
        changes_[asIndex(row) + 1] += below;
    }

    float height_;
    std::vector<int> changes_;
    int first_ = static_cast<int>(height_);
    int last_ = 0;
};

}  // namespace

QImage DenseLine::drawnIn(const QRect& area) const {
    QImage image{area.size(), QImage::Format_ARGB32_Premultiplied};
    image.fill(Qt::transparent);
    const int asideName = static_cast<int>(std::ceil(radius));  // columns from which the pen reaches into the area
    Slices slices{static_cast<double>(area.left() - asideName), area.width() + 2 * asideName};
    for (qsizetype i = 1; i < points.size(); ++i) {
        slices.addSegment(points[i - 1], points[i]);
    }
    const auto reaches = widened(slices.reaches(), radius);
    auto* pixels = reinterpret_cast<QRgb*>(image.bits());
    const std::ptrdiff_t stride = image.bytesPerLine() / static_cast<std::ptrdiff_t>(sizeof(QRgb));
    const auto inks = inksOf(colour);
    ColumnCover column{area.height()};
    auto reach = reaches.begin() + static_cast<std::ptrdiff_t>(asideName) * slicesAPixel;
    for (int x = 0; x < area.width(); ++x) {
        for (int i = 0; i < slicesAPixel; ++i) {
            column.add(*reach++, area.top());
        }
        column.empty([&](int y, std::size_t cover) { pixels[y * stride + x] = inks[cover]; });
    }
    return image;
}

}  // namespace midden::ui
