// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "core/quantities/time.h"

namespace midden {

/// From one reading to a later one. Never empty: to > from.
struct Interval {
    Instant from;
    Instant to;

    constexpr Seconds length() const { return to - from; }
    auto operator<=>(const Interval&) const = default;
};

/// Disjoint intervals in time order that do not touch.
using IntervalSet = std::vector<Interval>;

Seconds total(const IntervalSet& set);
/// Zero for an empty set.
Seconds longest(const IntervalSet& set);
/// The time that is in both.
IntervalSet intersection(const IntervalSet& a, const IntervalSet& b);

/// A stretch of a straight line between readings; its ends fall between seconds. Seconds since 1970, UTC.
struct Span {
    double from = 0;
    double to = 0;

    double seconds() const { return to - from; }
};
using SpanSet = std::vector<Span>;

double total(const SpanSet& set);
double longest(const SpanSet& set);
SpanSet intersection(const SpanSet& a, const SpanSet& b);

}  // namespace midden
