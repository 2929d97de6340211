// SPDX-License-Identifier: GPL-3.0-or-later
// Readings between file and logbook: parsed, not yet stored. Sixteen bytes each, so that ten million fit.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/exchange/refusal.h"
#include "core/quantities/temperature.h"
#include "core/quantities/time.h"

namespace midden {

/// What many rows share: how they were written, with which thermometer, and in which file.
struct StagedColumn {
    TemperatureUnit unit = TemperatureUnit::celsius;
    UtcOffset offset;
    std::string probe;  ///< empty = not said
    std::string file;

    auto operator<=>(const StagedColumn&) const = default;
};

/// One row. Ordered by instant, then column.
class StagedReading {
  public:
    /// At most this many columns can be told apart.
    static constexpr std::uint32_t mostColumns = 1U << 24U;

    /// `at` from 1970 to 9999, which needs 38 bits.
    StagedReading(Instant at, std::uint32_t column, std::int32_t typed, std::uint32_t row)
        : tenThousandths{typed}, line{row}, key_{(static_cast<std::uint64_t>(at.utcSeconds) << 24U) | column} {}

    std::int32_t tenThousandths;
    std::uint32_t line;

    Instant at() const { return {static_cast<std::int64_t>(key_ >> 24U)}; }
    std::uint32_t column() const { return static_cast<std::uint32_t>(key_ & (mostColumns - 1)); }
    bool operator<(const StagedReading& other) const {
        return key_ != other.key_ ? key_ < other.key_ : line < other.line;
    }

  private:
    std::uint64_t key_;
};
static_assert(sizeof(StagedReading) == 16);

/// Where rows of a file belong, as the file says it.
struct StagedWhere {
    enum class Bin { named, ofTheBatch, wholeSite };
    Bin kind = Bin::ofTheBatch;
    std::string bin;       ///< when named
    std::string position;  ///< empty = outside air

    auto operator<=>(const StagedWhere&) const = default;
};

/// A remark beside a reading.
struct StagedNote {
    Instant at;
    std::string text;
};

struct StagedPlace {
    StagedWhere where;
    std::vector<StagedReading> rows;
    std::vector<StagedNote> notes;
};

struct StagedReadings {
    std::vector<StagedPlace> places;
    std::vector<StagedColumn> columns;
};

/// Puts the rows in time order and keeps one per instant. Equal values at one instant are one reading; a second value
/// is refused, with both lines named.
std::optional<Refusal> sortAndMerge(StagedPlace& place, const std::vector<StagedColumn>& columns);

}  // namespace midden
