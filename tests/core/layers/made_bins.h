// SPDX-License-Identifier: GPL-3.0-or-later
// Fed bins made for tests.
#pragma once

#include <cmath>
#include <cstdint>

#include "core/layers/reckoning.h"

namespace midden::testing {

constexpr Instant firstDay{1'700'006'400};

inline Instant dayNumber(double day) {
    return firstDay + Seconds{std::llround(day * 86'400.0)};
}

/// A fed bin that owns its readings.
struct MadeBin {
    FedRecord entries;  ///< all but the readings
    std::vector<std::optional<double>> heightsCm;
    std::vector<std::vector<Sample>> samples;  ///< by position

    /// Good as long as this stands and is not changed.
    FedRecord record() const;
};

/// Of 250 L and 100 cm inside, so that 2.5 L lie in a centimetre; 55 °C asked for 72 h.
MadeBin emptyBin();

/// Fed, levelled, mixed, drawn from and read at random for some weeks, often at one instant. Levels mostly agree with
/// what was fed, temperatures are mostly near the threshold.
MadeBin someBin(std::uint64_t seed);

}  // namespace midden::testing
