// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/criteria/criterion.h"

#include "core/criteria/gap_rule.h"

#include "core/criteria/phrases.h"

namespace midden {

Limits Step::limits() const {
    return {toCelsius(threshold), exceeds, ceiling ? std::optional{toCelsius(*ceiling)} : std::nullopt};
}

Seconds maxGapFor(const Step& step) {
    return step.maxGap.value_or(maxGapForHold(step.hold));
}

Criterion targetCriterion(WrittenTemperature threshold, Seconds hold) {
    Step step;
    step.threshold = threshold;
    step.hold = hold;
    Criterion target;
    target.id = "target";
    target.title = "This logbook's own target, " + limitWords(step) + " for " + durationWords(hold);
    target.source = {"Common practice, no source", "", "", false};
    target.scope = "A steward's own aim for a bin. It is nobody's rule.";
    target.method = "any bin";
    target.alternatives = {{limitWords(step) + " for " + durationWords(hold) + " without a break", {step}, {}}};
    return target;
}

Criterion defaultTarget() {
    return targetCriterion({550'000, TemperatureUnit::celsius}, hours(72));
}

}  // namespace midden
