// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/exchange/csv/progress.h"
#include "core/exchange/csv/refusal.h"
#include "core/exchange/staging/staged_readings.h"
#include "core/quantities/zone.h"

namespace midden {

/// How a file is to be read where it does not say so itself.
struct ReadingHabits {
    std::optional<TimeZone> zone;          ///< of local times
    std::optional<TemperatureUnit> unit;   ///< of bare numbers; °C when not given
    ImportProgressCallback progress = {};  ///< while files are read, compared and stored; may be empty
    StagingRoom room = {};                 ///< for rows that are read and not yet stored
};

/// `time,temperature` + optional `bin,position,unit,probe,ambient,note`. Adds to `staged`; tells of doubtful times in
/// `remarks`.
std::optional<Refusal> readReadings(const std::filesystem::path& file, const ReadingHabits& habits,
                                    StagedReadings& staged, std::vector<std::string>& remarks);

/// Outside air: `time,temperature` + optional `bin,unit,probe,note`. No bin means the whole site.
std::optional<Refusal> readOutside(const std::filesystem::path& file, const ReadingHabits& habits,
                                   StagedReadings& staged, std::vector<std::string>& remarks);

}  // namespace midden
