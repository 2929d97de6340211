// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "core/records/entries.h"

namespace midden {

/// One measured point, corrected by the thermometer's calibration. Sixteen bytes, so that ten years of loggers fit.
class Sample {
  public:
    Sample() = default;
    Sample(Instant when, Celsius temperature, Kelvins allowance = {})
        : at{when},
          temperatureParts_{static_cast<std::int32_t>(temperature.parts())},
          allowanceParts_{static_cast<std::int32_t>(allowance.parts())} {}

    Instant at;
    Celsius temperature() const { return Celsius::ofParts(temperatureParts_); }
    /// The thermometer's own error: the truth is taken to lie within ± this.
    Kelvins allowance() const { return Kelvins::ofParts(allowanceParts_); }

  private:
    std::int32_t temperatureParts_ = 0;
    std::int32_t allowanceParts_ = 0;
};
static_assert(sizeof(Sample) == 16);

/// All samples of one position of a batch, in time order, at most one an instant.
struct Track {
    std::string position;
    bool spotCheck = false;
    std::vector<Sample> samples;
    std::optional<double> heightCentimetres{};  ///< above the floor of the bin the batch stands in, or stood in last
};

/// Everything that is known of one batch: what a review is a function of.
struct BatchRecord {
    Batch batch;
    std::string binName;  ///< where it stands, or stood last
    Bin bin;
    std::optional<Instant> finished;           ///< its own finish, or the instant another batch took its bin
    std::vector<Track> tracks;                 ///< by position, alphabetically; only positions that have a sample
    std::vector<std::string> unreadPositions;  ///< positions of its bins without a reading in this batch
    std::vector<Sample> outside;               ///< air temperature
    std::vector<Addition> additions;           ///< in time order
    std::vector<Aeration> aerations;           ///< in time order
    std::vector<Observation> observations;     ///< in time order
    std::vector<Harvest> harvests;             ///< in time order
    std::vector<Probe> probes;                 ///< those its readings were taken with
    std::vector<ThermometerCheck> checks;      ///< of those probes, in time order
    std::int64_t readings = 0;                 ///< inside the batch; outside air is not counted
    std::int64_t amendedEntries = 0;
    std::int64_t lateEntries = 0;
};

/// The positions that together stand for the whole batch: every one with a sample but the spot checks.
std::vector<const Track*> monitoredTracks(const BatchRecord& record);

}  // namespace midden
