// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/harvest_record.h"

#include <fmt/core.h>

#include "core/certificate/wording.h"

namespace midden {

namespace {

constexpr auto stance =
    "A reckoning of what a harvest went through, from readings of the bin it was taken from. No published rule is "
    "judged by it, and none is claimed. No laboratory tests were made. Not an approval or a warranty; local rules and "
    "licensed practice come first.";

constexpr auto assumptions =
    "Reckoned layer by layer: what is fed lies on top, sinks evenly as it shrinks, and leaves at the base. A layer "
    "counts the time in which two readings in a row, no more than 36 h apart, less the thermometer's own error, show "
    "that it was hot: within 1 cm of a thermometer for each degree above the threshold and 10 cm at the most, or "
    "between two thermometers no more than 20 cm apart. Nothing counts across a turning, a forking or a harvest, nor "
    "when no level was measured for 14 days. Hours are those at the thermometer: at the wall it is cooler, by how much "
    "is not known. Cautiously: a quarter more than was taken may have been touched, and material at least half as old "
    "as the youngest of that may have slipped down.";

/// Whole hours, never more than there were.
std::string atLeast(const std::optional<Seconds>& time) {
    return time ? fmt::format("at least {} h", time->count / 3'600) : std::string{"nothing raw in it"};
}

std::string thresholdOf(const HarvestInput& input) {
    return shortNumber(input.threshold.value()) + " °C";
}

std::vector<Fact> factsOf(const HarvestInput& input) {
    const auto& harvest = input.harvest;
    const auto& reckoned = harvest.reckoned;
    std::string taken =
        fmt::format("{} L on {}", shortNumber(harvest.litres), dayAndTime(input.zone.momentAt(harvest.at)));
    if (harvest.moreThanThere) {
        taken += fmt::format("; {} L were written down, more than was there", shortNumber(harvest.asked));
    }
    std::vector<Fact> facts{
        {"Taken out", taken},
        {"Bin", input.bin},
        {"Threshold", thresholdOf(input) + " or more"},
        {"Half of it had", atLeast(reckoned.halfHad)},
        {"Nine tenths had", atLeast(reckoned.nineTenthsHad)},
        {"All of it had", atLeast(reckoned.atLeast)},
        {"In one run, all", atLeast(reckoned.longestRun)},
        {"The whole hold", fmt::format("{} L of it had {} h in one run", shortNumber(reckoned.litresWithHold),
                                       shortNumber(input.hold.hours()))}};
    return facts;
}

Fact cautiousFact(const HarvestInput& input) {
    const auto& cautious = input.harvest.cautious;
    std::string text;
    if (cautious.fedFrom && cautious.fedTo) {
        text = fmt::format("If younger material slipped down, what was fed from {} to {} may be in it: ",
                           longDate(input.zone.momentAt(*cautious.fedFrom)),
                           longDate(input.zone.momentAt(*cautious.fedTo)));
    }
    text += fmt::format("{}, in one run {}, at most {} h.", atLeast(cautious.atLeast), atLeast(cautious.longestRun),
                        (cautious.atMost.count + 3'599) / 3'600);
    return {"Cautiously", text};
}

Fact thermometerFact(const HarvestInput& input) {
    std::vector<std::string> places;
    for (const auto& each : input.thermometers) {
        places.push_back(each.heightCm ? fmt::format("{} {} cm", each.position, shortNumber(*each.heightCm))
                                       : each.position + " at a height not known, which counts nowhere");
    }
    return {"Thermometers", places.empty() ? "none" : "above the floor: " + listed(places)};
}

Fact levelFact(const HarvestInput& input) {
    if (input.levels.empty()) {
        return {"Levels", "none was measured, so no hours are told"};
    }
    const auto& last = input.levels.back();
    return {"Levels",
            fmt::format("{}; the last before it {} cm above the floor on {}",
                        howMany(static_cast<std::int64_t>(input.levels.size()), "level measured", "levels measured"),
                        shortNumber(last.centimetres), dayAndTime(input.zone.momentAt(last.at)))};
}

}  // namespace

Certificate harvestRecordOf(const HarvestInput& input, const IssueNote& note) {
    Certificate record;
    record.title = "Harvest record";
    record.stance = stance;
    record.group = input.group;
    record.batch = input.batch;
    record.batchFacts = factsOf(input);
    record.materials = cautiousFact(input);
    record.course = {thermometerFact(input), levelFact(input)};
    record.creditRule = assumptions;
    record.signatures = {{"Taken out by", {}}, {"Reviewed by", {}}};
    record.cautions = cautionsOnPaper();
    record.kind = "Record";
    record.number = note.number;
    record.issued = note.number.empty() ? std::string{} : longDateTime(note.issued);
    record.supersedes =
        note.supersedes.empty() ? std::string{} : fmt::format("Takes the place of record {}.", note.supersedes);
    record.digest = note.digest;
    return record;
}

}  // namespace midden
