// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/logbook.h"
#include "core/store/sqlite/database.h"

namespace midden {

/// What this reading shares with the others of its series.
ReadingColumn columnOf(const Reading& reading);
/// The series readings like this go to; made when there is none yet.
std::int64_t seriesFor(DatabaseFile& file, const ReadingColumn& column);

struct SeriesRow {
    std::int64_t id = 0;
    std::string position;
    std::optional<ProbeId> probe;
    TemperatureUnit unit{};
};
/// All series of a bin (found, as everywhere here, by the index over `ifnull(bin, 0)`), or with no bin of the whole
/// site, by position; outside air first.
std::vector<SeriesRow> seriesOf(DatabaseFile& file, std::optional<BinId> bin);
/// Those of one place alone, by number.
std::vector<SeriesRow> seriesAt(DatabaseFile& file, const Place& place);

/// Refuses a position that would be one too many in its bin: a review takes time by readings and positions.
void expectRoomForPosition(DatabaseFile& file, const Place& place);

/// The reading at this place and instant.
std::optional<Reading> findReading(DatabaseFile& file, const ReadingId& id);

/// "core, North", "outside air": a place in words.
std::string placeWords(DatabaseFile& file, const Place& place);

}  // namespace midden
