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
        const auto temperature = sample.temperature().parts();
        const auto error = guarded_ ? sample.allowance().parts() : 0;
        return temperature - error >= lowest_ && temperature + error <= highest_;
    }

  private:
    std::int64_t lowest_;
    std::int64_t highest_;
    bool guarded_;
};

}  // namespace

bool qualifies(const Sample& sample, const Limits& limits, Allowance allowance) {
    if (allowance == Allowance::ignored) {
        return limits.admit(sample.temperature());
    }
    return limits.admit(sample.temperature() - sample.allowance()) &&
           (!limits.ceiling || sample.temperature() + sample.allowance() <= *limits.ceiling);
}

IntervalSet creditedRuns(std::span<const Sample> samples, const Limits& limits, Seconds maxGap, Allowance allowance) {
    const Band band{limits, allowance};
    IntervalSet runs;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        if (!band.holds(samples[i])) {
            continue;
        }
        const auto first = i;
        while (i + 1 < samples.size() && band.holds(samples[i + 1]) && samples[i + 1].at - samples[i].at <= maxGap) {
            ++i;
        }
        if (i > first) {
            runs.push_back({samples[first].at, samples[i].at});
        }
    }
    return runs;
}

SpanSet interpolatedRuns(std::span<const Sample> samples, const Limits& limits, Seconds maxGap) {
    SpanSet runs;
    for (std::size_t i = 1; i < samples.size(); ++i) {
        if (samples[i].at - samples[i - 1].at > maxGap) {
            continue;
        }
        const auto part = partWithin(samples[i - 1], samples[i], limits);
        if (part.from >= part.to) {
            continue;
        }
        const bool joins = !runs.empty() && runs.back().to == part.from;
        if (joins) {
            runs.back().to = part.to;
        } else {
            runs.push_back(part);
        }
    }
    return runs;
}

IntervalSet gaps(std::span<const Sample> samples, Seconds maxGap) {
    IntervalSet found;
    for (std::size_t i = 1; i < samples.size(); ++i) {
        if (samples[i].at - samples[i - 1].at > maxGap) {
            found.push_back({samples[i - 1].at, samples[i].at});
        }
    }
    return found;
}

}  // namespace midden
