// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/review.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "core/review/rounds.h"
#include "core/thermal/credit.h"
#include "core/thermal/equivalent.h"

namespace midden {

namespace {

/// Credited and interpolated time of one position, or of what several have in common.
struct Runs {
    IntervalSet credited;
    SpanSet interpolated;

    HoldFigures figures() const {
        return {total(credited), longest(credited), total(interpolated), longest(interpolated)};
    }
};

Runs runsOf(const BlockExtremes& readings, Celsius threshold, Seconds maxGap) {
    const Limits limits{threshold};
    return {creditedRuns(readings, limits, maxGap), interpolatedRuns(readings, limits, maxGap)};
}

/// The warmest reading; of several the earliest, then the first position by name.
std::optional<Peak> peakOf(std::span<const Track> tracks) {
    std::optional<Peak> peak;
    for (const auto& track : tracks) {
        const auto warmest =
            std::max_element(track.samples.begin(), track.samples.end(),
                             [](const Sample& a, const Sample& b) { return a.temperature() < b.temperature(); });
        if (warmest == track.samples.end()) {
            continue;
        }
        const bool firstAsWarm = peak && warmest->temperature() == peak->temperature && warmest->at < peak->at;
        if (!peak || warmest->temperature() > peak->temperature || firstAsWarm) {
            peak = Peak{warmest->temperature(), warmest->at, track.position};
        }
    }
    return peak;
}

void describe(const BatchRecord& record, BatchReview& review) {
    review.batch = record.batch.name;
    review.bin = record.binName;
    review.started = record.batch.started;
    review.finished = record.finished;
    for (const auto& track : record.tracks) {
        (track.spotCheck ? review.spotChecks : review.positions).push_back(track.position);
    }
    review.unreadPositions = record.unreadPositions;
    review.readings = record.readings;
    review.amendedEntries = record.amendedEntries;
    review.lateEntries = record.lateEntries;
    review.peak = peakOf(record.tracks);
}

}  // namespace

ThresholdReview thresholdReview(std::span<const Monitored> positions, Celsius threshold, Seconds maxGap) {
    ThresholdReview answer{threshold};
    std::optional<Runs> whole;
    for (const auto& [position, readings] : positions) {
        auto runs = runsOf(readings, threshold, maxGap);
        answer.byPosition.push_back({position, runs.figures()});
        if (!whole) {
            whole = std::move(runs);
        } else {
            whole->credited = intersection(whole->credited, runs.credited);
            whole->interpolated = intersection(whole->interpolated, runs.interpolated);
        }
    }
    if (whole) {
        answer.whole = whole->figures();
        answer.windows = std::move(whole->credited);
    }
    return answer;
}

BatchReview reviewOf(const BatchRecord& record, const ReviewQuestions& questions) {
    BatchReview review;
    describe(record, review);
    auto positions = monitoredPositions(record);
    for (const auto threshold : questions.thresholds) {
        review.thresholds.push_back(thresholdReview(positions, threshold, questions.maxGap));
    }
    for (const auto& [position, readings] : positions) {
        for (const auto& gap : gaps(readings, questions.maxGap)) {
            review.gaps.push_back({position, gap});
        }
    }
    review.criteria = judgeAll(questions.criteria, record, std::move(positions), questions.materials);
    review.mixture = mixtureOf(record.additions, questions.materials);
    auto rounds = roundsOf(record, questions.stalls.round);
    review.heat = heatOf(record, rounds);
    review.stalls = stallsOf(record, std::move(rounds), questions.stalls, questions.materials);
    review.daysAtTenCelsius = daysAtTenCelsius(record.tracks, ordinaryMaxGap);
    if (record.batch.fed) {
        review.fed = fedReviewOf(record, questions.stalls.target, questions.materials);
    }
    return review;
}

}  // namespace midden
