// SPDX-License-Identifier: GPL-3.0-or-later
// Looking at a few readings out of many.
#include <algorithm>
#include <span>

#include "core/store/entries/entries.h"
#include "core/store/entries/occupancy.h"
#include "core/store/entries/readings.h"
#include "core/store/logbook.h"
#include "core/store/state.h"

namespace midden {

namespace {

/// The newest instants over all series of a place, newest first, at most two.
std::vector<Instant> newestTwo(DatabaseFile& file, std::span<const SeriesRow> ofPlace) {
    std::vector<Instant> newest;
    for (const SeriesRow& series : ofPlace) {
        Query query{file, "SELECT at FROM reading WHERE series = ? ORDER BY at DESC LIMIT 2"};
        query.with(series.id);
        while (query.next()) {
            newest.push_back(query.instant(0));
        }
    }
    std::sort(newest.rbegin(), newest.rend());
    newest.erase(std::unique(newest.begin(), newest.end()), newest.end());
    newest.resize(std::min<std::size_t>(newest.size(), 2));
    return newest;
}

std::optional<LastReadings> lastOf(DatabaseFile& file, const Place& place, std::span<const SeriesRow> ofPlace) {
    const auto newest = newestTwo(file, ofPlace);
    const auto reading = newest.empty() ? std::nullopt : findReading(file, {place, newest[0]});
    if (!reading) {
        return std::nullopt;
    }
    LastReadings last{place, *reading, {}};
    if (newest.size() > 1) {
        last.before = findReading(file, {place, newest[1]});
    }
    return last;
}

void addIds(DatabaseFile& file, const Place& place, std::int64_t series, Interval within,
            std::pair<std::vector<ReadingId>*, std::size_t> into) {
    Query query{file, "SELECT at FROM reading WHERE series = ? AND at BETWEEN ? AND ? ORDER BY at LIMIT ?"};
    query.with(series, within.from, within.to, into.second);
    while (query.next()) {
        into.first->push_back({place, query.instant(0)});
    }
}

/// The readings that come first in time, then by position.
std::vector<Reading> firstOf(DatabaseFile& file, std::vector<ReadingId> ids, std::size_t limit) {
    std::sort(ids.begin(), ids.end(), [](const ReadingId& a, const ReadingId& b) {
        return std::tie(a.at, a.place.position) < std::tie(b.at, b.place.position);
    });
    ids.resize(std::min(ids.size(), limit));
    std::vector<Reading> readings;
    readings.reserve(ids.size());
    for (const ReadingId& id : ids) {
        auto reading = findReading(file, id);
        if (!reading) {  // what one way through the file finds another does not
            throw LogbookError{LogbookError::Kind::damaged, file.name() + " is damaged: a reading is lost"};
        }
        readings.push_back(*std::move(reading));
    }
    return readings;
}

/// The readings of a series within an occupancy; no value when there are more than `most`. Skipping rows takes SQLite a
/// quarter less than counting them.
std::optional<std::int64_t> countOf(DatabaseFile& file, std::int64_t series, const Occupancy& occupancy,
                                    std::int64_t most) {
    Query more{file, "SELECT 1 FROM reading WHERE series = ? AND at >= ? AND at < ? LIMIT 1 OFFSET ?"};
    more.with(series, occupancy.from, occupancy.until, most);
    if (more.next()) {
        return std::nullopt;
    }
    Query count{file, "SELECT count(*) FROM reading WHERE series = ? AND at >= ? AND at < ?"};
    count.with(series, occupancy.from, occupancy.until);
    count.next();
    return count.number(0);
}

}  // namespace

bool Logbook::isLongerThan(BatchId batch, std::int64_t readings) const {
    ReadTransaction moment{state_->file};
    std::int64_t left = readings;
    for (const Occupancy& occupancy : occupanciesOf(state_->file, batch)) {
        for (const auto bin : {std::optional{occupancy.bin}, std::optional<BinId>{}}) {
            for (const SeriesRow& series : seriesOf(state_->file, bin)) {
                const auto count = countOf(state_->file, series.id, occupancy, left);
                if (!count) {
                    return true;
                }
                left -= *count;
            }
        }
    }
    return false;
}

std::vector<Addition> Logbook::additions(BatchId batch) const {
    ReadTransaction moment{state_->file};
    return entriesOf<Addition>(state_->file, static_cast<std::int64_t>(batch));
}

std::vector<LastReadings> Logbook::lastReadings(BinId bin) const {
    ReadTransaction moment{state_->file};
    const auto series = seriesOf(state_->file, bin);
    std::vector<LastReadings> all;
    for (auto rest = std::span{series}; !rest.empty();) {
        const std::string& position = rest.front().position;
        const auto differs = [&](const SeriesRow& other) { return other.position != position; };
        const auto count = static_cast<std::size_t>(std::ranges::find_if(rest, differs) - rest.begin());
        const auto last = position.empty() ? std::nullopt : lastOf(state_->file, {bin, position}, rest.first(count));
        if (last) {
            all.push_back(*last);
        }
        rest = rest.subspan(count);
    }
    return all;
}

std::optional<Reading> Logbook::lastOutside() const {
    ReadTransaction moment{state_->file};
    const auto last = lastOf(state_->file, {}, seriesOf(state_->file, {}));
    return last ? std::optional{last->last} : std::nullopt;
}

std::vector<Reading> Logbook::readings(BatchId batch, Interval within, bool withOutside, std::size_t limit) const {
    ReadTransaction moment{state_->file};
    std::vector<ReadingId> ids;
    for (const Occupancy& occupancy : occupanciesOf(state_->file, batch)) {
        const Interval part{std::max(within.from, occupancy.from), std::min(within.to, occupancy.until - Seconds{1})};
        for (const SeriesRow& series : seriesOf(state_->file, occupancy.bin)) {
            if (withOutside || !series.position.empty()) {
                addIds(state_->file, {occupancy.bin, series.position}, series.id, part, {&ids, limit});
            }
        }
    }
    return firstOf(state_->file, std::move(ids), limit);
}

std::vector<Reading> Logbook::siteAir(BatchId batch, Interval within, std::size_t limit) const {
    ReadTransaction moment{state_->file};
    std::vector<ReadingId> ids;
    for (const Occupancy& occupancy : occupanciesOf(state_->file, batch)) {
        const Interval part{std::max(within.from, occupancy.from), std::min(within.to, occupancy.until - Seconds{1})};
        for (const SeriesRow& series : seriesOf(state_->file, {})) {
            addIds(state_->file, {}, series.id, part, {&ids, limit});
        }
    }
    return firstOf(state_->file, std::move(ids), limit);
}

}  // namespace midden
