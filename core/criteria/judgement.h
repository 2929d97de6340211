// SPDX-License-Identifier: GPL-3.0-or-later
// What the readings show of a criterion, and why.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/criteria/criterion.h"

namespace midden {

enum class Verdict {
    notShown,
    shownWithinError,  ///< reached as read, but not with the thermometer's own error held against it
    shown
};

struct StepFigures {
    WrittenTemperature threshold;
    Seconds credited;
    Seconds longestRun;
    Seconds required;
    Verdict verdict = Verdict::notShown;
    std::optional<double> meanCelsius;  ///< the lowest position's best mean, where the step asks for one
};

struct AlternativeFigures {
    std::string title;
    Verdict verdict = Verdict::notShown;
    std::vector<StepFigures> steps;
};

enum class ConditionState { held, notHeld, notRecorded };

struct ConditionFigures {
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
    Seconds credited;      ///< of that alternative: its longest run, or its total where the rule adds up
    Seconds required;
    Seconds cumulative;
    std::optional<std::string> restartedBy;  ///< the last raw addition, in words
    std::optional<Instant> restartedAt;
    std::vector<AlternativeFigures> alternatives;
    std::vector<ConditionFigures> conditions;
    std::vector<Evidence> evidence;
};

}  // namespace midden
