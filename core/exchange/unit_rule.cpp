// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/unit_rule.h"

#include <fmt/core.h>

#include "core/exchange/cells.h"

namespace midden {

namespace {

std::string_view sign(TemperatureUnit unit) {
    return unit == TemperatureUnit::celsius ? "°C" : "°F";
}

}  // namespace

FileResult<UnitRule> UnitRule::of(const CsvTable& table, std::size_t column, std::optional<TemperatureUnit> asked) {
    const auto header = table.unitOf(column);
    if (header && asked && *header != *asked) {
        return table.refuse({fmt::format("the header says {}, but --unit says {}", sign(*header), sign(*asked)),
                             "one unit, or no --unit"});
    }
    return UnitRule{header, asked};
}

Result<TemperatureUnit> UnitRule::forRow(std::string_view cell) const {
    if (cell.empty()) {
        return header_.value_or(asked_.value_or(TemperatureUnit::celsius));
    }
    const auto unit = parseUnit(cell);
    if (!unit) {
        return tl::unexpected{unit.error()};
    }
    const auto said = unit->value_or(header_.value_or(asked_.value_or(TemperatureUnit::celsius)));
    if (header_ && said != *header_) {
        return refused(fmt::format("the row says {}, but the header {}", sign(said), sign(*header_)),
                       "the unit in one of the two places only");
    }
    return said;
}

Result<WrittenTemperature> UnitRule::read(std::string_view cell, TemperatureUnit unit) {
    if (withoutBlanks(cell).empty()) {
        return refused("the temperature is missing", "a temperature such as 58.5 in every row");
    }
    const auto written = parseTemperature(cell, unit);
    if (written && written->unit != unit) {
        return refused(fmt::format("\"{}\" stands in a column in {}", cell, sign(unit)),
                       "one unit, said by the header, a column \"unit\" or --unit");
    }
    return written;
}

}  // namespace midden
