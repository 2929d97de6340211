// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/credit.h"

#include <algorithm>

namespace midden {

namespace {

double atCrossing(const Sample& a, const Sample& b, Celsius level) {
    const auto rise = static_cast<double>((b.temperature() - a.temperature()).parts());
    const auto way = static_cast<double>((level - a.temperature()).parts()) / rise;
    return static_cast<double>(a.at.utcSeconds) + way * static_cast<double>((b.at - a.at).count);
}

/// The part of the line from a to b that lies between threshold and ceiling, limits included. Empty when from >= to.
Span partWithin(const Sample& a, const Sample& b, const Limits& limits) {
    Span part{static_cast<double>(a.at.utcSeconds), static_cast<double>(b.at.utcSeconds)};
    const auto clip = [&](Celsius level, bool keepAbove) {
        const bool aIn = keepAbove ? a.temperature() >= level : a.temperature() <= level;
        const bool bIn = keepAbove ? b.temperature() >= level : b.temperature() <= level;
        if (!aIn && !bIn) {
            part.to = part.from;
        } else if (!aIn) {
            part.from = std::max(part.from, atCrossing(a, b, level));
        } else if (!bIn) {
            part.to = std::min(part.to, atCrossing(a, b, level));
        }
    };
    clip(limits.threshold, true);
    if (limits.ceiling) {
        clip(*limits.ceiling, false);
    }
    // A level line exactly at a threshold to be exceeded never exceeds it.
    const bool levelAtThreshold = a.temperature() == limits.threshold && b.temperature() == limits.threshold;
    if (limits.exceeds && levelAtThreshold) {
        part.to = part.from;
    }
    return part;
}

/// `qualifies` with everything settled beforehand that does not change from reading to reading.
class Band {
  public:
    Band(const Limits& limits, Allowance allowance)
        : lowest_{limits.threshold.parts() + (limits.exceeds ? 1 : 0)},
          highest_{limits.ceiling ? limits.ceiling->parts() : INT64_MAX},
          guarded_{allowance == Allowance::applied} {}

    bool holds(const Sample& sample) const {
        return holdsBetween(sample.temperature(), sample.temperature(), sample.allowance());
    }
    bool holdsAll(const Extremes& extremes) const {
        return holdsBetween(extremes.lowest, extremes.highest, extremes.mostAllowance);
    }
    /// True only when none is held; an allowance can only keep more of them out.
    bool holdsNone(const Extremes& extremes) const {
        return extremes.highest.parts() < lowest_ || extremes.lowest.parts() > highest_;
    }

  private:
    bool holdsBetween(Celsius low, Celsius high, Kelvins allowance) const {
        const auto error = guarded_ ? allowance.parts() : 0;
        return low.parts() - error >= lowest_ && high.parts() + error <= highest_;
    }

    std::int64_t lowest_;
    std::int64_t highest_;
    bool guarded_;
};

/// Goes on with the last piece where that ends at `piece`'s start.
template <class Piece>
void join(std::vector<Piece>& pieces, const Piece& piece) {
    if (!pieces.empty() && pieces.back().to == piece.from) {
        pieces.back().to = piece.to;
    } else {
        pieces.push_back(piece);
    }
}

void addRuns(IntervalSet& runs, std::span<const Sample> samples, const Band& band, Seconds maxGap) {
    bool heldBefore = !samples.empty() && band.holds(samples.front());
    std::size_t first = 0;
    for (std::size_t i = 1; i < samples.size(); ++i) {
        const bool held = band.holds(samples[i]);
        const bool credited = heldBefore && held && samples[i].at - samples[i - 1].at <= maxGap;
        if (!credited) {
            if (first + 1 < i) {
                join(runs, {samples[first].at, samples[i - 1].at});
            }
            first = i;
        }
        heldBefore = held;
    }
    if (first + 1 < samples.size()) {
        join(runs, {samples[first].at, samples.back().at});
    }
}

void addInterpolated(SpanSet& runs, std::span<const Sample> samples, const Limits& limits, Seconds maxGap) {
    for (std::size_t i = 1; i < samples.size(); ++i) {
        if (samples[i].at - samples[i - 1].at > maxGap) {
            continue;
        }
        const auto part = partWithin(samples[i - 1], samples[i], limits);
        if (part.from < part.to) {
            join(runs, part);
        }
    }
}

void addGaps(IntervalSet& found, std::span<const Sample> samples, Seconds maxGap) {
    for (std::size_t i = 1; i < samples.size(); ++i) {
        if (samples[i].at - samples[i - 1].at > maxGap) {
            found.push_back({samples[i - 1].at, samples[i].at});
        }
    }
}

void joinWhole(IntervalSet& runs, Interval whole) {
    join(runs, whole);
}

void joinWhole(SpanSet& runs, Interval whole) {
    join(runs, {static_cast<double>(whole.from.utcSeconds), static_cast<double>(whole.to.utcSeconds)});
}

/// A block of readings that lie wholly in the band, without a gap, is joined whole; one that lies wholly outside is
/// passed over; `lookAt` looks at the readings of any other.
template <class Piece, class LookAt>
std::vector<Piece> runsByBlock(const BlockExtremes& readings, const Band& band, Seconds maxGap, LookAt lookAt) {
    std::vector<Piece> runs;
    for (std::size_t block = 0; block < readings.blocks(); ++block) {
        const auto& extremes = readings.extremes(block);
        const auto samples = readings.samplesOf(block);
        if (extremes.longestGap <= maxGap && band.holdsAll(extremes)) {
            joinWhole(runs, {samples.front().at, samples.back().at});
        } else if (!band.holdsNone(extremes)) {
            lookAt(runs, samples);
        }
    }
    return runs;
}

}  // namespace

bool qualifies(const Sample& sample, const Limits& limits, Allowance allowance) {
    return Band{limits, allowance}.holds(sample);
}

IntervalSet creditedRuns(std::span<const Sample> samples, const Limits& limits, Seconds maxGap, Allowance allowance) {
    IntervalSet runs;
    addRuns(runs, samples, {limits, allowance}, maxGap);
    return runs;
}

IntervalSet creditedRuns(const BlockExtremes& readings, const Limits& limits, Seconds maxGap, Allowance allowance) {
    const Band band{limits, allowance};
    return runsByBlock<Interval>(readings, band, maxGap, [&](IntervalSet& runs, std::span<const Sample> samples) {
        addRuns(runs, samples, band, maxGap);
    });
}

SpanSet interpolatedRuns(std::span<const Sample> samples, const Limits& limits, Seconds maxGap) {
    SpanSet runs;
    addInterpolated(runs, samples, limits, maxGap);
    return runs;
}

SpanSet interpolatedRuns(const BlockExtremes& readings, const Limits& limits, Seconds maxGap) {
    const Band band{limits, Allowance::ignored};
    return runsByBlock<Span>(readings, band, maxGap, [&](SpanSet& runs, std::span<const Sample> samples) {
        addInterpolated(runs, samples, limits, maxGap);
    });
}

IntervalSet gaps(std::span<const Sample> samples, Seconds maxGap) {
    IntervalSet found;
    addGaps(found, samples, maxGap);
    return found;
}

IntervalSet gaps(const BlockExtremes& readings, Seconds maxGap) {
    IntervalSet found;
    for (std::size_t block = 0; block < readings.blocks(); ++block) {
        if (readings.extremes(block).longestGap > maxGap) {
            addGaps(found, readings.samplesOf(block), maxGap);
        }
    }
    return found;
}

}  // namespace midden
