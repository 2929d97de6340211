// SPDX-License-Identifier: GPL-3.0-or-later
// What the readings show of a criterion, and why.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/criteria/criterion.h"
#include "core/recipe/material.h"
#include "core/thermal/block_extremes.h"

namespace midden {

enum class Verdict {
    notShown,
    shownWithinError,  ///< reached as read, but not with the thermometer's own error held against it
    shown
};

/// The average of the coolest position over a stretch.
struct MeanFigures {
    double celsius = 0;
    std::string position;  ///< the one with the lowest average
    Interval over;
};

struct StepFigures {
    WrittenTemperature threshold;
    Seconds credited;    ///< every position at once, all runs together
    Seconds longestRun;  ///< the longest of them
    Seconds required;
    Verdict verdict = Verdict::notShown;
    /// Where the step asks for an average and a run is long enough: over the part that shows it, else over the
    /// longest run.
    std::optional<MeanFigures> mean;
    /// Where the step asks for turnings, which cool a heap: the days on which every position had a reading that
    /// qualifies, by the clock at the batch's start. It never decides.
    std::optional<std::int64_t> qualifyingDays;
};

struct AlternativeFigures {
    std::string title;
    Verdict verdict = Verdict::notShown;
    std::vector<StepFigures> steps;
};

enum class ConditionState { held, notHeld, notRecorded };

struct ConditionFigures {
    std::string id;         ///< the condition's, or "turnings"
    std::string condition;  ///< in words
    std::optional<double> required;
    std::optional<double> recorded;
    ConditionState state = ConditionState::notRecorded;
};

/// A stretch of the batch and whether it counts, with the one reason in words.
struct Evidence {
    Interval interval;
    std::string position;  ///< the position that decided; empty = all of them
    bool credited = false;
    std::string reason;
};

struct Judgement {
    Criterion criterion;
    Verdict verdict = Verdict::notShown;
    std::size_t best = 0;  ///< index of the alternative the top figures are taken from
    Seconds credited;      ///< of that alternative's first step: its longest run, or its total where the rule adds up
    Seconds required;
    Seconds cumulative;
    std::optional<std::string> restartedBy;  ///< the last raw addition, in words, when readings were taken before it
    std::optional<Instant> restartedAt;
    std::vector<AlternativeFigures> alternatives;
    std::vector<ConditionFigures> conditions;
    /// Every stretch from the batch's first monitored reading to its last, in time order, without holes, judged by
    /// the first step of the best alternative.
    std::vector<Evidence> evidence;
};

/// Pure: the same record gives the same judgement, whenever it is asked. `materials` say what is raw where an addition
/// does not say so itself, and what the mixture was.
Judgement judge(const Criterion& criterion, const BatchRecord& record, const Materials& materials = builtInMaterials());
std::vector<Judgement> judgeAll(std::span<const Criterion> criteria, const BatchRecord& record,
                                const Materials& materials = builtInMaterials());
/// The same where the record's monitored positions are at hand.
std::vector<Judgement> judgeAll(std::span<const Criterion> criteria, const BatchRecord& record,
                                std::vector<Monitored> positions, const Materials& materials);

/// The verdict as a sentence that claims no more than the readings do.
std::string verdictSentence(const Judgement& judgement);

}  // namespace midden
