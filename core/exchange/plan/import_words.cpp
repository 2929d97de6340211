// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "core/exchange/plan/import.h"
#include "core/quantities/utf8.h"

namespace midden {

namespace {

/// What a kind is called: one of it, several of it.
struct Noun {
    std::string_view one;
    std::string_view many;
};

std::string counted(std::int64_t count, const Noun& noun) {
    return fmt::format("{} {}", count, count == 1 ? noun.one : noun.many);
}

/// "212 readings added, 3 already there." or nothing when the import had none of the kind.
std::string line(const ImportCount& count, const Noun& noun, bool dryRun) {
    if (count.added == 0 && count.alreadyThere == 0) {
        return {};
    }
    if (count.added == 0) {
        return fmt::format("{} already there, nothing new.\n", counted(count.alreadyThere, noun));
    }
    const auto there = count.alreadyThere == 0 ? "" : fmt::format(", {} already there", count.alreadyThere);
    return fmt::format("{} {}{}.\n", counted(count.added, noun), dryRun ? "would be added" : "added", there);
}

std::string listed(const std::vector<std::string>& names) {
    return printable(fmt::format("\"{}\"", fmt::join(names, "\", \"")));
}

std::string aboutBatch(const ImportOutcome& outcome, bool dryRun) {
    const auto started = longDateTime(outcome.started);
    if (outcome.newBatch) {
        return fmt::format("{} batch \"{}\" in bin \"{}\", started {}.\n", dryRun ? "Would begin" : "Began",
                           printable(outcome.batch), printable(outcome.bin), started);
    }
    return fmt::format("Batch \"{}\" in bin \"{}\"{}.\n", printable(outcome.batch), printable(outcome.bin),
                       outcome.startMoved ? ", its start now " + started : "");
}

std::string aboutStrays(const ImportOutcome& outcome) {
    constexpr Noun readings{"reading belongs", "readings belong"};
    std::string text;
    if (outcome.ofOtherBatches > 0) {
        text += counted(outcome.ofOtherBatches, readings) + " to other batches by bin and time.\n";
    }
    if (outcome.ofNoBatch > 0) {
        text += counted(outcome.ofNoBatch, readings) + " to no batch: none stood in that bin at that time.\n";
    }
    return text;
}

}  // namespace

std::string inWords(const ImportOutcome& outcome, bool dryRun) {
    std::string text = outcome.batch.empty() ? std::string{} : aboutBatch(outcome, dryRun);
    if (outcome.becameFed) {
        text += dryRun ? "It would be reckoned as fed on top and emptied at the base.\n"
                       : "It is reckoned as fed on top and emptied at the base.\n";
    }
    if (!outcome.newBins.empty()) {
        text += fmt::format("New {}: {}.\n", outcome.newBins.size() == 1 ? "bin" : "bins", listed(outcome.newBins));
    }
    text += line(outcome.readings, {"reading", "readings"}, dryRun);
    text += line(outcome.outside, {"outside temperature", "outside temperatures"}, dryRun);
    text += line(outcome.additions, {"addition", "additions"}, dryRun);
    text += line(outcome.aerations, {"aeration", "aerations"}, dryRun);
    text += line(outcome.observations, {"observation", "observations"}, dryRun);
    text += line(outcome.harvests, {"harvest", "harvests"}, dryRun);
    text += line(outcome.moves, {"move", "moves"}, dryRun);
    text += line(outcome.bins, {"bin description", "bin descriptions"}, dryRun);
    text += line(outcome.positions, {"position", "positions"}, dryRun);
    text += line(outcome.probes, {"thermometer", "thermometers"}, dryRun);
    text += line(outcome.checks, {"thermometer check", "thermometer checks"}, dryRun);
    if (!outcome.newProbes.empty()) {
        text += fmt::format("New {} of unknown accuracy, taken as ±1 °C: {}.\n",
                            outcome.newProbes.size() == 1 ? "thermometer" : "thermometers", listed(outcome.newProbes));
    }
    return text + aboutStrays(outcome) + (dryRun ? "Nothing was written: this was a dry run.\n" : "");
}

}  // namespace midden
