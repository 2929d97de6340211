// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "core/logbook/merger.h"

namespace midden {

namespace {

std::string textOf(const Value& value) {
    return value ? value->dump(-1, ' ', false, Json::error_handler_t::replace) : std::string{};
}

/// A batch's history without that of its stays, which are settled by themselves; of what is set up, only what was said
/// of it while it was there.
Changes ownHistory(const EntryName& entry, const Changes& history) {
    Changes own;
    for (const Change& change : history) {
        const Value& value = change.became ? change.became : change.was;
        if (!value->contains("since") && (change.became || !isSetUp(entry.kind))) {
            own.push_back(change);
        }
    }
    return own;
}

/// Finishing a batch is no correction, so only one copy may know of it: it holds for both, unless taken back.
void shareFinish(Value& value, const Value& other, const std::vector<Change>& history) {
    if (!value || !other || !(*value)["finished"].is_null() || (*other)["finished"].is_null()) {
        return;
    }
    const bool takenBack = std::any_of(history.begin(), history.end(), [](const Change& change) {
        return change.was && change.was->contains("finished") && !(*change.was)["finished"].is_null();
    });
    if (!takenBack) {
        (*value)["finished"] = (*other)["finished"];
        (*value)["finished_offset"] = (*other)["finished_offset"];
    }
}

/// A start that nobody gave stands at the earliest entry of either copy.
void shareStart(Value& value, const Value& other) {
    if (value && other && (*value)["start_given"] == 0 && (*other)["start_given"] == 0 &&
        (*other)["started"] < (*value)["started"]) {
        (*value)["started"] = (*other)["started"];
        (*value)["started_offset"] = (*other)["started_offset"];
    }
}

}  // namespace

MergeOutcome Merger::run() {
    pairAll();
    ours_.readHistory();
    theirs_.readHistory();
    for (const EntryKind kind : {EntryKind::bin, EntryKind::probe, EntryKind::batch}) {
        insertMissing(kind);
    }
    importAmendments();
    for (const EntryKind kind : {EntryKind::bin, EntryKind::probe, EntryKind::batch}) {
        for (const EntryName& entry : theirs_.entriesOf(kind)) {
            resolve(entry);
        }
    }
    mergeStays();
    std::set<EntryName> entries;
    for (const EntryKind kind :
         {EntryKind::addition, EntryKind::aeration, EntryKind::observation, EntryKind::check, EntryKind::place}) {
        const auto present = theirs_.entriesOf(kind);
        entries.insert(present.begin(), present.end());
    }
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
          "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT(key) DO NOTHING"}
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
    } else if (isSetUp(entry.kind) && ours.has_value() != theirs.has_value()) {
        resolveSetUp(entry, ours, theirs);
    } else {
        resolveBoth(entry, {ours, theirs, ownHistory(entry, ourHistory), ownHistory(entry, theirHistory)});
    }
}

/// Only one copy still has it. It goes, unless it is in use there.
void Merger::resolveSetUp(const EntryName& entry, const Value& ours, const Value& theirs) {
    if (ours && !isUsed(ours_, entry)) {
        withdrawSetUp(entry);
    } else if (ours) {
        bringBack(entry, ours, theirs_.historyOf(entry));
    } else if (isUsed(theirs_, entry)) {
        bringBack(entry, theirs, ours_.historyOf(entry));
    }
}

void Merger::resolveBoth(const EntryName& entry, Sides sides) {
    if (entry.kind == EntryKind::batch) {
        shareBatch(entry, sides);
    }
    if (sides.ours == sides.theirs) {
        return;
    }
    const auto [theirsStands, key] = settle(entry, sides);
    if (theirsStands) {
        holdPen(key);
        store(entry, sides.ours, sides.theirs);
        ++outcome_.changed;
    }
}

void Merger::takeOver(const EntryName& entry, const Value& theirs) {
    if (!theirs) {
        return;
    }
    const auto& history = theirs_.historyOf(entry);
    holdPen(history.empty() ? std::string{} : history.back().key);
    store(entry, std::nullopt, theirs);
    count(entry.kind);
}

void Merger::count(EntryKind kind, std::int64_t entries) {
    outcome_.added += entries;
    outcome_.addedOfKind[kind] += entries;
}

/// What is no correction may be known to one copy only: a finish, and an earlier start where nobody gave one.
void Merger::shareBatch(const EntryName& batch, Sides& sides) {
    const Value before = sides.ours;
    shareFinish(sides.ours, sides.theirs, sides.ourHistory);
    shareFinish(sides.theirs, sides.ours, sides.theirHistory);
    shareStart(sides.ours, sides.theirs);
    shareStart(sides.theirs, sides.ours);
    if (sides.ours != before) {
        updateRow(batch, *sides.ours);
        moveFirstStay(batch, Instant{(*sides.ours)["started"].get<std::int64_t>()});
        ++outcome_.changed;
    }
}

/// While an amendment that is already in the book is carried out, the file's own rules have nothing to add.
void Merger::holdPen(const std::string& key) {
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
    const auto group = ours.setting("group");
    const auto other = theirs.setting("group");
    if (!group.empty() && !other.empty() && group != other) {
        refuse("the other book is that of “" + other + "”, this one that of “" + group +
               "”, so nothing was brought in; where both are one group, give them the same name first");
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
    auto outcome = Merger{*state_, *other.state_, decide}.run();
    transaction.commit();
    return outcome;
}

}  // namespace midden
