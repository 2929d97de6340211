// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/entries/batches.h"

#include <fmt/core.h>

#include <algorithm>

#include "core/records/dated_entries.h"
#include "core/store/entries/entry_store.h"
#include "core/store/entries/setup.h"
#include "core/store/logbook.h"

namespace midden {

namespace {

Moment momentFrom(const Query& row, int column) {
    return {row.instant(column), row.offset(column + 1)};
}

std::optional<Batch> storedBatch(DatabaseFile& file, BatchId id) {
    Query query{
        file,
        "SELECT name, bin, started, started_offset, start_given, note, finished, finished_offset, fed FROM batch "
        "WHERE id = ?"};
    query.with(id);
    if (!query.next()) {
        return std::nullopt;
    }
    Batch batch;
    batch.id = id;
    batch.name = query.text(0);
    batch.started = momentFrom(query, 2);
    batch.startGiven = query.number(4) != 0;
    batch.note = query.text(5);
    if (!query.isNull(6)) {
        batch.finished = momentFrom(query, 6);
    }
    batch.fed = query.number(8) != 0;
    batch.stays.push_back({batch.started.at, BinId{query.number(1)}});
    Query moves{file, "SELECT since, bin FROM move WHERE batch = ? ORDER BY since"};
    moves.with(id);
    while (moves.next()) {
        batch.stays.push_back({moves.instant(0), BinId{moves.number(1)}});
    }
    return batch;
}

/// Without the moves that its start and finish leave out, as the view `stay` has it.
Batch withoutIdleMoves(Batch batch) {
    const Instant last = batch.finished ? batch.finished->at : endOfTime;
    const auto isIdle = [&](const Stay& stay) { return stay.since <= batch.started.at || stay.since > last; };
    batch.stays.erase(std::remove_if(batch.stays.begin() + 1, batch.stays.end(), isIdle), batch.stays.end());
    return batch;
}

/// The earliest entry of the batch in the time before its written start that its bin was free.
std::optional<Instant> earliestEntry(DatabaseFile& file, const Batch& batch) {
    const auto occupancies = occupanciesOf(file, batch.id);
    const auto found = std::ranges::find(occupancies, batch.stays.front().bin, &Occupancy::bin);
    if (found == occupancies.end() || found->from >= batch.started.at) {
        return std::nullopt;
    }
    const Occupancy& first = *found;
    auto earliest = earliestReading(file, first.bin, first.from, first.since);
    Query query{file,
                "SELECT min(at) FROM (SELECT min(at) AS at FROM addition WHERE batch = ?1 AND at >= ?2 AND at < ?3"
                "  UNION ALL SELECT min(at) FROM aeration WHERE batch = ?1 AND at >= ?2 AND at < ?3)"};
    query.with(batch.id, first.from, first.since);
    if (query.next() && !query.isNull(0)) {
        const Instant at{query.number(0)};
        earliest = earliest ? std::min(*earliest, at) : at;
    }
    return earliest;
}

void moveStart(Batch& batch, Instant start) {
    batch.started.at = start;
    if (!batch.stays.empty()) {
        batch.stays.front().since = start;
    }
}

void expectSound(DatabaseFile& file, const Batch& batch) {
    if (batch.name.empty()) {
        refuse("a batch needs a name");
    }
    Query query{file, "SELECT 1 FROM batch WHERE name = ? AND id <> ?"};
    query.with(batch.name, batch.id);
    if (query.next()) {
        refuse("there is already a batch " + inQuotes(batch.name));
    }
    if (batch.stays.empty()) {
        refuse("batch " + inQuotes(batch.name) + " needs a bin to stand in");
    }
}

/// Undoing is free of this: what stood before may hold moves that did not count.
void expectMovesInOrder(const Batch& batch) {
    for (std::size_t i = 1; i < batch.stays.size(); ++i) {
        if (batch.stays[i].since <= (i == 1 ? batch.started.at : batch.stays[i - 1].since)) {
            refuse("batch " + inQuotes(batch.name) + " cannot be moved before it came to its bin");
        }
    }
    if (batch.finished && batch.finished->at < std::max(batch.started.at, batch.stays.back().since)) {
        refuse("batch " + inQuotes(batch.name) + " cannot be finished before it came to its bin");
    }
}

/// But for what stood so before, as it may where copies were merged.
void expectBinsToItself(DatabaseFile& file, BatchId id, const std::vector<Stay>& before) {
    Query taken{file,
                "SELECT b.name, s.since, s.bin FROM stay s JOIN stay o ON o.bin = s.bin AND o.since = s.since "
                "AND o.batch <> s.batch JOIN batch b ON b.id = o.batch WHERE s.batch = ?"};
    taken.with(id);
    while (taken.next()) {
        const bool stoodSo = std::any_of(before.begin(), before.end(), [&](const Stay& stay) {
            return stay.since.utcSeconds == taken.number(1) && stay.bin == BinId{taken.number(2)};
        });
        if (stoodSo) {
            continue;
        }
        refuse("batch " + inQuotes(taken.text(0)) + " comes to that bin at the very same time");
    }
}

/// At that instant there may be one already that does not count.
void storeMove(DatabaseFile& file, BatchId batch, const Stay& move) {
    Query query{file, "SELECT bin FROM move WHERE batch = ? AND since = ?"};
    query.with(batch, move.since);
    const bool isThere = query.next();
    if (isThere && BinId{query.number(0)} == move.bin) {
        return;
    }
    Query{file, isThere ? "UPDATE move SET bin = ?3 WHERE batch = ?1 AND since = ?2"
                        : "INSERT INTO move(batch, since, bin) VALUES (?, ?, ?)"}
        .with(batch, move.since, move.bin)
        .run();
}

/// Changes only the moves that differ, so that a mere move is no correction. `was` has the moves that may go.
void storeMoves(DatabaseFile& file, const Batch& was, const Batch& batch) {
    const auto isMoveOf = [](const Batch& one, const Stay& move) {
        return std::any_of(one.stays.begin() + 1, one.stays.end(),
                           [&](const Stay& stay) { return stay.since == move.since && stay.bin == move.bin; });
    };
    for (std::size_t i = 1; i < was.stays.size(); ++i) {
        if (!isMoveOf(batch, was.stays[i])) {
            Query{file, "DELETE FROM move WHERE batch = ? AND since = ?"}.with(batch.id, was.stays[i].since).run();
        }
    }
    for (std::size_t i = 1; i < batch.stays.size(); ++i) {
        storeMove(file, batch.id, batch.stays[i]);
    }
}

std::optional<Instant> instantOf(const std::optional<Moment>& moment) {
    return moment ? std::optional{moment->at} : std::nullopt;
}
std::optional<UtcOffset> offsetOf(const std::optional<Moment>& moment) {
    return moment ? std::optional{moment->offset} : std::nullopt;
}

bool found(DatabaseFile& file, const char* sql, BatchId id) {
    Query query{file, sql};
    query.with(id);
    return query.next();
}

}  // namespace

std::optional<Batch> shownBatch(DatabaseFile& file, BatchId id) {
    auto stored = storedBatch(file, id);
    if (!stored) {
        return std::nullopt;
    }
    Batch batch = withoutIdleMoves(*std::move(stored));
    if (!batch.startGiven) {
        if (const auto earliest = earliestEntry(file, batch)) {
            moveStart(batch, *earliest);
        }
    }
    return batch;
}

std::optional<Instant> finishOf(const Batch& batch, const std::vector<Occupancy>& occupancies) {
    if (batch.finished) {
        return batch.finished->at;
    }
    if (occupancies.empty() || occupancies.back().until == endOfTime) {
        return std::nullopt;
    }
    return occupancies.back().until;
}

/// As it is written, with the moves that do not count, so that an inverse puts back what was written.
template <>
std::optional<Batch> EntryStore<Batch>::find(Logbook::State& state, const BatchId& id) {
    return storedBatch(state.file, id);
}

template <>
BatchId EntryStore<Batch>::put(Logbook::State& state, const Batch& given) {
    Batch batch = given;
    expectSound(state.file, batch);
    if (!state.undoing) {
        expectMovesInOrder(batch);
    }
    const auto number = static_cast<std::int64_t>(batch.id);
    const auto id = number == 0 ? std::nullopt : std::optional{number};
    const auto key = id ? formerKey(state.file, EntryKind::batch, *id) : std::nullopt;
    const auto before = occupanciesInAll(state.file, binsOf(batch.stays));
    Query{
        state.file,
        "INSERT INTO batch(id, key, name, bin, started, started_offset, start_given, finished, finished_offset, note, "
        "fed) VALUES (?, ifnull(?, lower(hex(randomblob(16)))), ?, ?, ?, ?, ?, ?, ?, ?, ?)"}
        .with(id, key, batch.name, batch.stays.front().bin, batch.started.at, batch.started.offset, batch.startGiven,
              instantOf(batch.finished), offsetOf(batch.finished), batch.note, batch.fed)
        .run();
    batch.id = BatchId{lastId(state.file)};
    storeMoves(state.file, batch, batch);
    if (!state.undoing) {
        expectBinsToItself(state.file, batch.id, {});
    }
    refuseTakeover(state, batch, before);
    return batch.id;
}

template <>
BatchId EntryStore<Batch>::amend(Logbook::State& state, const Batch& was, const Batch& given) {
    Batch batch = given;
    batch.id = was.id;
    const auto shown = shownBatch(state.file, was.id);
    if (shown && !state.undoing && !batch.startGiven && batch.started.at == shown->started.at) {
        moveStart(batch, was.started.at);  // unchanged from what was shown: what is written stays
    }
    expectSound(state.file, batch);
    if (!state.undoing) {
        expectMovesInOrder(batch);
    }
    auto bins = binsOf(batch.stays);
    const auto before = occupanciesInAll(state.file, bins);
    Query{state.file,
          "UPDATE batch SET name = ?, bin = ?, started = ?, started_offset = ?, start_given = ?, finished = ?, "
          "finished_offset = ?, note = ?, fed = ? WHERE id = ?"}
        .with(batch.name, batch.stays.front().bin, batch.started.at, batch.started.offset, batch.startGiven,
              instantOf(batch.finished), offsetOf(batch.finished), batch.note, batch.fed, batch.id)
        .run();
    storeMoves(state.file, state.undoing ? was : withoutIdleMoves(was), batch);
    if (!state.undoing) {
        expectBinsToItself(state.file, batch.id, was.stays);
    }
    refuseTakeover(state, batch, before);
    return batch.id;
}

template <>
void EntryStore<Batch>::withdraw(Logbook::State& state, const BatchId& id) {
    if (found(state.file, "SELECT 1 FROM certificate WHERE batch = ?", id)) {
        refuse("a certificate was issued for this batch; it stays in the book");
    }
    for (const auto table : BatchEntries::tables) {
        if (found(state.file, interned(fmt::format("SELECT 1 FROM {} WHERE batch = ?", table)), id)) {
            refuse("this batch has entries; withdraw those first");
        }
    }
    Query{state.file, "DELETE FROM batch WHERE id = ?"}.with(id).run();
}

std::vector<Batch> Logbook::batches() const {
    ReadTransaction moment{state_->file};
    std::vector<BatchId> ids;
    {
        Query query{state_->file, "SELECT id FROM batch"};
        while (query.next()) {
            ids.push_back(BatchId{query.number(0)});
        }
    }
    std::vector<Batch> batches;
    batches.reserve(ids.size());
    for (const BatchId id : ids) {
        batches.push_back(*shownBatch(state_->file, id));
    }
    std::sort(batches.begin(), batches.end(), [](const Batch& a, const Batch& b) {
        return std::tie(a.started.at, a.name) < std::tie(b.started.at, b.name);
    });
    return batches;
}

std::optional<Batch> Logbook::batch(BatchId id) const {
    ReadTransaction moment{state_->file};
    return shownBatch(state_->file, id);
}

std::optional<Batch> Logbook::batchNamed(std::string_view name) const {
    ReadTransaction moment{state_->file};
    Query query{state_->file, "SELECT id FROM batch WHERE name = ?"};
    query.with(name);
    return query.next() ? shownBatch(state_->file, BatchId{query.number(0)}) : std::nullopt;
}

std::optional<BatchId> Logbook::occupant(BinId bin, Instant at) const {
    ReadTransaction moment{state_->file};
    for (const Occupancy& occupancy : occupanciesIn(state_->file, bin)) {
        if (occupancy.from <= at && at < occupancy.until) {
            return occupancy.batch;
        }
    }
    return std::nullopt;
}

}  // namespace midden
