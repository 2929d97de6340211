// SPDX-License-Identifier: GPL-3.0-or-later
// A published time–temperature rule, as data.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/quantities/time.h"
#include "core/thermal/credit.h"

namespace midden {

enum class Continuity {
    consecutive,
    cumulative,
    silent  ///< the text does not say: judged as consecutive, the cumulative figure shown beside it
};

/// Turnings a rule asks for, all inside the judged time.
struct TurningsAsked {
    int count = 0;
    std::optional<Seconds> minimumSpacing;
};

/// The average a rule asks for over the time it asks for.
struct MeanAsked {
    WrittenTemperature threshold;
    bool exceeds = false;
};

/// One thing the readings must show.
struct Step {
    WrittenTemperature threshold;  ///< in the rule's own unit
    bool exceeds = false;          ///< the text says "exceeds", "higher than"
    std::optional<WrittenTemperature> ceiling;
    Seconds hold;
    bool holdExceeds = false;  ///< "more than a week"
    Continuity continuity = Continuity::consecutive;
    std::optional<MeanAsked> mean;
    std::optional<TurningsAsked> turnings;
    std::optional<Seconds> maxGap;  ///< no value: by the hold, see maxGapFor
    /// Index of an earlier step of the same alternative; this one is judged inside a qualifying run of that one.
    std::optional<std::size_t> withinStep;

    Limits limits() const;
    /// Is `kept` long enough?
    bool isReachedBy(Seconds kept) const { return holdExceeds ? kept > hold : kept >= hold; }
};

/// The mixture's carbon to nitrogen a rule asks for at the start, both ends included.
struct CarbonNitrogenBand {
    double least = 0;
    double most = 0;
};

/// Something the rule asks that a thermometer cannot show. Its id is shared by all criteria that ask the same in the
/// same words, so that the steward answers once.
struct Condition {
    std::string id;
    std::string words;
    std::optional<CarbonNitrogenBand> carbonNitrogen;  ///< judged from the mixture where it is known
};

/// All of its steps must be shown. Its first step is the one whose hours stand for the whole.
struct Alternative {
    std::string title;
    std::vector<Step> steps;
    std::vector<Condition> conditions;  ///< asked with this alternative only
};

struct Citation {
    std::string document;
    std::string section;
    std::string checked;  ///< how the figures were checked against the document, in words
    bool fromMemory = false;
    /// How its figures are known: "opened", "quoted" or, when some are from memory, "part"; empty for a group's own.
    std::string known = {};
};

/// Any of its alternatives is enough.
struct Criterion {
    std::string id;
    std::string title;
    std::string jurisdiction;
    Citation source;
    std::string scope;   ///< for whom the rule is really written
    std::string method;  ///< "in-vessel", "windrow" …
    std::vector<Alternative> alternatives;
    std::vector<Condition> conditions;
    std::string note;
    bool ofTheGroup = false;  ///< written by the steward, kept in the logbook
};

/// The longest time between readings that a step credits: its own, or by its hold (core/criteria/gap_rule.h).
Seconds maxGapFor(const Step& step);

/// The logbook's own target, id `target`: every position at or above `threshold` for `hold` without a break.
Criterion targetCriterion(WrittenTemperature threshold, Seconds hold);
/// 55 °C for 72 h.
Criterion defaultTarget();

}  // namespace midden
