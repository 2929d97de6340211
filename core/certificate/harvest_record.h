// SPDX-License-Identifier: GPL-3.0-or-later
// What the record of a harvest says: a page of its own beside the batch certificate. A reckoning, by which no published
// rule is judged, and it says so.
#pragma once

#include "core/certificate/certificate.h"
#include "core/layers/reckoning.h"

namespace midden {

/// A thermometer that the reckoning rests on.
struct HarvestThermometer {
    std::string position;
    std::optional<double> heightCm;
};

/// What a harvest's record is a function of.
struct HarvestInput {
    std::string batch;
    std::string bin;
    std::string group;  ///< may be empty
    const HarvestReckoning& harvest;
    Celsius threshold;
    Seconds hold;
    std::vector<HarvestThermometer> thermometers;
    std::vector<Level> levels;  ///< those measured up to the harvest, in time order
    TimeZone zone = TimeZone::utc();
};

Certificate harvestRecordOf(const HarvestInput& input, const IssueNote& note);

}  // namespace midden
