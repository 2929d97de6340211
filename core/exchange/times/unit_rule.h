// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string_view>

#include "core/exchange/csv/csv_table.h"
#include "core/quantities/temperature.h"

namespace midden {

/// Which unit the numbers of a temperature column are in. Header, unit column and what was asked for may all say it,
/// as long as header and the others do not contradict each other; a row's own unit goes before what was asked for.
class UnitRule {
  public:
    /// Refused: a header against `asked`.
    static FileResult<UnitRule> of(const CsvTable& table, std::size_t column, std::optional<TemperatureUnit> asked);

    /// The unit of a row whose unit cell says `cell` (empty = nothing).
    Result<TemperatureUnit> forRow(std::string_view cell) const;
    /// A temperature of a row in `unit`. Refused: an empty cell, a cell that says another unit.
    static Result<WrittenTemperature> read(std::string_view cell, TemperatureUnit unit);
    std::optional<TemperatureUnit> fromHeader() const { return header_; }

  private:
    UnitRule(std::optional<TemperatureUnit> header, std::optional<TemperatureUnit> asked)
        : header_{header}, asked_{asked} {}
    std::optional<TemperatureUnit> header_;
    std::optional<TemperatureUnit> asked_;
};

}  // namespace midden
