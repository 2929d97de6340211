// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "core/quantities/sha256.h"
#include "core/records/dated_entries.h"
#include "core/store/logbook.h"
#include "core/store/merge/merger.h"

namespace midden {

namespace {

std::string textOf(const Value& value) {
    return value ? value->dump(-1, ' ', false, Json::error_handler_t::replace) : std::string{};
}

/// Of what is set up, only what was said of it while it was there.
Changes ownHistory(const EntryName& entry, const Changes& history) {
    Changes own;
    for (const Change& change : history) {
        if (change.became || !isSetUp(entry.kind)) {
            own.push_back(change);
        }
    }
    return own;
}

}  // namespace

MergeOutcome Merger::run() {
    pairAll();
    ours_.readHistory();
    theirs_.readHistory();
    lookAtMoves();
    mergeMaterialsSince();
    for (const EntryKind kind : {EntryKind::bin, EntryKind::probe, EntryKind::batch}) {
        insertMissing(kind);
    }
    importAmendments();
    for (const EntryKind kind : {EntryKind::bin, EntryKind::probe, EntryKind::batch}) {
        for (const EntryName& entry : ours_.entriesOf(kind)) {
            resolve(entry);
        }
    }
    mergeMoves();
    std::set<EntryName> entries;
    const auto takeAll = [&](EntryKind kind) {
        const auto present = theirs_.entriesOf(kind);
        entries.insert(present.begin(), present.end());
    };
    std::ranges::for_each(DatedEntries::kinds, takeAll);
    takeAll(EntryKind::place);
    for (const MergeSide* side : {&ours_, &theirs_}) {
        for (const auto& [entry, changes] : side->history()) {
            entries.insert(entry);
        }
    }
    for (const EntryName& entry : entries) {
        resolve(entry);
    }
    mergeReadings();
    mergeCertificates();
    mergeSettings();
    for (const EntryKind kind : {EntryKind::batch, EntryKind::bin, EntryKind::probe}) {
        carryOutWithdrawals(kind);
    }
    noteSharedArrivals();
    Query{state_.file, "UPDATE hand SET at = NULL, who = '', why = '', key = NULL"}.run();
    return std::move(outcome_);
}

void Merger::importAmendments() {
    for (const auto& [entry, changes] : theirs_.history()) {
        for (const Change& change : changes) {
            importAmendment(change);
        }
    }
}

void Merger::importAmendment(const Change& change) {
    const auto inOurWords = [&](const Value& value) -> std::optional<std::string> {
        return value ? std::optional{textOf(ours_.own(change.entry, *value, true))} : std::nullopt;
    };
    const Json& shared = change.was ? *change.was : *change.became;
    const auto link = [&](const char* kind) -> std::optional<std::int64_t> {
        const auto key = shared.find(kind);
        return key != shared.end() && key->is_string() ? ours_.keys.idOf(kind, key->get<std::string>()) : std::nullopt;
    };
    const auto batch =
        change.entry.kind == EntryKind::batch ? ours_.keys.idOf("batch", change.entry.name) : link("batch");
    const auto bin = change.entry.kind == EntryKind::reading ? link("bin") : std::nullopt;
    Query{state_.file,
          "INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why, rank) "
          "SELECT ?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12 "
          "WHERE NOT EXISTS (SELECT 1 FROM amendment WHERE key = ?1)"}
        .with(change.key, change.entry.kind, ours_.ownName(change.entry), batch, bin, change.at, inOurWords(change.was),
              inOurWords(change.became), change.amended, change.who, change.why, change.rank)
        .run();
}

void Merger::resolve(const EntryName& entry) {
    if (!settled_.insert(entry).second) {
        return;
    }
    const Value ours = ours_.live(entry);
    const Value theirs = theirs_.live(entry);
    const auto& ourHistory = ours_.historyOf(entry);
    const auto& theirHistory = theirs_.historyOf(entry);
    if (!theirs && theirHistory.empty()) {
        return;  // new to them
    }
    if (!ours && ourHistory.empty()) {
        takeOver(entry, theirs);
    } else if (entry.kind == EntryKind::batch && ours) {
        resolveBatch(entry, *ours, theirs.value_or(*ours));
    } else if (isSetUp(entry.kind) && !(ours && theirs)) {
        return;  // whether it goes is seen when all else is in the book
    } else {
        resolveBoth(entry, {ours, theirs, ownHistory(entry, ourHistory), ownHistory(entry, theirHistory)});
    }
}

void Merger::resolveBoth(const EntryName& entry, const Sides& sides) {
    if (sides.ours == sides.theirs) {
        return;
    }
    const auto [theirsStands, key] = settle(entry, sides);
    if (theirsStands) {
        beginAudit(key);
        store(entry, sides.ours, sides.theirs);
        ++outcome_.changed;
    }
}

void Merger::takeOver(const EntryName& entry, const Value& theirs) {
    if (!theirs) {
        return;
    }
    const auto& history = theirs_.historyOf(entry);
    beginAudit(history.empty() ? std::string{} : history.back().key);
    store(entry, std::nullopt, theirs);
    count(entry.kind);
}

void Merger::count(EntryKind kind, std::int64_t entries) {
    outcome_.added += entries;
    outcome_.addedOfKind[kind] += entries;
}

/// While an amendment that is already in the book is carried out, the file's own rules have nothing to add.
void Merger::beginAudit(const std::string& key) {
    const auto held = key.empty() ? std::nullopt : std::optional{key};
    Query{state_.file, "UPDATE hand SET key = ?"}.with(held).run();
}

void Merger::store(const EntryName& entry, const Value& from, const Value& to) {
    if (entry.kind == EntryKind::reading) {
        storeReading(entry, from, to);
    } else if (!to) {
        removeRow(entry);
    } else if (!from) {
        insertRow(entry, *to);
    } else {
        updateRow(entry, *to);
    }
}

namespace {

/// One group's readings mixed into another's book could not be told apart again.
void refuseOtherGroup(const Logbook& ours, const Logbook& theirs) {
    const auto group = ours.setting(setting::group);
    const auto other = theirs.setting(setting::group);
    if (!group.empty() && !other.empty() && group != other) {
        refuse("the other book is that of “" + other + "”, this one that of “" + group +
               "”, so nothing was brought in; where both are one group, give them the same name first");
    }
}

/// What is wrong with one of the two would be wrong with the book that comes of them.
void expectSound(const Logbook& book, const std::string& what) {
    const auto faults = book.check(sha256).faults;
    if (!faults.empty()) {
        throw LogbookError{LogbookError::Kind::damaged,
                           what + " is not sound, so nothing was brought in; a check says more. " + faults.front()};
    }
}

}  // namespace

MergeOutcome Logbook::merge(const Logbook& other, const MergeDecision& decide) {
    std::error_code notBothFiles;
    if (std::filesystem::equivalent(file(), other.file(), notBothFiles)) {
        return {};
    }
    refuseOtherGroup(*this, other);
    ReadTransaction moment{other.state_->file};
    Transaction transaction{state_->file};
    expectSound(other, "the other copy");
    expectSound(*this, "this book");
    auto outcome = Merger{*state_, *other.state_, decide}.run();
    transaction.commit();
    return outcome;
}

}  // namespace midden
