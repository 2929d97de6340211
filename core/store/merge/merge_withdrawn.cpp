// SPDX-License-Identifier: GPL-3.0-or-later
// What one copy withdrew and the other has: it goes, unless something in the book hangs on it. That is seen last, when
// everything of both copies is in the book.
#include <fmt/core.h>

#include <algorithm>

#include "core/records/dated_entries.h"
#include "core/store/merge/merger.h"

namespace midden {

/// Nothing where it was never withdrawn, or put back since.
const Change* Merger::withdrawalOf(const EntryName& entry) const {
    const auto order = [](const Change& change) {
        return std::tuple{*change.rank, change.became.has_value(), change.key};
    };
    const Change* last = nullptr;
    for (const MergeSide* side : {&ours_, &theirs_}) {
        const bool isThere = side->live(entry).has_value();
        for (const Change& change : side->historyOf(entry)) {
            const bool cameOrWent = change.rank && change.was.has_value() != change.became.has_value();
            // What only bore the same name and was withdrawn is another.
            const bool isItself = !isThere || change.ownEntry == side->ownName(entry);
            if (cameOrWent && isItself && !isOfMove(change) && (last == nullptr || order(change) > order(*last))) {
                last = &change;
            }
        }
    }
    return last == nullptr || last->became ? nullptr : last;
}

/// Does anything in the book hang on this bin, probe or batch?
bool Merger::isUsed(const EntryName& entry) const {
    static const std::map<EntryKind, std::vector<const char*>> uses{
        {EntryKind::bin,
         {"SELECT 1 FROM batch WHERE bin = ?", "SELECT 1 FROM move WHERE bin = ?",
          "SELECT 1 FROM place_setting WHERE bin = ?",
          "SELECT 1 FROM series s JOIN reading r ON r.series = s.id WHERE s.bin = ? LIMIT 1"}},
        {EntryKind::probe,
         {"SELECT 1 FROM thermometer_check WHERE probe = ?",
          "SELECT 1 FROM series s JOIN reading r ON r.series = s.id WHERE s.probe = ? LIMIT 1"}},
        {EntryKind::batch, [] {
             std::vector<const char*> queries{"SELECT 1 FROM certificate WHERE batch = ?"};
             for (const auto table : BatchEntries::tables) {
                 queries.push_back(interned(fmt::format("SELECT 1 FROM {} WHERE batch = ?", table)));
             }
             return queries;
         }()}};
    const auto id = ours_.keys.idOf(shapeOf(entry.kind).table, entry.name);
    const auto& queries = uses.at(entry.kind);
    return std::any_of(queries.begin(), queries.end(), [&](const char* sql) {
        Query query{state_.file, sql};
        query.with(id);
        return query.next();
    });
}

void Merger::carryOutWithdrawals(EntryKind kind) {
    for (const EntryName& entry : ours_.entriesOf(kind)) {
        const Change* withdrawal = withdrawalOf(entry);
        if (withdrawal == nullptr) {
            outcome_.changed += returned_.contains(entry) ? 1 : 0;
        } else if (!isUsed(entry)) {
            withdrawSetUp(entry, *withdrawal);
        } else if (returned_.contains(entry) || !theirs_.live(entry)) {
            bringBack(entry, *withdrawal);
        }
    }
}

/// The amendments that say so are in the book already.
void Merger::withdrawSetUp(const EntryName& entry, const Change& by) {
    const auto id = ours_.keys.idOf(shapeOf(entry.kind).table, entry.name);
    if (entry.kind == EntryKind::batch) {
        keepLastWords(entry);
    }
    beginAudit(by.key);
    if (entry.kind == EntryKind::batch) {
        Query{state_.file, "DELETE FROM batch WHERE id = ?"}.with(id).run();
    } else if (entry.kind == EntryKind::bin) {
        Query{state_.file, "DELETE FROM series WHERE bin = ?"}.with(id).run();
        Query{state_.file, "DELETE FROM bin WHERE id = ?"}.with(id).run();
    } else {
        Query{state_.file, "DELETE FROM series WHERE probe = ?"}.with(id).run();
        Query{state_.file, "DELETE FROM probe WHERE id = ?"}.with(id).run();
    }
    beginAudit({});
    outcome_.changed += returned_.contains(entry) ? 0 : 1;
}

/// What no withdrawal tells of it, because the copy that withdrew it did not know.
void Merger::keepLastWords(const EntryName& batch) {
    Value last = ours_.live(batch);
    if (const Moves moves = ours_.movesOf(batch); !moves.empty()) {
        (*last)["moves"] = movesText(moves);
    }
    const auto withdrawals = withdrawalsHeard(batch);
    const bool isTold = std::any_of(withdrawals.begin(), withdrawals.end(),
                                    [&](const Change* withdrawal) { return withdrawal->was == last; });
    if (!isTold) {
        noteGivenWay(batch, last, std::nullopt, {last, std::nullopt, {}, {}});
    }
}

/// It stays, because something in the book hangs on it.
void Merger::bringBack(const EntryName& entry, const Change& withdrawal) {
    Change change;
    change.key = keyFrom(fmt::format("back {} {}", entry.name, withdrawal.key));
    change.entry = entry;
    change.amended = withdrawal.amended;
    change.at = withdrawal.at;
    change.became = withdrawal.was;  // the same in whatever order copies meet; what else is known was never withdrawn
    change.became->erase("moves");
    change.why = "another copy of the book still has it";
    importAmendment(change);
}

}  // namespace midden
