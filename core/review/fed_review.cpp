// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/fed_review.h"

#include <algorithm>
#include <map>

#include "core/records/level.h"
#include "core/review/rounds.h"

namespace midden {

namespace {

LooseLitres litresOf(const Addition& addition, const Materials& materials) {
    const auto* material = materials.find(addition);
    const bool isKnown = material != nullptr && material->bulkDensity;
    return looseLitres(addition, isKnown ? std::optional{material->bulkDensity->typical} : std::nullopt);
}

std::vector<Mixing> mixingsOf(const BatchRecord& record) {
    std::vector<Mixing> mixings;
    for (const auto& aeration : record.aerations) {
        if (aeration.kind == AerationKind::turned) {
            mixings.push_back({aeration.when.at, false, {}});
        } else if (aeration.kind == AerationKind::forked) {
            mixings.push_back({aeration.when.at, true, aeration.depthCentimetres});
        }
    }
    for (std::size_t i = 1; i < record.batch.stays.size(); ++i) {
        mixings.push_back({record.batch.stays[i].since, false, {}});
    }
    return mixings;
}

std::span<const Sample> readIn(const Track& track, const Stay& stay, bool isFirst) {
    const std::span<const Sample> samples{track.samples};
    const auto from = std::partition_point(samples.begin(), samples.end(),
                                           [&](const Sample& sample) { return !isFirst && sample.at < stay.since; });
    return samples.subspan(static_cast<std::size_t>(from - samples.begin()));
}

std::vector<HeightTrack> positionsOf(const BatchRecord& record) {
    const auto& stays = record.batch.stays;
    std::vector<HeightTrack> positions;
    for (const auto& track : record.tracks) {
        const auto samples = readIn(track, stays.empty() ? Stay{} : stays.back(), stays.size() < 2);
        positions.push_back({track.heightCentimetres, samples});
    }
    return positions;
}

std::vector<AssumedLitres> assumedOf(const BatchRecord& record, const Materials& materials) {
    std::map<std::pair<std::string, LitresFrom>, AssumedLitres> assumed;
    for (const auto& addition : record.additions) {
        const auto loose = litresOf(addition, materials);
        if (loose.from != LitresFrom::volume) {
            auto& one = assumed[{addition.material, loose.from}];
            one.material = addition.material;
            one.from = loose.from;
            ++one.additions;
            one.litres += loose.litres;
        }
    }
    std::vector<AssumedLitres> all;
    for (auto& [key, one] : assumed) {
        all.push_back(std::move(one));
    }
    return all;
}

}  // namespace

FedRecord fedRecordOf(const BatchRecord& record, const HoldTarget& target, const Materials& materials) {
    FedRecord fed;
    fed.binLitres = record.bin.volumeLitres;
    fed.binHeightCm = record.bin.heightCentimetres;
    fed.hatchTopCm = record.bin.hatchTopCentimetres.value_or(0);
    fed.threshold = target.threshold;
    fed.hold = target.hold;
    for (const auto& addition : record.additions) {
        fed.additions.push_back({addition.when.at, litresOf(addition, materials).litres, isRaw(addition, materials)});
    }
    const auto& stays = record.batch.stays;
    const auto moved = stays.size() > 1 ? std::optional{stays.back().since} : std::nullopt;
    for (const auto& seen : record.observations) {
        const auto level = levelOf(seen);
        if (level && (!moved || seen.when.at >= *moved)) {  // of a bin before it says nothing of this one
            fed.levels.push_back({seen.when.at, *level});
        }
    }
    fed.mixings = mixingsOf(record);
    for (const auto& harvest : record.harvests) {
        fed.drawings.push_back({harvest.when.at, harvest.volumeLitres});
    }
    fed.positions = positionsOf(record);
    fed.asOf = lastEntryOf(record);
    return fed;
}

FedReview fedReviewOf(const BatchRecord& record, const HoldTarget& target, const Materials& materials) {
    const auto fed = fedRecordOf(record, target, materials);
    FedReview review{fed.threshold, fed.hold, fed.asOf, reckonFed(fed), assumedOf(record, materials), {}};
    for (const auto position : review.reckoning.positionsWithoutHeight) {
        review.positionsWithoutHeight.push_back(record.tracks[position].position);
    }
    return review;
}

}  // namespace midden
