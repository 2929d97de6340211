// SPDX-License-Identifier: GPL-3.0-or-later
// What stands in the columns of a row, looked at before it is used.
#include <sqlite3.h>

#include "core/store/sqlite/database.h"

namespace midden {

std::int64_t Query::number(int column) const {
    expectKind(column, SQLITE_INTEGER);
    return sqlite3_column_int64(statement_.get(), column);
}
double Query::real(int column) const {
    expectKind(column, SQLITE_FLOAT);
    return sqlite3_column_double(statement_.get(), column);
}
std::string Query::text(int column) const {
    expectKind(column, SQLITE_TEXT);
    const auto* bytes = static_cast<const char*>(sqlite3_column_blob(statement_.get(), column));
    const int size = sqlite3_column_bytes(statement_.get(), column);
    return bytes == nullptr ? std::string{} : std::string{bytes, static_cast<std::size_t>(size)};
}
bool Query::isNull(int column) const {
    return sqlite3_column_type(statement_.get(), column) == SQLITE_NULL;
}
std::optional<std::int64_t> Query::maybeNumber(int column) const {
    return isNull(column) ? std::nullopt : std::optional{number(column)};
}
std::optional<double> Query::maybeReal(int column) const {
    return isNull(column) ? std::nullopt : std::optional{real(column)};
}

std::int64_t Query::within(int column, std::int64_t least, std::int64_t most) const {
    const auto value = number(column);
    if (value < least || value > most || isNull(column)) {
        failAt(column);
    }
    return value;
}
Instant Query::instant(int column) const {
    return {within(column, beginningOfTime.utcSeconds, endOfTime.utcSeconds - 1)};
}
UtcOffset Query::offset(int column) const {
    constexpr std::int64_t most = 18 * 60;
    return {static_cast<std::int16_t>(within(column, -most, most))};
}
TemperatureUnit Query::unit(int column) const {
    return choice(column, TemperatureUnit::fahrenheit);
}
std::int32_t Query::written(int column, TemperatureUnit unit) const {
    const bool isCelsius = unit == TemperatureUnit::celsius;  // −60 to 150 °C either way
    return static_cast<std::int32_t>(isCelsius ? within(column, -600'000, 1'500'000)
                                               : within(column, -760'000, 3'020'000));
}

void Query::expectKind(int column, int kind) const {
    const int found = sqlite3_column_type(statement_.get(), column);
    if (found != kind && found != SQLITE_NULL) {
        failAt(column);
    }
}
void Query::failAt(int column) const {
    const char* name = sqlite3_column_name(statement_.get(), column);
    throw LogbookError{LogbookError::Kind::damaged, file_.name() + " is damaged: a value of “" +
                                                        std::string{name == nullptr ? "" : name} +
                                                        "” in it cannot be right"};
}

}  // namespace midden
