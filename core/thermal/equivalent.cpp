// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/equivalent.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

namespace midden {

namespace {

/// One track's straight line over the piece of time in hand, in °C. Along the piece time runs from 0 to 1.
struct Line {
    double start = 0;
    double rise = 0;
};

/// (e^rise − 1) / rise, which the first terms of its series give within 1e-12 where a logger reads every minute.
double meanOverRise(double rise) {
    constexpr double small = 0.01;
    constexpr double third = 1.0 / 3;
    constexpr double fifth = 1.0 / 5;
    return std::abs(rise) < small ? 1 + rise / 2 * (1 + rise * third * (1 + rise / 4 * (1 + rise * fifth)))
                                  : std::expm1(rise) / rise;
}

/// ∫ 2^((T−10)/10) along a straight line for some part of its piece.
double weight(Line line, double part) {
    constexpr double perDegree = std::numbers::ln2 / 10;
    return part * std::exp2((line.start - 10) * 0.1) * meanOverRise(perDegree * line.rise * part);
}

/// The same along the highest of several lines, for the whole piece.
double weightOfHighest(std::vector<Line>& lines) {
    double sum = 0;
    double left = 1;
    while (left > 0 && !lines.empty()) {
        const auto higher = [](Line a, Line b) { return a.start != b.start ? a.start < b.start : a.rise < b.rise; };
        const Line top = *std::max_element(lines.begin(), lines.end(), higher);
        double until = left;
        for (const auto& other : lines) {
            if (other.rise > top.rise) {
                until = std::min(until, (top.start - other.start) / (other.rise - top.rise));
            }
        }
        sum += weight(top, until);
        if (until == left) {
            break;
        }
        for (auto& line : lines) {
            line.start += line.rise * until;
        }
        left -= until;
        // At the crossing the steeper line is the top from here on: drop those it has overtaken.
        std::erase_if(lines, [&](Line line) { return line.rise <= top.rise; });
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

    /// Adds the line the track follows from `now` to `then`, if it has one there: no sample lies between.
    void addLine(std::vector<Line>& lines, Instant now, Instant then, Seconds maxGap) const {
        if (next == 0 || next >= samples.size()) {
            return;
        }
        const auto& a = samples[next - 1];
        const auto& b = samples[next];
        if (b.at - a.at > maxGap) {
            return;
        }
        const Line whole{a.temperature().value(), (b.temperature() - a.temperature()).value()};
        if (a.at == now && b.at == then) {
            lines.push_back(whole);
        } else {
            const auto length = static_cast<double>((b.at - a.at).count);
            lines.push_back({whole.start + whole.rise * static_cast<double>((now - a.at).count) / length,
                             whole.rise * static_cast<double>((then - now).count) / length});
        }
    }
};

Instant nextInstant(std::span<const Cursor> cursors) {
    Instant next = never;
    for (const auto& cursor : cursors) {
        next = std::min(next, cursor.nextInstant());
    }
    return next;
}

void advance(std::vector<Cursor>& cursors, Instant to) {
    for (auto& cursor : cursors) {
        if (cursor.nextInstant() == to) {
            ++cursor.next;
        }
    }
}

}  // namespace

double daysAtTenCelsius(std::span<const Track> tracks, Seconds maxGap) {
    std::vector<Cursor> cursors;
    for (const auto& track : tracks) {
        cursors.push_back({track.samples});
    }
    double seconds = 0;
    std::vector<Line> lines;
    for (Instant now = nextInstant(cursors); now != never;) {
        advance(cursors, now);
        const Instant then = nextInstant(cursors);
        lines.clear();
        for (const auto& cursor : cursors) {
            cursor.addLine(lines, now, then, maxGap);
        }
        if (!lines.empty()) {
            seconds += weightOfHighest(lines) * static_cast<double>((then - now).count);
        }
        now = then;
    }
    return seconds / 86'400;
}

}  // namespace midden
