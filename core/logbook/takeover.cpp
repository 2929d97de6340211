// SPDX-License-Identifier: GPL-3.0-or-later
// Two batches cannot stand in one bin.
#include <algorithm>

#include "core/logbook/batches.h"
#include "core/logbook/state.h"

namespace midden {

namespace {

/// The part of a tenure that is no longer its batch's, as at most two pieces: before and after what is left.
std::vector<Interval> lost(const Tenure& before, const std::vector<Tenure>& after) {
    Interval kept{before.until, before.until};
    for (const Tenure& tenure : after) {
        if (tenure.batch == before.batch && tenure.bin == before.bin && tenure.since == before.since) {
            kept = {std::clamp(tenure.from, before.from, before.until),
                    std::clamp(tenure.until, before.from, before.until)};
        }
    }
    std::vector<Interval> pieces;
    if (before.from < kept.from) {
        pieces.push_back({before.from, kept.from});
    }
    if (kept.to < before.until) {
        pieces.push_back({kept.to, before.until});
    }
    return pieces;
}

void refuseIfTaken(DatabaseFile& file, const Tenure& other, Interval piece, const Batch& batch) {
    const auto owner = shownBatch(file, other.batch);
    if (earliestReading(file, other.bin, piece.from, piece.from + Seconds{1})) {
        refuse("batch " + inQuotes(owner ? owner->name : "") + " was read in that bin at the very time " +
               longDateTime({piece.from, batch.started.offset}) + "; let " + inQuotes(batch.name) +
               " come a second later");
    }
    if (!hasEntriesBetween(file, other, piece.from, piece.to)) {
        return;
    }
    const Moment from{std::max(piece.from, other.since), batch.started.offset};
    refuse("batch " + inQuotes(owner ? owner->name : "") + " stands in that bin and has entries there after " +
           longDateTime(from) + "; finish or move it first, or let " + inQuotes(batch.name) + " come later");
}

}  // namespace

std::vector<BinId> binsOf(const std::vector<Stay>& stays) {
    std::vector<BinId> bins;
    bins.reserve(stays.size());
    for (const Stay& stay : stays) {
        bins.push_back(stay.bin);
    }
    return bins;
}

std::string inQuotes(const std::string& name) {
    return "“" + name + "”";
}

std::vector<Tenure> tenuresInAll(DatabaseFile& file, std::vector<BinId> bins) {
    std::sort(bins.begin(), bins.end());
    bins.erase(std::unique(bins.begin(), bins.end()), bins.end());
    std::vector<Tenure> all;
    for (const BinId bin : bins) {
        const auto tenures = tenuresIn(file, bin);
        all.insert(all.end(), tenures.begin(), tenures.end());
    }
    return all;
}

void refuseTakeover(Logbook::State& state, const Batch& batch, const std::vector<Tenure>& before) {
    if (state.undoing) {
        return;
    }
    DatabaseFile& file = state.file;
    const auto after = tenuresInAll(file, binsOf(batch.stays));
    for (const Tenure& tenure : before) {
        if (tenure.batch == batch.id) {
            continue;
        }
        for (const Interval& piece : lost(tenure, after)) {
            refuseIfTaken(file, tenure, piece, batch);
        }
    }
    // A finish after another batch came is a claim to the time between.
    for (const Tenure& tenure : after) {
        const bool sameBin = !batch.stays.empty() && tenure.bin == batch.stays.back().bin;
        if (sameBin && tenure.batch != batch.id && batch.finished && tenure.since > batch.stays.back().since &&
            tenure.since < batch.finished->at) {
            refuseIfTaken(file, tenure, {tenure.since, std::min(tenure.until, batch.finished->at)}, batch);
        }
    }
}

}  // namespace midden
