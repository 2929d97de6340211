// SPDX-License-Identifier: GPL-3.0-or-later
// Merging where batches were moved to. Each move is an entry of its own, named by its batch and its instant; whether it
// counts is no matter of merging: the view `stay` sees that from the start and the finish of its batch.
#include <fmt/core.h>

#include <algorithm>
#include <charconv>
#include <sstream>

#include "core/store/merge/merger.h"

namespace midden {

namespace {

/// Those that its start and finish let in.
Moves countedMoves(const MergeSide& side, const EntryName& batch) {
    Moves moves;
    Query query{side.file,
                "SELECT s.since, s.bin FROM stay s JOIN batch b ON b.id = s.batch "
                "WHERE s.batch = ? AND s.since > b.started"};
    query.with(side.keys.idOf("batch", batch.name));
    while (query.next()) {
        moves[query.number(0)] = side.keys.sharedKey("bin", query.number(1));
    }
    return moves;
}

bool contains(const Moves& moves, const Moves::value_type& move) {
    const auto found = moves.find(move.first);
    return found != moves.end() && found->second == move.second;
}

bool isOfInstant(const Value& value, std::int64_t since) {
    return value && value->contains("since") && (*value)["since"] == since;
}

Changes changesAt(const MergeSide& side, const EntryName& batch, std::int64_t since) {
    Changes changes;
    for (const Change& change : side.historyOf(batch)) {
        if (isOfInstant(change.was, since) || isOfInstant(change.became, since)) {
            changes.push_back(change);
        }
    }
    return changes;
}

Value moveAt(const Moves& moves, const EntryName& batch, std::int64_t since) {
    const auto found = moves.find(since);
    return found == moves.end() ? Value{} : Value{{{"batch", batch.name}, {"since", since}, {"bin", found->second}}};
}

Moves movesToldBy(const Change& withdrawal) {
    return movesFrom(withdrawal.was->value("moves", ""));
}

}  // namespace

std::string movesText(const Moves& moves) {
    std::string text;
    for (const auto& [since, key] : moves) {
        text += fmt::format("{}{} {}", text.empty() ? "" : ";", since, key);
    }
    return text;
}

Moves movesFrom(const std::string& text) {
    Moves moves;
    std::istringstream in{text};
    for (std::string move; std::getline(in, move, ';');) {
        const auto blank = std::min(move.find(' '), move.size());
        std::int64_t since = 0;
        const auto read = std::from_chars(move.data(), move.data() + blank, since);
        if (read.ec == std::errc{} && blank < move.size()) {
            moves[since] = move.substr(blank + 1);
        }
    }
    return moves;
}

void Merger::lookAtMoves() {
    for (const EntryName& batch : ours_.entriesOf(EntryKind::batch)) {
        countedBefore_[batch] = countedMoves(ours_, batch);
    }
}

void Merger::mergeMoves() {
    for (const EntryName& batch : ours_.entriesOf(EntryKind::batch)) {
        mergeMovesOf(batch);
        noteIdle(batch);
    }
    beginAudit({});
}

void Merger::mergeMovesOf(const EntryName& batch) {
    std::set<std::int64_t> instants;
    for (const MergeSide* side : {&ours_, &theirs_}) {
        for (const auto& [since, bin] : side->movesOf(batch)) {
            instants.insert(since);
        }
        for (const Change& change : side->historyOf(batch)) {
            if (isOfMove(change) && change.rank && change.became) {
                instants.insert((*change.became)["since"].get<std::int64_t>());
            }
        }
    }
    for (const std::int64_t since : instants) {
        mergeMove(batch, since);
    }
    for (const Change* withdrawal : withdrawalsHeard(batch)) {
        for (const auto& [since, bin] : movesToldBy(*withdrawal)) {
            mergeWithdrawnMove(batch, since, *withdrawal);
        }
    }
}

/// A copy that withdrew the batch has no moves of it any more, but what people said of them last.
Value Merger::moveSaid(const MergeSide& side, const EntryName& batch, std::int64_t since) const {
    if (isInBook(side, batch)) {
        return moveAt(side.movesOf(batch), batch, since);
    }
    const Change* last = nullptr;
    const auto changes = changesAt(side, batch, since);
    for (const Change& change : changes) {
        if (change.rank && (last == nullptr || *change.rank > *last->rank)) {
            last = &change;
        }
    }
    return last != nullptr && isOfInstant(last->became, since) ? last->became : std::nullopt;
}

void Merger::mergeMove(const EntryName& batch, std::int64_t since) {
    const Sides sides{moveSaid(ours_, batch, since), moveSaid(theirs_, batch, since), changesAt(ours_, batch, since),
                      changesAt(theirs_, batch, since)};
    Verdict verdict;
    if (!sides.ours && sides.ourHistory.empty()) {
        verdict = {true, sides.theirHistory.empty() ? std::string{} : sides.theirHistory.back().key};
    } else if (sides.ours != sides.theirs && (sides.theirs || !sides.theirHistory.empty())) {
        verdict = settle(batch, sides);
    }
    const Value& stands = verdict.theirsStands ? sides.theirs : sides.ours;
    if (stands != moveAt(ours_.movesOf(batch), batch, since)) {
        const bool isOurs = verdict.key.empty() && !sides.ourHistory.empty();
        beginAudit(isOurs ? sides.ourHistory.back().key : verdict.key);
        storeMove(batch, since, stands);
    }
}

/// A batch that was withdrawn and is used all the same has the moves again that went with it, but for those that
/// somebody took back by themselves.
void Merger::mergeWithdrawnMove(const EntryName& batch, std::int64_t since, const Change& withdrawal) {
    const bool isSettled = highestRank(changesAt(ours_, batch, since)) != INT64_MIN ||
                           highestRank(changesAt(theirs_, batch, since)) != INT64_MIN;
    const Moves ours = ours_.movesOf(batch);
    const Moves told = movesToldBy(withdrawal);
    const auto stands = ours.find(since);
    const auto nameOf = [&](const std::string& key) { return ours_.inNames({{"bin", key}})["bin"]; };
    if (!isSettled && (stands == ours.end() || nameOf(stands->second) < nameOf(told.at(since)))) {
        beginAudit(withdrawal.key);
        storeMove(batch, since, moveAt(told, batch, since));
    }
}

void Merger::storeMove(const EntryName& batch, std::int64_t since, const Value& move) {
    const auto id = ours_.keys.idOf("batch", batch.name);
    // The amendment is in the book already: out and in again is the plainest way to any other value.
    Query{state_.file, "DELETE FROM move WHERE batch = ? AND since = ?"}.with(id, since).run();
    if (move) {
        Query{state_.file, "INSERT INTO move(batch, since, bin) VALUES (?, ?, ?)"}
            .with(id, since, ours_.keys.idOf("bin", (*move)["bin"].get<std::string>()))
            .run();
    }
    ++outcome_.changed;
}

/// A move that counted in one copy and does not count now: people should know.
void Merger::noteIdle(const EntryName& batch) {
    const Moves counted = countedMoves(ours_, batch);
    const Moves theirs = countedMoves(theirs_, batch);
    for (const auto& move : ours_.movesOf(batch)) {
        if (!contains(counted, move) && (contains(countedBefore_[batch], move) || contains(theirs, move))) {
            noteDropped(batch, *moveAt({move}, batch, move.first));
        }
    }
}

/// Of two batches that come to one bin at one instant the one that is first by name stands there, as occupancies have
/// it; people should know of the other.
void Merger::noteSharedArrivals() {
    Query query{state_.file,
                "SELECT b.id, s.since, s.bin FROM stay s JOIN batch b ON b.id = s.batch WHERE EXISTS "
                "(SELECT 1 FROM stay o JOIN batch a ON a.id = o.batch"
                " WHERE o.bin = s.bin AND o.since = s.since AND a.name < b.name) ORDER BY b.id, s.since"};
    while (query.next()) {
        const EntryName batch{EntryKind::batch, ours_.keys.sharedKey("batch", query.number(0))};
        const auto since = query.number(1);
        noteDropped(batch, *moveAt({{since, ours_.keys.sharedKey("bin", query.number(2))}}, batch, since));
    }
}

}  // namespace midden
