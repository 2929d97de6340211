// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/exchange/csv/csv_table.h"
#include "core/exchange/times/written_time.h"
#include "core/quantities/zone.h"

namespace midden {

/// Reads the times of one column of one file into instants.
/// Local times need a zone. One that never happened is refused; one that happened twice is the earlier, unless that is
/// not after the row before it (`previous`), as in a file kept in time order through the night the clocks went back.
/// The order of day and month is settled by the whole column or refused.
class TimeColumn {
  public:
    TimeColumn(std::optional<TimeZone> zone, std::size_t column) : zone_{zone}, column_{column} {}

    /// The time of the table's present row. From 1970 to 9999.
    FileResult<Moment> read(const CsvTable& table, const std::optional<Instant>& previous);

    /// Times that came twice, and where the first of them stands.
    std::int64_t twiceCome() const { return twiceCome_; }
    std::uint64_t firstTwiceCome() const { return firstTwiceCome_; }

  private:
    std::optional<std::int32_t> secondsOfTheDay(std::string_view text) const;
    FileResult<Moment> readSlowly(const CsvTable& table, std::string_view text, const std::optional<Instant>& previous);
    FileResult<Moment> momentOf(const CsvTable& table, const WallTime& wall, const std::optional<Instant>& previous);
    FileResult<DateOrder> settledOrder(const CsvTable& table) const;
    bool offsetHoldsAllDay(const WallTime& wall) const;
    void remember(std::string_view text, const WrittenTime& written, Moment moment);

    std::optional<TimeZone> zone_;
    std::size_t column_;
    std::optional<DateOrder> order_;
    std::int64_t twiceCome_ = 0;
    std::uint64_t firstTwiceCome_ = 0;

    // The last ISO date read, so that the next row of the same day costs only its time of day.
    std::string day_;         ///< "2026-03-01"
    std::string offsetText_;  ///< "+01:00", "Z", or nothing for a local time
    std::int64_t midnight_ = 0;
    UtcOffset offset_;
};

}  // namespace midden
