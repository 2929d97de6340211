// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/harvest_issue.h"

#include <algorithm>

#include "core/quantities/sha256.h"
#include "core/records/level.h"
#include "core/store/read/book_rules.h"
#include "core/store/soundness.h"

namespace midden {

namespace {

std::string hoursText(std::optional<Seconds> time) {
    return time ? decimal(time->hours()) + " h" : std::string{};
}

/// What was decided when it was issued, kept with it for ever.
CanonicalLine harvestLine(const HarvestReckoning& harvest) {
    CanonicalLine line{"harvest"};
    line.with("at", isoUtc(harvest.at)).with("taken", std::optional{harvest.asked}, " l");
    line.with("at least", hoursText(harvest.reckoned.atLeast));
    line.with("longest run", hoursText(harvest.reckoned.longestRun));
    line.with("half had", hoursText(harvest.reckoned.halfHad));
    line.with("nine tenths had", hoursText(harvest.reckoned.nineTenthsHad));
    line.with("with the hold", std::optional{harvest.reckoned.litresWithHold}, " l");
    line.with("cautiously at least", hoursText(harvest.cautious.atLeast));
    return line.with("cautiously at most", hoursText(harvest.cautious.atMost));
}

}  // namespace

BatchRecord recordUpTo(BatchRecord record, Instant at) {
    const auto isLater = [at](const auto& entry) { return entry.when.at > at; };
    std::erase_if(record.additions, isLater);
    std::erase_if(record.aerations, isLater);
    std::erase_if(record.observations, isLater);
    std::erase_if(record.harvests, isLater);
    std::erase_if(record.checks, [&](const ThermometerCheck& check) {
        return check.when.at > at && !(check.appliesFrom && *check.appliesFrom <= at);
    });
    std::erase_if(record.outside, [at](const Sample& sample) { return sample.at > at; });
    record.readings = 0;
    for (Track& track : record.tracks) {
        std::erase_if(track.samples, [at](const Sample& sample) { return sample.at > at; });
        record.readings += std::ssize(track.samples);
        if (track.samples.empty()) {
            record.unreadPositions.push_back(track.position);
        }
    }
    std::erase_if(record.tracks, [](const Track& track) { return track.samples.empty(); });
    std::ranges::sort(record.unreadPositions);
    std::erase_if(record.batch.stays, [at](const Stay& stay) { return stay.since > at; });
    if (record.finished && *record.finished > at) {
        record.finished.reset();
        record.batch.finished.reset();
    }
    record.amendedEntries = 0;
    record.lateEntries = 0;
    return record;
}

std::optional<HarvestDraft> draftHarvest(const Logbook& logbook, BatchId batch, Instant at) {
    expectSoundReadings(logbook);
    BatchRecord record = recordUpTo(logbook.record(batch), at);
    const auto taken = std::ranges::find(record.harvests, at, [](const Harvest& one) { return one.when.at; });
    if (!record.batch.fed || taken == record.harvests.end()) {
        return std::nullopt;
    }
    const auto mass = taken->massKilograms;
    const HoldTarget target = outlookSettingsOf(logbook).stalls.target;
    Materials materials = materialsOf(logbook);
    FedReview fed = fedReviewOf(record, target, materials);
    const auto found = std::ranges::find(fed.reckoning.harvests, at, &HarvestReckoning::at);
    if (found == fed.reckoning.harvests.end()) {
        return std::nullopt;
    }
    HarvestReckoning harvest = *found;
    auto bins = logbook.bins();
    WrittenReadings readings = writtenReadings(logbook, record, bins, at);
    auto group = logbook.setting(setting::group);
    auto canonical =
        canonicalHead({.group = group}) + harvestLine(harvest).text() + canonicalEntries(record, bins, readings);
    auto digest = sha256(canonical);
    return HarvestDraft{std::move(record),    std::move(bins),      std::move(readings), target,
                        std::move(materials), std::move(fed),       std::move(harvest),  mass,
                        std::move(group),     std::move(canonical), std::move(digest)};
}

IssuedCertificate numberedHarvest(const Logbook& logbook, const HarvestDraft& draft, Instant issued) {
    return numbered(logbook, {draft.record.batch.id, draft.record.batch.started, draft.digest, draft.canonical},
                    issued);
}

Certificate harvestPageOf(const HarvestDraft& draft, const IssueNote& note, const TimeZone& zone) {
    std::vector<HarvestThermometer> thermometers;
    for (const Track& track : draft.record.tracks) {
        thermometers.push_back({track.position, track.heightCentimetres});
    }
    std::vector<Level> levels;
    for (const Observation& seen : draft.record.observations) {
        if (const auto level = levelOf(seen)) {
            levels.push_back({seen.when.at, *level});
        }
    }
    return harvestRecordOf({draft.record.batch.name, draft.record.binName, draft.group, draft.harvest,
                            draft.fed.threshold, draft.fed.hold, std::move(thermometers), std::move(levels), zone},
                           note);
}

}  // namespace midden
