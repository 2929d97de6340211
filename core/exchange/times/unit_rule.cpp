// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/times/unit_rule.h"

#include <fmt/core.h>

#include <array>

#include "core/exchange/csv/cells.h"

namespace midden {

namespace {

std::string_view sign(TemperatureUnit unit) {
    return unit == TemperatureUnit::celsius ? "°C" : "°F";
}

/// "58.5" and its like, which nearly every row has: digits, at most one point, at most four decimals, no sign.
/// Anything else is left to parseTemperature, as is a number out of range.
std::optional<std::int32_t> plainTenThousandths(std::string_view cell) {
    std::int32_t value = 0;
    std::size_t at = 0;
    for (; at < cell.size() && at < 3 && cell[at] >= '0' && cell[at] <= '9'; ++at) {
        value = value * 10 + (cell[at] - '0');
    }
    if (at == 0) {
        return std::nullopt;
    }
    const bool point = at < cell.size() && cell[at] == '.';
    at += point ? 1 : 0;
    const auto decimals = cell.size() - at;
    if (decimals > 4 || point == (decimals == 0)) {
        return std::nullopt;
    }
    for (; at < cell.size(); ++at) {
        if (cell[at] < '0' || cell[at] > '9') {
            return std::nullopt;
        }
        value = value * 10 + (cell[at] - '0');
    }
    constexpr std::array<std::int32_t, 5> scales{10'000, 1'000, 100, 10, 1};
    return value * scales[decimals];
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
    if (const auto plain = plainTenThousandths(cell)) {
        const WrittenTemperature written{*plain, unit};
        if (isReadable(toCelsius(written))) {
            return written;
        }
    }
    if (withoutBlanks(cell).empty()) {
        return refused("the temperature is missing", "a temperature such as 58.5 in every row");
    }
    auto written = parseTemperature(cell, unit);
    if (written && written->unit != unit) {
        return refused(fmt::format("\"{}\" stands in a column in {}", cell, sign(unit)),
                       "one unit, said by the header, a column \"unit\" or --unit");
    }
    return written;
}

}  // namespace midden
