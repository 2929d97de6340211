// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/criteria/judged_readings.h"

#include <algorithm>
#include <set>

namespace midden {

namespace {

struct LastRaw {
    Moment when;
    std::string materials;  ///< several when they went in at the same instant
};

std::optional<LastRaw> lastRaw(const BatchRecord& record, const Materials& materials) {
    std::optional<LastRaw> last;
    for (const auto& addition : record.additions) {
        if (!isRaw(addition, materials)) {
            continue;
        }
        if (last && last->when.at == addition.when.at) {
            last->materials += ", " + addition.material;
        } else if (!last || last->when.at < addition.when.at) {
            last = LastRaw{addition.when, addition.material};
        }
    }
    return last;
}

std::span<const Sample> since(std::span<const Sample> samples, Instant start) {
    const auto first = std::lower_bound(samples.begin(), samples.end(), start,
                                        [](const Sample& sample, Instant at) { return sample.at < at; });
    return {first, samples.end()};
}

void widen(std::optional<Interval>& whole, std::span<const Sample> samples) {
    const Interval own{samples.front().at, samples.back().at};
    whole = whole ? Interval{std::min(whole->from, own.from), std::max(whole->to, own.to)} : own;
}

IntervalSet qualifyingRuns(const Step& step, const IntervalSet& runs) {
    if (step.continuity == Continuity::cumulative) {
        return step.isReachedBy(total(runs)) ? runs : IntervalSet{};
    }
    IntervalSet qualifying;
    std::copy_if(runs.begin(), runs.end(), std::back_inserter(qualifying),
                 [&](const Interval& run) { return step.isReachedBy(run.length()); });
    return qualifying;
}

IntervalSet runsOfStep(const Step& step, std::span<const Monitored> positions, Allowance allowance) {
    IntervalSet runs;
    bool first = true;
    for (const auto& monitored : positions) {
        auto own = creditedRuns(monitored.readings, step.limits(), maxGapFor(step), allowance);
        runs = first ? std::move(own) : intersection(runs, own);
        first = false;
    }
    return runs;
}

/// Which day it is, counted from 1970.
std::int64_t dayOf(Instant at, UtcOffset clock) {
    const std::int64_t local = at.utcSeconds + clock.minutes * std::int64_t{60};
    return local >= 0 ? local / 86'400 : (local - 86'399) / 86'400;
}

/// Blocks that no reading within the limits can be in are passed over.
std::set<std::int64_t> daysOf(const BlockExtremes& readings, const Limits& limits, UtcOffset clock) {
    std::set<std::int64_t> days;
    const auto look = [&](std::span<const Sample> samples) {
        for (const auto& sample : samples) {
            if (limits.admit(sample.temperature())) {
                days.insert(days.end(), dayOf(sample.at, clock));
            }
        }
    };
    if (readings.blocks() == 0) {
        look(readings.samples());
    }
    for (std::size_t block = 0; block < readings.blocks(); ++block) {
        if (readings.extremes(block).highest >= limits.threshold) {
            look(readings.samplesOf(block));
        }
    }
    return days;
}

}  // namespace

JudgedReadings judgedReadingsOf(const BatchRecord& record, std::vector<Monitored> positions,
                                const Materials& materials) {
    JudgedReadings judged{std::move(positions), {}, {}, {}, {}};
    const auto raw = lastRaw(record, materials);
    for (auto& monitored : judged.positions) {
        widen(judged.whole, monitored.samples());
        if (raw && monitored.samples().front().at < raw->when.at) {
            monitored.readings = BlockExtremes{since(monitored.samples(), raw->when.at)};
        }
        if (!monitored.samples().empty()) {
            const auto first = monitored.samples().front().at;
            judged.clockStart = std::min(judged.clockStart.value_or(first), first);
        }
    }
    if (raw && judged.whole && judged.whole->from < raw->when.at) {
        judged.restartedAt = raw->when.at;
        judged.restartedBy = "raw material added " + shortDate(raw->when) + ": " + raw->materials;
    }
    return judged;
}

std::int64_t daysWithin(const Limits& limits, std::span<const Monitored> positions, UtcOffset clock) {
    std::set<std::int64_t> days;
    bool first = true;
    for (const auto& position : positions) {
        auto own = daysOf(position.readings, limits, clock);
        if (first) {
            days = std::move(own);
        } else {
            std::erase_if(days, [&](std::int64_t day) { return !own.contains(day); });
        }
        first = false;
    }
    return static_cast<std::int64_t>(days.size());
}

std::vector<IntervalSet> runsOf(const Alternative& alternative, std::span<const Monitored> positions,
                                Allowance allowance) {
    std::vector<IntervalSet> all;
    for (const auto& step : alternative.steps) {
        auto runs = runsOfStep(step, positions, allowance);
        if (step.withinStep) {
            const auto outer = *step.withinStep;
            runs = intersection(runs, qualifyingRuns(alternative.steps.at(outer), all.at(outer)));
        }
        all.push_back(std::move(runs));
    }
    return all;
}

Seconds judgedTime(const Step& step, const IntervalSet& runs) {
    return step.continuity == Continuity::cumulative ? total(runs) : longest(runs);
}

}  // namespace midden
