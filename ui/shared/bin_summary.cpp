// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/bin_summary.h"
#include "ui/shared/batch_status_cache.h"

#include <algorithm>

#include "ui/shared/book.h"

namespace midden::ui {

namespace {

const Track* sparkTrack(const BatchRecord& record) {
    const auto core = std::find_if(record.tracks.begin(), record.tracks.end(),
                                   [](const Track& track) { return track.position == "core"; });
    if (core != record.tracks.end()) {
        return &*core;
    }
    return record.tracks.empty() ? nullptr : &record.tracks.front();
}

std::vector<std::vector<Sample>> brokenAtGaps(const std::vector<Sample>& samples, Instant from, Seconds maxGap) {
    std::vector<std::vector<Sample>> pieces;
    const auto first = std::lower_bound(samples.begin(), samples.end(), from,
                                        [](const Sample& sample, Instant at) { return sample.at < at; });
    for (auto sample = first; sample != samples.end(); ++sample) {
        if (pieces.empty() || sample->at - pieces.back().back().at > maxGap) {
            pieces.emplace_back();
        }
        pieces.back().push_back(*sample);
    }
    return pieces;
}

void addSpark(BinSummary& summary, const BatchRecord& record, Instant now) {
    for (const Track& track : record.tracks) {
        summary.lastRead = std::max(summary.lastRead.value_or(track.samples.back().at), track.samples.back().at);
    }
    const Instant end = std::max(now, summary.lastRead.value_or(now));
    summary.sparkSpan = {end - sparkLength, end};
    if (const Track* track = sparkTrack(record)) {
        summary.spark = brokenAtGaps(track->samples, summary.sparkSpan.from, summary.target.maxGap);
    }
}

}  // namespace

BinSummary binSummary(const Book& book, const Bin& bin) {
    BinSummary summary{.bin = bin, .target = book.statusCache().target()};
    const Instant now = book.now().at;
    const auto batch = book.log().occupant(bin.id, now);
    if (!batch) {
        return summary;
    }
    const BatchStatus* status = book.statusCache().of(*batch);
    summary.isPending = status == nullptr;
    summary.batch = status == nullptr ? book.log().batch(*batch) : status->record.batch;
    if (status != nullptr) {
        summary.outlook = outlookAt(status->outlook, now);
        summary.fed = status->fed;
        addSpark(summary, status->record, now);
    }
    return summary;
}

}  // namespace midden::ui
