// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/entries/occupancy.h"

#include <fmt/core.h>

#include <algorithm>

#include "core/records/dated_entries.h"
#include "core/thermal/interval.h"

namespace midden {

namespace {

struct StayRow {
    Occupancy occupancy;
    bool reachesBack = false;
};

/// The stays in a bin whose since is `first` to `last`, both included.
std::vector<StayRow> stayRows(DatabaseFile& file, BinId bin, Instant first, Instant last) {
    std::vector<StayRow> rows;
    Query query{file,
                "SELECT s.batch, s.since, b.finished, NOT b.start_given AND s.since = b.started,"
                "  (SELECT min(m.since) FROM move m"
                "   WHERE m.batch = s.batch AND m.since > s.since AND m.since <= ifnull(b.finished, m.since)) "
                "FROM stay s JOIN batch b ON b.id = s.batch WHERE s.bin = ? AND s.since BETWEEN ? AND ? "
                "ORDER BY s.since, b.name DESC"};
    query.with(bin, first, last);
    while (query.next()) {
        const Instant since{query.number(1)};
        const auto finished = query.maybeNumber(2);
        const auto movedOn = query.maybeNumber(4);
        // The finish itself still belongs to the batch.
        const Instant until{
            std::min(movedOn.value_or(endOfTime.utcSeconds), finished ? *finished + 1 : endOfTime.utcSeconds)};
        rows.push_back({{BatchId{query.number(0)}, bin, since, until, since}, query.number(3) != 0});
    }
    return rows;
}

std::vector<Occupancy> occupanciesFrom(const std::vector<StayRow>& rows) {
    std::vector<Occupancy> occupancies;
    Instant free = beginningOfTime;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        Occupancy occupancy = rows[i].occupancy;
        if (rows[i].reachesBack) {
            occupancy.from = std::min(free, occupancy.since);
        }
        if (i + 1 < rows.size()) {
            occupancy.until = std::min(occupancy.until, rows[i + 1].occupancy.since);
        }
        free = occupancy.until;
        occupancies.push_back(occupancy);
    }
    return occupancies;
}

/// When the stay in the bin before this one, and the one after it, began; each by a single search, so that the review
/// of one batch takes no longer in a bin where thousands stood.
Interval neighboursOf(DatabaseFile& file, BinId bin, Instant since) {
    Query query{
        file,
        "SELECT (SELECT max(since) FROM (SELECT max(started) AS since FROM batch WHERE bin = ?1 AND started < ?2"
        "   UNION ALL SELECT * FROM (SELECT m.since FROM move m CROSS JOIN batch b ON b.id = m.batch"
        "     WHERE m.bin = ?1 AND m.since < ?2 AND m.since > b.started AND m.since <= ifnull(b.finished, m.since)"
        "     ORDER BY m.since DESC LIMIT 1))),"
        " (SELECT min(since) FROM (SELECT min(started) AS since FROM batch WHERE bin = ?1 AND started > ?2"
        "   UNION ALL SELECT * FROM (SELECT m.since FROM move m CROSS JOIN batch b ON b.id = m.batch"
        "     WHERE m.bin = ?1 AND m.since > ?2 AND m.since > b.started AND m.since <= ifnull(b.finished, m.since)"
        "     ORDER BY m.since LIMIT 1)))"};
    query.with(bin, since);
    query.next();
    return {{query.maybeNumber(0).value_or(since.utcSeconds)}, {query.maybeNumber(1).value_or(since.utcSeconds)}};
}

}  // namespace

std::vector<Occupancy> occupanciesIn(DatabaseFile& file, BinId bin) {
    return occupanciesFrom(stayRows(file, bin, {INT64_MIN}, {INT64_MAX}));
}

std::vector<Occupancy> occupanciesOf(DatabaseFile& file, BatchId batch) {
    std::vector<Stay> stays;
    {
        Query query{file, "SELECT since, bin FROM stay WHERE batch = ?"};
        query.with(batch);
        while (query.next()) {
            stays.push_back({query.instant(0), BinId{query.number(1)}});
        }
    }
    std::vector<Occupancy> own;
    for (const Stay& stay : stays) {
        const auto around = neighboursOf(file, stay.bin, stay.since);
        for (const Occupancy& occupancy : occupanciesFrom(stayRows(file, stay.bin, around.from, around.to))) {
            if (occupancy.batch == batch && occupancy.since == stay.since) {
                own.push_back(occupancy);
            }
        }
    }
    std::sort(own.begin(), own.end(), [](const Occupancy& a, const Occupancy& b) { return a.since < b.since; });
    return own;
}

std::optional<Instant> earliestReading(DatabaseFile& file, BinId bin, Instant from, Instant until) {
    Query query{file,
                "SELECT min((SELECT at FROM reading WHERE series = s.id AND at >= ?2 AND at < ?3 ORDER BY at LIMIT 1)) "
                "FROM series s WHERE s.bin = ?1 AND s.position <> ''"};
    query.with(bin, from, until);
    query.next();
    const auto at = query.maybeNumber(0);
    return at ? std::optional{Instant{*at}} : std::nullopt;
}

bool hasEntriesBetween(DatabaseFile& file, const Occupancy& occupancy, Instant after, Instant before) {
    if (earliestReading(file, occupancy.bin, after + Seconds{1}, before)) {
        return true;
    }
    static const auto sql = [] {
        std::string conditions;
        for (const auto table : BatchEntries::tables) {
            conditions += fmt::format("{} EXISTS (SELECT 1 FROM {} WHERE batch = ?1 AND at > ?2 AND at < ?3)",
                                      conditions.empty() ? "SELECT" : " OR", table);
        }
        return conditions;
    }();
    Query query{file, sql.c_str()};
    query.with(occupancy.batch, after, before);
    return query.next() && query.number(0) != 0;
}

}  // namespace midden
