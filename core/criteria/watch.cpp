// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/criteria/watch.h"

#include <algorithm>

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
    for (const auto& watched : positions) {
        auto own = creditedRuns(watched.readings, step.limits(), maxGapFor(step), allowance);
        runs = first ? std::move(own) : intersection(runs, own);
        first = false;
    }
    return runs;
}

}  // namespace

Watch watchOf(const BatchRecord& record, std::vector<Monitored> positions, const Materials& materials) {
    Watch watch{std::move(positions), {}, {}, {}, {}};
    const auto raw = lastRaw(record, materials);
    for (auto& watched : watch.positions) {
        widen(watch.whole, watched.samples());
        if (raw && watched.samples().front().at < raw->when.at) {
            watched.readings = Overview{since(watched.samples(), raw->when.at)};
        }
        if (!watched.samples().empty()) {
            const auto first = watched.samples().front().at;
            watch.clockStart = std::min(watch.clockStart.value_or(first), first);
        }
    }
    if (raw && watch.whole && watch.whole->from < raw->when.at) {
        watch.restartedAt = raw->when.at;
        watch.restartedBy = "raw material added " + shortDate(raw->when) + ": " + raw->materials;
    }
    return watch;
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
