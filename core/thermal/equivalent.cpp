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

/// (e^rise − 1) / rise, which the first terms of its series give within 1e-12 where a logger reads every minute.
double meanOverRise(double rise) {
    constexpr double small = 0.01;
    return std::abs(rise) < small ? 1 + rise / 2 * (1 + rise / 3 * (1 + rise / 4 * (1 + rise / 5)))
                                  : std::expm1(rise) / rise;
}

/// ∫ 2^((T−10)/10) dt in seconds along a straight line of `seconds`.
double weight(Line line, double seconds) {
    const double shape = meanOverRise(std::numbers::ln2 * line.slope * seconds / 10);
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
        if (until == seconds) {
            break;
        }
        for (auto& line : lines) {
            line.start += line.slope * until;
        }
        seconds -= until;
        // At the crossing the steeper line is the top from here on: drop those it has overtaken.
        std::erase_if(lines, [&](Line line) { return line.slope <= top.slope; });
    }
    return sum;
}

/// Later than anything that can be read.
constexpr Instant never{std::numeric_limits<std::int64_t>::max()};

/// A track and how far the sweep has come along it.
struct Cursor {
    std::span<const Sample> samples;
    std::size_t next = 0;  ///< first sample later than the sweep

    Instant nextInstant() const { return next < samples.size() ? samples[next].at : never; }

    /// Adds the line the track follows at `now`, if it has one there.
    void addLine(std::vector<Line>& lines, Instant now, Seconds maxGap) const {
        if (next == 0 || next >= samples.size()) {
            return;
        }
        const auto& a = samples[next - 1];
        const auto& b = samples[next];
        if (b.at - a.at <= maxGap) {
            const double slope = (b.temperature() - a.temperature()).value() / static_cast<double>((b.at - a.at).count);
            lines.push_back({a.temperature().value() + slope * static_cast<double>((now - a.at).count), slope});
        }
    }
};

/// Moves the sweep to the next instant with a sample and returns it; `never` when there is none left.
Instant advance(std::vector<Cursor>& cursors) {
    Instant then = never;
    for (const auto& cursor : cursors) {
        then = std::min(then, cursor.nextInstant());
    }
    for (auto& cursor : cursors) {
        if (cursor.next < cursor.samples.size() && cursor.samples[cursor.next].at == then) {
            ++cursor.next;
        }
    }
    return then;
}

}  // namespace

double daysAtTenCelsius(std::span<const Track> tracks, Seconds maxGap) {
    std::vector<Cursor> cursors;
    for (const auto& track : tracks) {
        cursors.push_back({track.samples});
    }
    double seconds = 0;
    std::vector<Line> lines;
    for (Instant now = advance(cursors); now != never;) {
        lines.clear();
        for (const auto& cursor : cursors) {
            cursor.addLine(lines, now, maxGap);
        }
        const Instant then = advance(cursors);
        if (!lines.empty()) {
            seconds += weightOfHighest(lines, static_cast<double>((then - now).count));
        }
        now = then;
    }
    return seconds / 86'400;
}

}  // namespace midden
