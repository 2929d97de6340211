// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

#include "core/quantities/time.h"

namespace midden {

/// Which of the two numbers before the year is the day.
enum class DateOrder { dayFirst, monthFirst };

/// A time as a file wrote it. ISO 8601 and dates with the year first say what they mean; in "03/04/2026" the order of
/// day and month is open.
struct WrittenTime {
    WallTime wall;           ///< day and month still to be set when the order is open
    bool orderOpen = false;  ///< `first` and `second` are the numbers before the year
    int first = 0;
    int second = 0;
    bool hasOffset = false;
    UtcOffset offset;

    /// Could only be read with this order.
    bool settlesDayFirst() const { return orderOpen && first > 12 && second <= 12; }
    bool settlesMonthFirst() const { return orderOpen && second > 12 && first <= 12; }
    /// Means two different days in the two orders.
    bool isUndecided() const { return orderOpen && first <= 12 && second <= 12 && first != second; }
    WallTime in(DateOrder order) const;
};

/// Reads ISO 8601, and dates whose three numbers are joined by "/", "." or "-" with a four-digit year first or last;
/// with those the hour may have one digit and "am" or "pm" may follow. Refuses two-digit years.
Result<WrittenTime> parseWrittenTime(std::string_view text);

}  // namespace midden
