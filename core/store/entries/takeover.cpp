// SPDX-License-Identifier: GPL-3.0-or-later
// Two batches cannot stand in one bin.
#include <algorithm>

#include "core/store/entries/batches.h"
#include "core/store/logbook.h"
#include "core/store/state.h"

namespace midden {

namespace {

/// The part of an occupancy that is no longer its batch's, as at most two pieces: before and after what is left.
std::vector<Interval> lost(const Occupancy& before, const std::vector<Occupancy>& after) {
    Interval kept{before.until, before.until};
    for (const Occupancy& occupancy : after) {
        if (occupancy.batch == before.batch && occupancy.bin == before.bin && occupancy.since == before.since) {
            kept = {std::clamp(occupancy.from, before.from, before.until),
                    std::clamp(occupancy.until, before.from, before.until)};
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

void refuseIfTaken(DatabaseFile& file, const Occupancy& other, Interval piece, const Batch& batch) {
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

std::vector<Occupancy> occupanciesInAll(DatabaseFile& file, std::vector<BinId> bins) {
    std::sort(bins.begin(), bins.end());
    bins.erase(std::unique(bins.begin(), bins.end()), bins.end());
    std::vector<Occupancy> all;
    for (const BinId bin : bins) {
        const auto occupancies = occupanciesIn(file, bin);
        all.insert(all.end(), occupancies.begin(), occupancies.end());
    }
    return all;
}

void refuseTakeover(Logbook::State& state, const Batch& batch, const std::vector<Occupancy>& before) {
    if (state.undoing) {
        return;
    }
    DatabaseFile& file = state.file;
    const auto after = occupanciesInAll(file, binsOf(batch.stays));
    for (const Occupancy& occupancy : before) {
        if (occupancy.batch == batch.id) {
            continue;
        }
        for (const Interval& piece : lost(occupancy, after)) {
            refuseIfTaken(file, occupancy, piece, batch);
        }
    }
    // A finish after another batch came is a claim to the time between.
    for (const Occupancy& occupancy : after) {
        const bool sameBin = !batch.stays.empty() && occupancy.bin == batch.stays.back().bin;
        if (sameBin && occupancy.batch != batch.id && batch.finished && occupancy.since > batch.stays.back().since &&
            occupancy.since < batch.finished->at) {
            refuseIfTaken(file, occupancy, {occupancy.since, std::min(occupancy.until, batch.finished->at)}, batch);
        }
    }
}

}  // namespace midden
