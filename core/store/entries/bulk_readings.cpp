// SPDX-License-Identifier: GPL-3.0-or-later
// Logger files: millions of readings of one place, in key order, without a look at what cannot be in the way.
#include <algorithm>

#include "core/store/entries/bulk_readings.h"
#include "core/store/entries/occupancy.h"
#include "core/store/entries/texts.h"
#include "core/store/logbook.h"
#include "core/store/sqlite/reading_slice.h"
#include "core/store/state.h"

namespace midden {

std::vector<Neighbour> neighboursOf(DatabaseFile& file, const Place& place, std::int64_t own, Interval range) {
    std::vector<Neighbour> neighbours;
    for (const SeriesRow& series : seriesAt(file, place)) {
        if (series.id != own) {
            Neighbour neighbour{file, series, range};
            if (!neighbour.isEmpty()) {
                neighbours.push_back(std::move(neighbour));
            }
        }
    }
    return neighbours;
}

namespace {

void expectSound(std::span<const RawReading> readings, TemperatureUnit unit) {
    const auto unordered = std::adjacent_find(readings.begin(), readings.end(),
                                              [](const RawReading& a, const RawReading& b) { return a.at >= b.at; });
    if (unordered != readings.end()) {
        refuse("readings must come in time order, one an instant");
    }
    if (readings.front().at < beginningOfTime || readings.back().at >= endOfTime) {
        refuse("the time of a reading is outside the years 0 to 9999");
    }
    const auto unreadable = std::find_if(readings.begin(), readings.end(), [unit](const RawReading& reading) {
        return !isReadable(toCelsius({reading.tenThousandths, unit}));
    });
    if (unreadable != readings.end()) {
        refuse(writtenWithUnit({unreadable->tenThousandths, unit}) + " is outside −60 to 150 °C");
    }
}

std::optional<WrittenTemperature> occupantAt(std::vector<Neighbour>& neighbours, Instant instant) {
    for (Neighbour& neighbour : neighbours) {
        if (const auto stands = neighbour.at(instant)) {
            return stands;
        }
    }
    return std::nullopt;
}

/// The readings the place does not have yet; none when one of them contradicts what stands.
std::vector<RawReading> freshOf(std::span<const RawReading> readings, TemperatureUnit unit,
                                std::vector<Neighbour>& neighbours, BulkOutcome& outcome) {
    std::vector<RawReading> fresh;
    for (const RawReading& reading : readings) {
        const auto stands = occupantAt(neighbours, reading.at);
        if (!stands) {
            fresh.push_back(reading);
        } else if (toCelsius({reading.tenThousandths, unit}) == toCelsius(*stands)) {
            ++outcome.alreadyThere;
        } else {
            outcome = {0, 0, ReadingConflict{reading.at, *stands}};
            return {};
        }
    }
    return fresh;
}

/// No series at all: numbers begin at 0.
constexpr std::int64_t none = -1;

}  // namespace

BulkOutcome Logbook::addReadings(const ReadingColumn& column, std::span<const RawReading> readings) {
    if (readings.empty()) {
        return {};
    }
    expectSound(readings, column.unit);
    expectKeepableName(column.place.position);
    DatabaseFile& file = state_->file;
    Transaction transaction{file};
    const auto series = seriesFor(file, column);
    auto neighbours = neighboursOf(file, column.place, none, {readings.front().at, readings.back().at});
    BulkOutcome outcome;
    std::vector<RawReading> fresh;
    if (!neighbours.empty()) {
        fresh = freshOf(readings, column.unit, neighbours, outcome);
        readings = fresh;
    }
    if (!outcome.conflict) {
        storeSlice(file, series, readings);
        outcome.added = std::ssize(readings);
        transaction.commit();
    }
    return outcome;
}

BulkOutcome Logbook::previewReadings(const Place& place, TemperatureUnit unit,
                                     std::span<const RawReading> readings) const {
    BulkOutcome outcome;
    if (readings.empty()) {
        return outcome;
    }
    auto neighbours = neighboursOf(state_->file, place, none, {readings.front().at, readings.back().at});
    outcome.added =
        neighbours.empty() ? std::ssize(readings) : std::ssize(freshOf(readings, unit, neighbours, outcome));
    return outcome;
}

}  // namespace midden
