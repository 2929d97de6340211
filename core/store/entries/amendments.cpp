// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/entries/amendments.h"

#include <fmt/core.h>

#include <algorithm>
#include <set>

#include "core/records/dated_entries.h"
#include "core/store/entries/amendment_words.h"
#include "core/store/entries/occupancy.h"
#include "core/store/schema/amendment_json.h"
#include "core/store/soundness.h"
#include "core/store/state.h"

namespace midden {

namespace {

constexpr const char* columns = "SELECT id, kind, entry, at, was, became, amended, who, why, bin FROM amendment a ";

void collect(Query& query, std::vector<AmendmentRow>& rows) {
    while (query.next()) {
        AmendmentRow row;
        row.id = query.number(0);
        row.kind = query.choice(1, lastEntryKind);
        row.entry = query.text(2);
        row.at = {query.number(3)};
        row.was = query.text(4);
        row.became = query.text(5);
        row.amended = {query.number(6)};
        row.who = query.text(7);
        row.why = query.text(8);
        if (const auto bin = query.maybeNumber(9)) {
            row.bin = BinId{*bin};
        }
        rows.push_back(std::move(row));
    }
}

/// Corrected or withdrawn readings inside the bin, where the old or the new instant is the batch's.
void collectReadings(DatabaseFile& file, const Occupancy& occupancy, std::vector<AmendmentRow>& rows) {
    static const std::string sql =
        std::string{columns} +
        "WHERE a.kind = 0 AND a.bin = ?1"
        " AND coalesce(amended_field(a.was, 'position'), amended_field(a.became, 'position'), 'unknown') <> ''"
        " AND ((a.at >= ?2 AND a.at < ?3)"
        "   OR (amended_field(a.became, 'at') >= ?2 AND amended_field(a.became, 'at') < ?3))";
    Query query{file, sql.c_str()};
    query.with(occupancy.bin, occupancy.from, occupancy.until);
    collect(query, rows);
}

/// Corrected or withdrawn readings of the air outside that bin, and outside as such.
void collectOutside(DatabaseFile& file, const Occupancy& occupancy, std::vector<AmendmentRow>& rows) {
    static const std::string sql =
        std::string{columns} +
        "WHERE a.kind = 0 AND (a.bin = ?1 OR a.bin IS NULL)"
        " AND coalesce(amended_field(a.was, 'position'), amended_field(a.became, 'position')) = ''"
        " AND ((a.at >= ?2 AND a.at < ?3)"
        "   OR (amended_field(a.became, 'at') >= ?2 AND amended_field(a.became, 'at') < ?3))";
    Query query{file, sql.c_str()};
    query.with(occupancy.bin, occupancy.from, occupancy.until);
    collect(query, rows);
}

/// Corrected or withdrawn checks of the thermometers the batch was read with.
void collectChecks(DatabaseFile& file, const Occupancy& occupancy, std::vector<AmendmentRow>& rows) {
    static const std::string sql = std::string{columns} +
                                   "WHERE a.kind = 4 AND coalesce(amended_field(a.was, 'probe'),"
                                   " amended_field(a.became, 'probe'),"
                                   " (SELECT probe FROM thermometer_check WHERE id = a.entry)) IN ("
                                   "  SELECT s.probe FROM series s WHERE s.bin = ?1 AND s.position <> '' AND EXISTS ("
                                   "    SELECT 1 FROM reading r WHERE r.series = s.id AND r.at >= ?2 AND r.at < ?3))";
    Query query{file, sql.c_str()};
    query.with(occupancy.bin, occupancy.from, occupancy.until);
    collect(query, rows);
}

enum class Air { leftOut, included };

/// Each once, oldest first.
std::vector<AmendmentRow> amendmentRows(DatabaseFile& file, BatchId batch, Air air) {
    static const std::string sql = std::string{columns} + "WHERE a.batch = ?";
    std::vector<AmendmentRow> rows;
    Query query{file, sql.c_str()};
    query.with(batch);
    collect(query, rows);
    for (const Occupancy& occupancy : occupanciesOf(file, batch)) {
        collectReadings(file, occupancy, rows);
        collectChecks(file, occupancy, rows);
        if (air == Air::included) {
            collectOutside(file, occupancy, rows);
        }
    }
    const auto older = [](const auto& a, const auto& b) {
        return std::tie(a.amended, a.id) < std::tie(b.amended, b.id);
    };
    std::sort(rows.begin(), rows.end(), older);
    rows.erase(std::unique(rows.begin(), rows.end(), [](const auto& a, const auto& b) { return a.id == b.id; }),
               rows.end());
    return rows;
}

}  // namespace

std::int64_t amendedEntries(DatabaseFile& file, BatchId batch) {
    std::set<std::pair<EntryKind, std::string>> entries;
    for (const AmendmentRow& row : amendmentRows(file, batch, Air::leftOut)) {
        entries.emplace(row.kind, row.entry);
    }
    return std::ssize(entries);
}

std::int64_t lateEntries(DatabaseFile& file, BatchId batch) {
    std::int64_t late = 0;
    for (const auto table : BatchEntries::tables) {
        Query query{file, interned(fmt::format("SELECT count(*) FROM {} WHERE batch = ? AND source = 0 "
                                               "AND entered > at + 86400",
                                               table))};
        query.with(batch);
        query.next();
        late += query.number(0);
    }
    for (const Occupancy& occupancy : occupanciesOf(file, batch)) {
        Query query{file,
                    "SELECT count(*) FROM series s CROSS JOIN reading_more m ON m.series = s.id "
                    "AND m.at >= ? AND m.at < ? WHERE s.bin = ? AND s.position <> '' AND s.source = 0 "
                    "AND m.entered > m.at + 86400"};
        query.with(occupancy.from, occupancy.until, occupancy.bin);
        query.next();
        late += query.number(0);
    }
    return late;
}

std::vector<std::string> unreadableAmendments(const Logbook& book) {
    return unreadableAmendments(Logbook::State::of(book).file);
}

std::vector<Amendment> Logbook::amendments(BatchId batch) const {
    ReadTransaction moment{state_->file};
    std::vector<Amendment> amendments;
    for (const AmendmentRow& row : amendmentRows(state_->file, batch, Air::included)) {
        amendments.push_back(inWords(row, batch));
    }
    return amendments;
}

}  // namespace midden
