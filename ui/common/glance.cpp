// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/common/glance.h"
#include "ui/common/outlooks.h"

#include <algorithm>

#include "ui/common/book.h"

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

void addSpark(Glance& glance, const BatchRecord& record, Instant now) {
    for (const Track& track : record.tracks) {
        glance.lastRead = std::max(glance.lastRead.value_or(track.samples.back().at), track.samples.back().at);
    }
    const Instant end = std::max(now, glance.lastRead.value_or(now));
    glance.sparkSpan = {end - sparkLength, end};
    if (const Track* track = sparkTrack(record)) {
        glance.spark = brokenAtGaps(track->samples, glance.sparkSpan.from, glance.target.maxGap);
    }
}

}  // namespace

TemperatureUnit unitOf(const Logbook& logbook) {
    return logbook.setting("unit") == "f" ? TemperatureUnit::fahrenheit : TemperatureUnit::celsius;
}

Glance glanceAt(const Book& book, const Bin& bin) {
    Glance glance{.bin = bin, .target = book.outlooks().target()};
    const Instant now = book.now().at;
    const auto batch = book.log().batchStanding(bin.id, now);
    if (!batch) {
        return glance;
    }
    const Standing* standing = book.outlooks().of(*batch);
    glance.isPending = standing == nullptr;
    glance.batch = standing == nullptr ? book.log().batch(*batch) : standing->record.batch;
    if (standing != nullptr) {
        glance.outlook = outlookAt(standing->outlook, now);
        addSpark(glance, standing->record, now);
    }
    return glance;
}

}  // namespace midden::ui
