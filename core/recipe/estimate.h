// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace midden {

/// A lowest and a highest value, both included. An exact goal has both the same.
struct Bounds {
    double low = 0;
    double high = 0;

    bool operator==(const Bounds&) const = default;
};

/// A figure and how far it may be off.
struct Estimate {
    double typical = 0;
    Bounds within;             ///< where it lies as a rule; typical, typical when nobody says
    bool spreadKnown = false;  ///< `within` comes from a source, or the figure was measured

    static Estimate exactly(double value) { return {value, {value, value}, true}; }
    static Estimate about(double value) { return {value, {value, value}, false}; }

    bool operator==(const Estimate&) const = default;
};

}  // namespace midden
