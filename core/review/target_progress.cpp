// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/target_progress.h"

#include <algorithm>
#include <iterator>
#include <limits>
#include <span>

#include "core/recipe/material.h"

namespace midden {

namespace {

constexpr Instant beforeAll{std::numeric_limits<std::int64_t>::min() / 2};
constexpr Instant afterAll{std::numeric_limits<std::int64_t>::max() / 2};

std::span<const Sample>::iterator firstNotBefore(std::span<const Sample> samples, Instant at) {
    return std::lower_bound(samples.begin(), samples.end(), at,
                            [](const Sample& sample, Instant instant) { return sample.at < instant; });
}

/// The readings from `from` on and before `until`.
std::span<const Sample> between(std::span<const Sample> samples, Instant from, Instant until) {
    return {firstNotBefore(samples, from), firstNotBefore(samples, until)};
}

/// When the last position's reading came in that completed `hold` from `from` on.
Instant completed(const std::vector<std::span<const Sample>>& tracks, Instant from, Seconds hold) {
    Instant latest = from + hold;
    for (const auto& samples : tracks) {
        latest = std::max(latest, firstNotBefore(samples, from + hold)->at);
    }
    return latest;
}

IntervalSet wholeRuns(const std::vector<std::span<const Sample>>& tracks, const HoldTarget& target,
                      Allowance allowance) {
    IntervalSet whole;
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        const auto runs = creditedRuns(tracks[i], {target.threshold}, target.maxGap, allowance);
        whole = i == 0 ? runs : intersection(whole, runs);
    }
    return whole;
}

/// The latest of the tracks' last readings when all of these qualify.
std::optional<Instant> allQualify(const std::vector<std::span<const Sample>>& tracks, const HoldTarget& target,
                                  Allowance allowance) {
    if (tracks.empty()) {
        return std::nullopt;
    }
    std::optional<Instant> latest;
    for (const auto& samples : tracks) {
        if (samples.empty() || !qualifies(samples.back(), {target.threshold}, allowance)) {
            return std::nullopt;
        }
        latest = std::max(latest.value_or(samples.back().at), samples.back().at);
    }
    return latest;
}

}  // namespace

TargetProgress::TargetProgress(const BatchRecord& record, const HoldTarget& target, const Materials& materials,
                               Allowance allowance) {
    std::vector<std::span<const Sample>> tracks;
    for (const Track* track : monitoredTracks(record)) {
        const auto& samples = tracks.emplace_back(track->samples);
        lastCommon_ = std::min(lastCommon_.value_or(afterAll), samples.back().at);
    }
    std::vector<Instant> thresholds{beforeAll};
    for (const auto& addition : record.additions) {
        if (isRaw(addition, materials)) {
            thresholds.push_back(addition.when.at);
        }
    }
    for (std::size_t i = 0; i < thresholds.size(); ++i) {
        const Instant until = i + 1 < thresholds.size() ? thresholds[i + 1] : afterAll;
        std::vector<std::span<const Sample>> parts;
        std::transform(tracks.begin(), tracks.end(), std::back_inserter(parts),
                       [&](std::span<const Sample> samples) { return between(samples, thresholds[i], until); });
        Stage stage{thresholds[i], wholeRuns(parts, target, allowance), allQualify(parts, target, allowance), {}, {}};
        const auto enough = std::find_if(stage.runs.begin(), stage.runs.end(),
                                         [&](const Interval& run) { return run.length() >= target.hold; });
        if (enough != stage.runs.end()) {
            stage.full = enough->from + target.hold;
            stage.shown = completed(parts, enough->from, target.hold);
        }
        stages_.push_back(std::move(stage));
    }
}

const TargetProgress::Stage& TargetProgress::stageAt(Instant at) const {
    const auto later = std::upper_bound(stages_.begin(), stages_.end(), at,
                                        [](Instant instant, const Stage& stage) { return instant < stage.from; });
    return *std::prev(later);
}

std::vector<Instant> TargetProgress::completions() const {
    std::vector<Instant> full;
    for (const Stage& stage : stages_) {
        if (stage.full) {
            full.push_back(*stage.full);
        }
    }
    return full;
}

bool TargetProgress::isShown(Instant at) const {
    const auto& shown = stageAt(at).shown;
    return shown && *shown <= at;
}

Seconds TargetProgress::longestRun(Instant at) const {
    Seconds most;
    for (const auto& run : stageAt(at).runs) {
        if (run.from < at) {
            most = std::max(most, std::min(run.to, at) - run.from);
        }
    }
    return most;
}

Seconds TargetProgress::runningRun(Instant at) const {
    const auto& stage = stageAt(at);
    const bool isRunning =
        stage.justReached && lastCommon_ && !stage.runs.empty() && stage.runs.back().to >= std::min(at, *lastCommon_);
    return isRunning ? stage.runs.back().length() : Seconds{};
}

std::optional<Instant> TargetProgress::holdingSince(Instant at) const {
    const auto& stage = stageAt(at);
    return runningRun(at).count > 0 ? std::optional{stage.runs.back().from} : stage.justReached;
}

}  // namespace midden
