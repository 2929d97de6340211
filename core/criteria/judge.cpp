// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <utility>

#include "core/criteria/conditions.h"
#include "core/criteria/evidence.h"
#include "core/criteria/mean.h"
#include "core/criteria/phrases.h"

namespace midden {

namespace {

/// The runs of an alternative's steps, as read and with the thermometers' own error held against them.
struct AlternativeRuns {
    std::vector<IntervalSet> asRead;
    std::vector<IntervalSet> guarded;
};

bool reached(const Step& step, const IntervalSet& runs, std::span<const Monitored> positions, Allowance allowance) {
    return step.isReachedBy(judgedTime(step, runs)) &&
           (!step.mean || partReachingMean(step, runs, positions, allowance));
}

std::optional<MeanFigures> meanOf(const Step& step, const IntervalSet& runs, std::span<const Monitored> positions) {
    if (!step.mean || !step.isReachedBy(longest(runs))) {
        return std::nullopt;
    }
    const auto part = partReachingMean(step, runs, positions, Allowance::ignored);
    return lowestMean(part ? *part : *judgedRun(step, runs), positions);
}

StepFigures figuresOf(const Step& step, const IntervalSet& asRead, const IntervalSet& guarded,
                      std::span<const Monitored> positions) {
    StepFigures figures{step.threshold, total(asRead), longest(asRead), step.hold, Verdict::notShown, {}, {}};
    if (reached(step, guarded, positions, Allowance::applied)) {
        figures.verdict = Verdict::shown;
    } else if (reached(step, asRead, positions, Allowance::ignored)) {
        figures.verdict = Verdict::shownWithinError;
    }
    figures.mean = meanOf(step, asRead, positions);
    return figures;
}

AlternativeFigures figuresOf(const Alternative& alternative, const AlternativeRuns& runs,
                             std::span<const Monitored> positions, UtcOffset clock) {
    AlternativeFigures figures{alternative.title, Verdict::shown, {}};
    for (std::size_t i = 0; i < alternative.steps.size(); ++i) {
        const auto& step = alternative.steps[i];
        figures.steps.push_back(figuresOf(step, runs.asRead[i], runs.guarded[i], positions));
        if (step.turnings) {
            figures.steps.back().qualifyingDays = daysWithin(step.limits(), positions, clock);
        }
        figures.verdict = std::min(figures.verdict, figures.steps.back().verdict);
    }
    return figures;
}

Seconds judgedTime(const Step& step, const StepFigures& figures) {
    return step.continuity == Continuity::cumulative ? figures.credited : figures.longestRun;
}

/// Is alternative `a` ahead of `b`: by verdict, then by the fraction of the hold of its first step?
bool isAhead(const Judgement& judgement, std::size_t a, std::size_t b) {
    const auto& figures = judgement.alternatives;
    if (figures[a].verdict != figures[b].verdict) {
        return figures[a].verdict > figures[b].verdict;
    }
    const auto& stepA = judgement.criterion.alternatives[a].steps.front();
    const auto& stepB = judgement.criterion.alternatives[b].steps.front();
    return judgedTime(stepA, figures[a].steps.front()).count * stepB.hold.count >
           judgedTime(stepB, figures[b].steps.front()).count * stepA.hold.count;
}

Judgement judgeWatched(const Criterion& criterion, const JudgedReadings& judged, const BatchRecord& record,
                       const Materials& materials) {
    Judgement judgement;
    judgement.criterion = criterion;
    judgement.restartedBy = judged.restartedBy;
    judgement.restartedAt = judged.restartedAt;
    std::vector<IntervalSet> bestRuns;
    for (std::size_t i = 0; i < criterion.alternatives.size(); ++i) {
        const auto& alternative = criterion.alternatives[i];
        AlternativeRuns runs{runsOf(alternative, judged.positions, Allowance::ignored),
                             runsOf(alternative, judged.positions, Allowance::applied)};
        judgement.alternatives.push_back(figuresOf(alternative, runs, judged.positions, record.batch.started.offset));
        if (i == 0 || isAhead(judgement, i, judgement.best)) {
            judgement.best = i;
            bestRuns = std::move(runs.asRead);
        }
    }
    const auto& best = criterion.alternatives.at(judgement.best);
    const auto& top = judgement.alternatives[judgement.best].steps.front();
    judgement.verdict = judgement.alternatives[judgement.best].verdict;
    judgement.credited = judgedTime(best.steps.front(), top);
    judgement.required = top.required;
    judgement.cumulative = top.credited;
    judgement.conditions = conditionsOf(criterion, best, bestRuns, record, materials);
    judgement.evidence = evidenceOf(best.steps.front(), judged);
    return judgement;
}

}  // namespace

Judgement judge(const Criterion& criterion, const BatchRecord& record, const Materials& materials) {
    return judgeWatched(criterion, judgedReadingsOf(record, monitoredPositions(record), materials), record, materials);
}

std::vector<Judgement> judgeAll(std::span<const Criterion> criteria, const BatchRecord& record,
                                const Materials& materials) {
    return judgeAll(criteria, record, monitoredPositions(record), materials);
}

std::vector<Judgement> judgeAll(std::span<const Criterion> criteria, const BatchRecord& record,
                                std::vector<Monitored> positions, const Materials& materials) {
    const auto judged = judgedReadingsOf(record, std::move(positions), materials);
    std::vector<Judgement> judgements;
    judgements.reserve(criteria.size());
    for (const auto& criterion : criteria) {
        judgements.push_back(judgeWatched(criterion, judged, record, materials));
    }
    return judgements;
}

std::string verdictSentence(const Judgement& judgement) {
    const auto figures = "the time–temperature figures of “" + judgement.criterion.title + "”";
    if (judgement.verdict == Verdict::shown) {
        return "The readings reached " + figures + ".";
    }
    if (judgement.verdict == Verdict::shownWithinError) {
        return "As read, the readings reached " + figures +
               "; with the thermometer's own error held against them they did not.";
    }
    return "The readings did not reach " + figures + ".";
}

}  // namespace midden
