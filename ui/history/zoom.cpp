// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/zoom.h"

#include <algorithm>
#include <cmath>

namespace midden::ui {

namespace {

Interval inside(Instant from, Seconds length, Interval whole) {
    const Instant latest = whole.to - length;
    const Instant start = std::clamp(from, whole.from, std::max(whole.from, latest));
    return {start, std::min(whole.to, start + length)};
}

}  // namespace

Interval zoomed(Interval visible, Interval whole, Instant about, double factor) {
    const auto before = static_cast<double>(visible.length().count);
    const auto closest = std::min(closestLook, whole.length());
    const Seconds length =
        std::clamp(Seconds{std::llround(before * factor)}, closest, std::max(closest, whole.length()));
    const double share = static_cast<double>((about - visible.from).count) / before;
    const Seconds left{std::llround(share * static_cast<double>(length.count))};
    return inside(about - left, length, whole);
}

Interval moved(Interval visible, Interval whole, double share) {
    const Seconds step{std::llround(share * static_cast<double>(visible.length().count))};
    return inside(visible.from + step, visible.length(), whole);
}

Interval showing(Interval visible, Interval whole, Instant at) {
    const Seconds edge{visible.length().count / 20};
    if (at < visible.from + edge) {
        return inside(at - edge, visible.length(), whole);
    }
    if (at > visible.to - edge) {
        return inside(at + edge - visible.length(), visible.length(), whole);
    }
    return visible;
}

}  // namespace midden::ui
