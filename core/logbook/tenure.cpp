// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/logbook/tenure.h"

#include <algorithm>

namespace midden {

namespace {

struct StayRow {
    Tenure tenure;
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

std::vector<Tenure> tenuresFrom(const std::vector<StayRow>& rows) {
    std::vector<Tenure> tenures;
    Instant free = beginningOfTime;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        Tenure tenure = rows[i].tenure;
        if (rows[i].reachesBack) {
            tenure.from = std::min(free, tenure.since);
        }
        if (i + 1 < rows.size()) {
            tenure.until = std::min(tenure.until, rows[i + 1].tenure.since);
        }
        free = tenure.until;
        tenures.push_back(tenure);
    }
    return tenures;
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

std::vector<Tenure> tenuresIn(DatabaseFile& file, BinId bin) {
    return tenuresFrom(stayRows(file, bin, {INT64_MIN}, {INT64_MAX}));
}

std::vector<Tenure> tenuresOf(DatabaseFile& file, BatchId batch) {
    std::vector<Stay> stays;
    {
        Query query{file, "SELECT since, bin FROM stay WHERE batch = ?"};
        query.with(batch);
        while (query.next()) {
            stays.push_back({query.instant(0), BinId{query.number(1)}});
        }
    }
    std::vector<Tenure> own;
    for (const Stay& stay : stays) {
        const auto around = neighboursOf(file, stay.bin, stay.since);
        for (const Tenure& tenure : tenuresFrom(stayRows(file, stay.bin, around.from, around.to))) {
            if (tenure.batch == batch && tenure.since == stay.since) {
                own.push_back(tenure);
            }
        }
    }
    std::sort(own.begin(), own.end(), [](const Tenure& a, const Tenure& b) { return a.since < b.since; });
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

bool hasEntriesBetween(DatabaseFile& file, const Tenure& tenure, Instant after, Instant before) {
    if (earliestReading(file, tenure.bin, after + Seconds{1}, before)) {
        return true;
    }
    Query query{file,
                "SELECT EXISTS (SELECT 1 FROM addition WHERE batch = ?1 AND at > ?2 AND at < ?3)"
                "    OR EXISTS (SELECT 1 FROM aeration WHERE batch = ?1 AND at > ?2 AND at < ?3)"
                "    OR EXISTS (SELECT 1 FROM observation WHERE batch = ?1 AND at > ?2 AND at < ?3)"};
    query.with(tenure.batch, after, before);
    return query.next() && query.number(0) != 0;
}

}  // namespace midden
