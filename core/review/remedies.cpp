// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/remedies.h"

#include <fmt/format.h>

namespace midden {

namespace {

RemedyOutcome outcomeOf(const Observation& tried, const Stall& stall, Instant end, Seconds allowed) {
    RemedyOutcome outcome{tried.when.at, tried.value.empty() ? tried.subject : tried.value};
    const auto inHours = [](Seconds time) { return fmt::format("{:.0f} h", time.hours()); };
    if (stall.to && *stall.to - outcome.at <= allowed) {
        outcome.state = RemedyOutcome::State::worked;
        outcome.sentence = "It worked: hot again " + inHours(*stall.to - outcome.at) + " later.";
    } else if (end - outcome.at >= allowed) {
        outcome.state = RemedyOutcome::State::didNotWork;
        outcome.sentence = "It did not work: not hot again within " + inHours(allowed) + ".";
    } else {
        outcome.sentence = "Too early to say: hot again within " + inHours(allowed) + " would mean it worked.";
    }
    return outcome;
}

}  // namespace

std::vector<RemedyOutcome> remediesOf(const BatchRecord& record, const Stall& stall, Instant end,
                                      const StallSettings& settings) {
    std::vector<RemedyOutcome> outcomes;
    for (const auto& seen : record.observations) {
        const bool isDuring = seen.when.at >= stall.from && seen.when.at <= end;
        if (seen.kind == ObservationKind::remedy && isDuring) {
            outcomes.push_back(outcomeOf(seen, stall, end, settings.remedy));
        }
    }
    return outcomes;
}

}  // namespace midden
