// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/criteria/conditions.h"

#include <algorithm>

#include "core/criteria/phrases.h"
#include "core/recipe/mixture.h"

namespace midden {

namespace {

ConditionState stateOf(bool held) {
    return held ? ConditionState::held : ConditionState::notHeld;
}

std::string turningWords(const TurningsAsked& asked) {
    const auto turnings = "at least " + counted(asked.count, "turning", "turnings") + " within the time counted";
    return asked.minimumSpacing ? turnings + ", " + durationWords(*asked.minimumSpacing) + " or more apart" : turnings;
}

ConditionFigures turnings(const Step& step, const IntervalSet& runs, const BatchRecord& record) {
    const auto& asked = *step.turnings;
    const int recorded = turningsInside(record.aerations, judgedRun(step, runs), asked.minimumSpacing);
    const auto state = record.aerations.empty() ? ConditionState::notRecorded : stateOf(recorded >= asked.count);
    return {"turnings", turningWords(asked), asked.count, recorded, state};
}

/// What the steward last answered to a condition.
ConditionState answered(const Condition& condition, const BatchRecord& record) {
    auto state = ConditionState::notRecorded;
    for (const auto& observation : record.observations) {
        const bool meant = observation.kind == ObservationKind::condition && observation.subject == condition.id;
        if (meant && (observation.value == "yes" || observation.value == "no")) {
            state = stateOf(observation.value == "yes");
        }
    }
    return state;
}

/// A sum of masses is not exact: what differs from a limit by less than this is at it.
constexpr double carbonNitrogenTolerance = 1e-9;

std::optional<double> carbonNitrogenOf(const BatchRecord& record, const Materials& materials) {
    const auto mixture = mixtureOf(record.additions, materials);
    return mixture ? mixture->carbonNitrogen : std::nullopt;
}

ConditionFigures figuresOf(const Condition& condition, const BatchRecord& record, const Materials& materials) {
    const auto measured = condition.carbonNitrogen ? carbonNitrogenOf(record, materials) : std::nullopt;
    if (measured) {
        const auto& band = *condition.carbonNitrogen;
        const double ratio = *measured;
        const bool held = ratio >= band.least - carbonNitrogenTolerance && ratio <= band.most + carbonNitrogenTolerance;
        return {condition.id, condition.words, std::nullopt, ratio, stateOf(held)};
    }
    return {condition.id, condition.words, std::nullopt, std::nullopt, answered(condition, record)};
}

}  // namespace

std::optional<Interval> judgedRun(const Step& step, const IntervalSet& runs) {
    if (runs.empty()) {
        return std::nullopt;
    }
    if (step.continuity == Continuity::cumulative) {
        return Interval{runs.front().from, runs.back().to};
    }
    return *std::max_element(runs.begin(), runs.end(),
                             [](const Interval& a, const Interval& b) { return a.length() < b.length(); });
}

int turningsInside(std::span<const Aeration> aerations, std::optional<Interval> run,
                   std::optional<Seconds> minimumSpacing) {
    int count = 0;
    std::optional<Instant> last;
    for (const auto& aeration : aerations) {
        const auto at = aeration.when.at;
        const bool inside = run && at >= run->from && at <= run->to;
        // Taking the earliest that is far enough from the one before gives the most.
        const bool farEnough = !last || !minimumSpacing || at - *last >= *minimumSpacing;
        if (aeration.kind == AerationKind::turned && inside && farEnough) {
            ++count;
            last = at;
        }
    }
    return count;
}

std::vector<ConditionFigures> conditionsOf(const Criterion& criterion, const Alternative& alternative,
                                           const std::vector<IntervalSet>& runs, const BatchRecord& record,
                                           const Materials& materials) {
    std::vector<ConditionFigures> figures;
    for (std::size_t i = 0; i < alternative.steps.size(); ++i) {
        if (alternative.steps[i].turnings) {
            figures.push_back(turnings(alternative.steps[i], runs.at(i), record));
        }
    }
    for (const auto* conditions : {&alternative.conditions, &criterion.conditions}) {
        for (const auto& condition : *conditions) {
            figures.push_back(figuresOf(condition, record, materials));
        }
    }
    return figures;
}

}  // namespace midden
