// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <filesystem>
#include <vector>

#include "core/records/batch_record.h"

namespace midden::bench {

/// Ten-thousandths of a degree of an invented one-minute logger: rises and falls between 18 and 70 °C within 30 days,
/// a little by day and night, with a thermometer's scatter. The same for the same arguments, always.
std::int32_t inventedReading(std::int64_t minute, int position);

/// The first instant of every invented series: 2016-01-01T00:00:00Z.
constexpr Instant inventedStart{1'451'606'400};

/// A CSV file "bin,position,time,temperature" of so many rows: two positions, read each minute.
void writeInventedCsv(const std::filesystem::path& file, std::int64_t rows);

/// The samples of one position.
std::vector<Sample> inventedSamples(std::int64_t count);

}  // namespace midden::bench
