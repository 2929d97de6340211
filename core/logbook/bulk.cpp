// SPDX-License-Identifier: GPL-3.0-or-later
// Logger files: millions of readings of one place, in key order, without a look at what cannot be in the way.
#include <algorithm>

#include "core/logbook/bulk.h"
#include "core/logbook/state.h"

namespace midden {

std::vector<Neighbour> neighboursOf(DatabaseFile& file, const Place& place, std::int64_t own, Interval range) {
    std::vector<Neighbour> neighbours;
    for (const SeriesRow& series : seriesOf(file, place.bin)) {
        if (series.position == place.position && series.id != own) {
            Neighbour neighbour{file, series, range};
            if (!neighbour.isEmpty()) {
                neighbours.push_back(std::move(neighbour));
            }
        }
    }
    return neighbours;
}

namespace {

void expectInOrder(std::span<const RawReading> readings, TemperatureUnit unit) {
    const auto unordered = std::adjacent_find(readings.begin(), readings.end(),
                                              [](const RawReading& a, const RawReading& b) { return a.at >= b.at; });
    if (unordered != readings.end()) {
        refuse("readings must come in time order, one an instant");
    }
    const auto unreadable = std::find_if(readings.begin(), readings.end(), [unit](const RawReading& reading) {
        return !isReadable(toCelsius({reading.tenThousandths, unit}));
    });
    if (unreadable != readings.end()) {
        refuse(writtenWithUnit({unreadable->tenThousandths, unit}) + " is outside −60 to 150 °C");
    }
}

class BulkWriter {
  public:
    BulkWriter(DatabaseFile& file, const ReadingColumn& column, Interval range)
        : file_{file},
          unit_{column.unit},
          series_{seriesFor(file, column)},
          neighbours_{neighboursOf(file, column.place, series_, range)},
          insert_{file, "INSERT INTO reading(series, at, raw) VALUES (?, ?, ?) ON CONFLICT DO NOTHING"} {}

    /// False at a conflict.
    bool add(const RawReading& reading) {
        for (Neighbour& neighbour : neighbours_) {
            if (const auto stands = neighbour.at(reading.at)) {
                return compare(reading, *stands);
            }
        }
        if (insert_.with(series_, reading.at, reading.tenThousandths).run() == 1) {
            ++outcome_.added;
            return true;
        }
        return compare(reading, ownAt(reading.at));
    }

    BulkOutcome outcome() const { return outcome_; }

  private:
    bool compare(const RawReading& reading, WrittenTemperature stands) {
        if (toCelsius({reading.tenThousandths, unit_}) == toCelsius(stands)) {
            ++outcome_.alreadyThere;
            return true;
        }
        outcome_ = {0, 0, ReadingConflict{reading.at, stands}};
        return false;
    }

    WrittenTemperature ownAt(Instant at) {
        Query query{file_, "SELECT raw FROM reading WHERE series = ? AND at = ?"};
        query.with(series_, at);
        query.next();
        return {static_cast<std::int32_t>(query.number(0)), unit_};
    }

    DatabaseFile& file_;
    TemperatureUnit unit_;
    std::int64_t series_;
    std::vector<Neighbour> neighbours_;
    Query insert_;
    BulkOutcome outcome_;
};

}  // namespace

BulkOutcome Logbook::addReadings(const ReadingColumn& column, std::span<const RawReading> readings) {
    if (readings.empty()) {
        return {};
    }
    expectInOrder(readings, column.unit);
    Transaction transaction{state_->file};
    BulkWriter writer{state_->file, column, {readings.front().at, readings.back().at}};
    const bool stored =
        std::all_of(readings.begin(), readings.end(), [&](const RawReading& reading) { return writer.add(reading); });
    if (stored) {
        transaction.commit();
    }
    return writer.outcome();
}

}  // namespace midden
