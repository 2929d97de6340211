// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/equivalent.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

namespace midden {

namespace {

/// One track's straight line over the piece of time in hand.
struct Line {
    double start = 0;  ///< °C at the piece's beginning
    double slope = 0;  ///< °C a second
};

/// ∫ 2^((T−10)/10) dt in seconds along a straight line of `seconds`.
double weight(Line line, double seconds) {
    const double rise = std::numbers::ln2 * line.slope * seconds / 10;
    const double shape = std::abs(rise) < 1e-9 ? 1 + rise / 2 : std::expm1(rise) / rise;
    return seconds * std::exp2((line.start - 10) / 10) * shape;
}

/// The same along the highest of several lines.
double weightOfHighest(std::vector<Line>& lines, double seconds) {
    double sum = 0;
    while (seconds > 0 && !lines.empty()) {
        const auto higher = [](Line a, Line b) { return a.start != b.start ? a.start < b.start : a.slope < b.slope; };
        const Line top = *std::max_element(lines.begin(), lines.end(), higher);
        double until = seconds;
        for (const auto& other : lines) {
            if (other.slope > top.slope) {
                until = std::min(until, (top.start - other.start) / (other.slope - top.slope));
            }
        }
        sum += weight(top, until);
        for (auto& line : lines) {
            line.start += line.slope * until;
        }
        seconds -= until;
        // At the crossing the steeper line is the top from here on: drop those it has overtaken.
        std::erase_if(lines, [&](Line line) { return line.slope <= top.slope; });
    }
    return sum;
}

/// A track and how far the sweep has come along it.
struct Cursor {
    const Track* track;
    std::size_t next = 0;  ///< first sample later than the sweep

    double nextInstant() const {
        return next < track->samples.size() ? static_cast<double>(track->samples[next].at.utcSeconds)
                                            : std::numeric_limits<double>::infinity();
    }
    /// Adds the line the track follows at `now`, if it has one there.
    void addLine(std::vector<Line>& lines, double now, Seconds maxGap) const {
        if (next == 0 || next >= track->samples.size()) {
            return;
        }
        const auto& a = track->samples[next - 1];
        const auto& b = track->samples[next];
        if (b.at - a.at <= maxGap) {
            const double slope = (b.temperature() - a.temperature()).value() / static_cast<double>((b.at - a.at).count);
            lines.push_back({a.temperature().value() + slope * (now - static_cast<double>(a.at.utcSeconds)), slope});
        }
    }
};

/// Moves the sweep to the next instant with a sample and returns it; infinity when there is none left.
double advance(std::vector<Cursor>& cursors) {
    double then = std::numeric_limits<double>::infinity();
    for (const auto& cursor : cursors) {
        then = std::min(then, cursor.nextInstant());
    }
    for (auto& cursor : cursors) {
        if (cursor.nextInstant() <= then && !std::isinf(then)) {
            ++cursor.next;
        }
    }
    return then;
}

}  // namespace

double daysAtTenCelsius(std::span<const Track> tracks, Seconds maxGap) {
    std::vector<Cursor> cursors;
    for (const auto& track : tracks) {
        cursors.push_back({&track});
    }
    double seconds = 0;
    std::vector<Line> lines;
    for (double now = advance(cursors); !std::isinf(now);) {
        lines.clear();
        for (const auto& cursor : cursors) {
            cursor.addLine(lines, now, maxGap);
        }
        const double then = advance(cursors);
        if (!lines.empty()) {
            seconds += weightOfHighest(lines, then - now);
        }
        now = then;
    }
    return seconds / 86'400;
}

}  // namespace midden
