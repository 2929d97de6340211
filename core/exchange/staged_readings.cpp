// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/staged_readings.h"

#include <fmt/core.h>

#include <algorithm>

namespace midden {

namespace {

WrittenTemperature writtenOf(const StagedReading& row, const std::vector<StagedColumn>& columns) {
    return {row.tenThousandths, columns[row.column()].unit};
}

Refusal contradiction(const StagedReading& a, const StagedReading& b, const std::vector<StagedColumn>& columns) {
    const auto& [first, second] = b.line < a.line ? std::tie(b, a) : std::tie(a, b);
    const auto& file = columns[second.column()].file;
    const auto& otherFile = columns[first.column()].file;
    const auto where =
        otherFile == file ? fmt::format("line {}", first.line) : fmt::format("line {} of {}", first.line, otherFile);
    return {file,
            second.line,
            {fmt::format("{} here, but {} in {}, for the same place and time {}",
                         writtenWithUnit(writtenOf(second, columns)), writtenWithUnit(writtenOf(first, columns)), where,
                         isoLocal({second.at(), columns[second.column()].offset})),
             "one value for each place and time"}};
}

}  // namespace

std::optional<Refusal> sortAndMerge(StagedPlace& place, const std::vector<StagedColumn>& columns) {
    auto& rows = place.rows;
    if (!std::is_sorted(rows.begin(), rows.end())) {
        std::sort(rows.begin(), rows.end());
    }
    const auto differs = [&](const StagedReading& a, const StagedReading& b) {
        return a.at() == b.at() && toCelsius(writtenOf(a, columns)) != toCelsius(writtenOf(b, columns));
    };
    const auto clash = std::adjacent_find(rows.begin(), rows.end(), differs);
    if (clash != rows.end()) {
        return contradiction(*clash, *std::next(clash), columns);
    }
    const auto same = [](const StagedReading& a, const StagedReading& b) { return a.at() == b.at(); };
    rows.erase(std::unique(rows.begin(), rows.end(), same), rows.end());
    return std::nullopt;
}

}  // namespace midden
