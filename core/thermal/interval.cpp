// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/interval.h"

#include <algorithm>

namespace midden {

namespace {

/// Walks two sets of pieces side by side, keeping what lies in both.
template <class Piece>
std::vector<Piece> common(const std::vector<Piece>& a, const std::vector<Piece>& b) {
    std::vector<Piece> both;
    for (auto i = a.begin(), j = b.begin(); i != a.end() && j != b.end();) {
        const Piece piece{std::max(i->from, j->from), std::min(i->to, j->to)};
        if (piece.from < piece.to) {
            both.push_back(piece);
        }
        if (i->to < j->to) {
            ++i;
        } else {
            ++j;
        }
    }
    return both;
}

}  // namespace

Seconds total(const IntervalSet& set) {
    Seconds sum;
    for (const auto& interval : set) {
        sum += interval.length();
    }
    return sum;
}

Seconds longest(const IntervalSet& set) {
    Seconds most;
    for (const auto& interval : set) {
        most = std::max(most, interval.length());
    }
    return most;
}

IntervalSet intersection(const IntervalSet& a, const IntervalSet& b) {
    return common(a, b);
}

double total(const SpanSet& set) {
    double sum = 0;
    for (const auto& span : set) {
        sum += span.seconds();
    }
    return sum;
}

double longest(const SpanSet& set) {
    double most = 0;
    for (const auto& span : set) {
        most = std::max(most, span.seconds());
    }
    return most;
}

SpanSet intersection(const SpanSet& a, const SpanSet& b) {
    return common(a, b);
}

}  // namespace midden
