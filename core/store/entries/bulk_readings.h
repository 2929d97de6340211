// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/entries/readings.h"

namespace midden {

/// Readings of another series of the same place, read ahead in slices while new ones are written.
class Neighbour {
  public:
    Neighbour(DatabaseFile& file, const SeriesRow& series, Interval range)
        : file_{file}, series_{series.id}, unit_{series.unit}, range_{range} {
        refill(range.from);
    }

    std::int64_t series() const { return series_; }
    bool isEmpty() const { return slice_.empty(); }

    /// What it holds at this instant. Instants must be asked for in time order.
    std::optional<WrittenTemperature> at(Instant instant) {
        while (!slice_.empty() && slice_[next_].at < instant) {
            if (++next_ == slice_.size()) {
                refill(slice_.back().at + Seconds{1});
            }
        }
        if (slice_.empty() || slice_[next_].at != instant) {
            return std::nullopt;
        }
        return WrittenTemperature{slice_[next_].tenThousandths, unit_};
    }

  private:
    static constexpr int sliceLength = 4'096;

    void refill(Instant from) {
        slice_.clear();
        next_ = 0;
        Query query{file_, "SELECT at, raw FROM reading WHERE series = ? AND at BETWEEN ? AND ? ORDER BY at LIMIT ?"};
        query.with(series_, from, range_.to, sliceLength);
        while (query.next()) {
            slice_.push_back({query.instant(0), query.written(1, unit_)});
        }
    }

    DatabaseFile& file_;
    std::int64_t series_;
    TemperatureUnit unit_;
    Interval range_;
    std::vector<RawReading> slice_;
    std::size_t next_ = 0;
};

/// The series of a place, but for `own`, that have a reading in the range.
std::vector<Neighbour> neighboursOf(DatabaseFile& file, const Place& place, std::int64_t own, Interval range);

}  // namespace midden
