// SPDX-License-Identifier: GPL-3.0-or-later
// Looking at a few readings out of many.
#include <algorithm>

#include "core/logbook/entries.h"
#include "core/logbook/readings.h"
#include "core/logbook/state.h"
#include "core/logbook/tenure.h"

namespace midden {

namespace {

/// The newest instants of a place over all its series, newest first, at most two.
std::vector<Instant> newestTwo(DatabaseFile& file, const Place& place) {
    std::vector<Instant> newest;
    for (const SeriesRow& series : seriesOf(file, place.bin)) {
        if (series.position != place.position) {
            continue;
        }
        Query query{file, "SELECT at FROM reading WHERE series = ? ORDER BY at DESC LIMIT 2"};
        query.with(series.id);
        while (query.next()) {
            newest.push_back({query.number(0)});
        }
    }
    std::sort(newest.rbegin(), newest.rend());
    newest.erase(std::unique(newest.begin(), newest.end()), newest.end());
    newest.resize(std::min<std::size_t>(newest.size(), 2));
    return newest;
}

std::optional<LastReadings> lastOf(DatabaseFile& file, const Place& place) {
    const auto newest = newestTwo(file, place);
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
        into.first->push_back({place, {query.number(0)}});
    }
}

}  // namespace

bool Logbook::isLongerThan(BatchId batch, std::int64_t readings) const {
    ReadTransaction moment{state_->file};
    std::int64_t left = readings;
    for (const Tenure& tenure : tenuresOf(state_->file, batch)) {
        for (const auto bin : {std::optional{tenure.bin}, std::optional<BinId>{}}) {
            for (const SeriesRow& series : seriesOf(state_->file, bin)) {
                Query query{state_->file,
                            "SELECT count(*) FROM ("
                            "SELECT 1 FROM reading WHERE series = ? AND at >= ? AND at < ? LIMIT ?)"};
                query.with(series.id, tenure.from, tenure.until, left + 1);
                query.next();
                left -= query.number(0);
                if (left < 0) {
                    return true;
                }
            }
        }
    }
    return false;
}

std::vector<Addition> Logbook::additions(BatchId batch) const {
    ReadTransaction moment{state_->file};
    return additionsOf(state_->file, batch);
}

std::vector<LastReadings> Logbook::lastReadings(BinId bin) const {
    ReadTransaction moment{state_->file};
    std::vector<std::string> positions;
    for (const SeriesRow& series : seriesOf(state_->file, bin)) {
        if (!series.position.empty() && (positions.empty() || positions.back() != series.position)) {
            positions.push_back(series.position);
        }
    }
    std::vector<LastReadings> all;
    for (const std::string& position : positions) {
        if (const auto last = lastOf(state_->file, {bin, position})) {
            all.push_back(*last);
        }
    }
    return all;
}

std::optional<Reading> Logbook::lastOutside() const {
    ReadTransaction moment{state_->file};
    const auto last = lastOf(state_->file, {});
    return last ? std::optional{last->last} : std::nullopt;
}

std::vector<Reading> Logbook::readings(BatchId batch, Interval within, bool withOutside, std::size_t limit) const {
    ReadTransaction moment{state_->file};
    std::vector<ReadingId> ids;
    for (const Tenure& tenure : tenuresOf(state_->file, batch)) {
        const Interval part{std::max(within.from, tenure.from), std::min(within.to, tenure.until - Seconds{1})};
        for (const SeriesRow& series : seriesOf(state_->file, tenure.bin)) {
            if (withOutside || !series.position.empty()) {
                addIds(state_->file, {tenure.bin, series.position}, series.id, part, {&ids, limit});
            }
        }
    }
    std::sort(ids.begin(), ids.end(), [](const ReadingId& a, const ReadingId& b) {
        return std::tie(a.at, a.place.position) < std::tie(b.at, b.place.position);
    });
    ids.resize(std::min(ids.size(), limit));
    std::vector<Reading> readings;
    readings.reserve(ids.size());
    for (const ReadingId& id : ids) {
        if (auto reading = findReading(state_->file, id)) {  // in a damaged file, what one index has another may lack
            readings.push_back(*std::move(reading));
        }
    }
    return readings;
}

}  // namespace midden
