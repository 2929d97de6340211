// SPDX-License-Identifier: GPL-3.0-or-later
// Credited time: what a series of readings shows about how long a place stayed hot.
#pragma once

#include <optional>
#include <span>

#include "core/records/batch_record.h"
#include "core/thermal/block_extremes.h"
#include "core/thermal/interval.h"

namespace midden {

/// What a temperature must be to qualify.
struct Limits {
    Celsius threshold;
    bool exceeds = false;            ///< true: warmer than the threshold; false: at it is enough
    std::optional<Celsius> ceiling;  ///< at it is still in

    bool admit(Celsius temperature) const {
        return (exceeds ? temperature > threshold : temperature >= threshold) && (!ceiling || temperature <= *ceiling);
    }
};

/// Whether the thermometer's own error is held against the reading.
enum class Allowance {
    ignored,  ///< the reading as it stands
    applied   ///< T − a must reach the threshold and T + a must stay under the ceiling
};

bool qualifies(const Sample& sample, const Limits& limits, Allowance allowance);

/// The runs of one position: maximal chains of intervals between consecutive readings that both qualify and lie
/// no more than `maxGap` apart. This, and nothing else, is credited time.
IntervalSet creditedRuns(std::span<const Sample> samples, const Limits& limits, Seconds maxGap,
                         Allowance allowance = Allowance::ignored);
/// The same, looking at each reading only where a block of them is neither in nor out.
IntervalSet creditedRuns(const BlockExtremes& readings, const Limits& limits, Seconds maxGap,
                         Allowance allowance = Allowance::ignored);

/// The same by joining the readings with straight lines, across gaps no longer than `maxGap`. Shown beside the
/// credited time, never used for a verdict.
SpanSet interpolatedRuns(std::span<const Sample> samples, const Limits& limits, Seconds maxGap);
SpanSet interpolatedRuns(const BlockExtremes& readings, const Limits& limits, Seconds maxGap);

/// The intervals between consecutive readings longer than `maxGap`.
IntervalSet gaps(std::span<const Sample> samples, Seconds maxGap);
IntervalSet gaps(const BlockExtremes& readings, Seconds maxGap);

}  // namespace midden
