// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/core.h>

#include <algorithm>

#include "core/logbook/amendment_words.h"
#include "core/logbook/merger.h"

namespace midden {

namespace {

std::string textOf(const Value& value) {
    return value ? value->dump(-1, ' ', false, Json::error_handler_t::replace) : std::string{};
}

std::optional<std::int64_t> number(const Json& json, const char* field) {
    const auto found = json.find(field);
    return found != json.end() && found->is_number() ? std::optional{found->get<std::int64_t>()} : std::nullopt;
}

/// When a value came to stand: its last amendment, else when it was typed.
std::int64_t changedAt(const Value& value, const std::vector<Change>& history) {
    std::int64_t last = value ? number(*value, "entered").value_or(INT64_MIN) : INT64_MIN;
    for (const Change& change : history) {
        last = std::max(last, change.amended.utcSeconds);
    }
    return last;
}

/// Did this copy have that value once, and change it since?
bool hadOnce(const std::vector<Change>& history, const Value& value) {
    return std::any_of(history.begin(), history.end(), [&](const Change& change) { return change.was == value; });
}

Instant placeInTime(const Value& value, Instant otherwise) {
    for (const char* field : {"at", "started", "since"}) {
        if (value && number(*value, field)) {
            return {*number(*value, field)};
        }
    }
    return otherwise;
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
          "INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why) "
          "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT(key) DO NOTHING"}
        .with(change.key, change.entry.kind, ours_.ownName(change.entry), batch, bin, change.at, inOurWords(change.was),
              inOurWords(change.became), change.amended, change.who, change.why)
        .run();
}

void Merger::resolve(const EntryName& entry) {
    if (!settled_.insert(entry).second) {
        return;
    }
    Value ours = ours_.live(entry);
    Value theirs = theirs_.live(entry);
    const auto& ourHistory = ours_.historyOf(entry);
    const auto& theirHistory = theirs_.historyOf(entry);
    if (!theirs && theirHistory.empty()) {
        return;  // new to them
    }
    if (!ours && ourHistory.empty()) {
        takeOver(entry, theirs);
        return;
    }
    if (isSetUp(entry.kind) && ours.has_value() != theirs.has_value()) {
        bringBack(entry, ours ? ours : theirs, ours ? theirHistory : ourHistory);
        return;
    }
    if (entry.kind == EntryKind::batch) {
        shareBatch(entry, ours, theirs);
    }
    if (ours != theirs) {
        settle(entry, ours, theirs);
    }
}

void Merger::takeOver(const EntryName& entry, const Value& theirs) {
    if (!theirs) {
        return;
    }
    const auto& history = theirs_.historyOf(entry);
    holdPen(history.empty() ? std::string{} : history.back().key);
    store(entry, std::nullopt, theirs);
    ++outcome_.added;
}

/// What is no correction may be known to one copy only: a finish, and an earlier start where nobody gave one.
void Merger::shareBatch(const EntryName& batch, Value& ours, Value& theirs) {
    const Value before = ours;
    shareFinish(ours, theirs, ours_.historyOf(batch));
    shareFinish(theirs, ours, theirs_.historyOf(batch));
    shareStart(ours, theirs);
    shareStart(theirs, ours);
    if (ours != before) {
        updateRow(batch, *ours);
        moveFirstStay(batch, Instant{(*ours)["started"].get<std::int64_t>()});
        ++outcome_.changed;
    }
}

/// Both copies know the entry and differ. Whoever changed the other's value stands, whatever the clocks said; where
/// both went their own way, the later change.
void Merger::settle(const EntryName& entry, const Value& ours, const Value& theirs) {
    const auto& ourHistory = ours_.historyOf(entry);
    const auto& theirHistory = theirs_.historyOf(entry);
    const bool weKnewTheirs = hadOnce(ourHistory, theirs);
    const bool theyKnewOurs = hadOnce(theirHistory, ours);
    const auto ourChange = changedAt(ours, ourHistory);
    const auto theirChange = changedAt(theirs, theirHistory);
    const bool theirsIsLater = std::tuple{theirChange, theirs.has_value(), textOf(theirs)} >
                               std::tuple{ourChange, ours.has_value(), textOf(ours)};
    const bool theirsStands = weKnewTheirs == theyKnewOurs ? theirsIsLater : theyKnewOurs;
    std::string key = theirHistory.empty() ? std::string{} : theirHistory.back().key;
    if (!weKnewTheirs && !theyKnewOurs) {
        const auto latest = std::max(ourChange, theirChange);
        const Value& winner = theirsStands ? theirs : ours;
        const Value& loser = theirsStands ? ours : theirs;
        const Instant when = latest == INT64_MIN ? placeInTime(winner ? winner : loser, Instant{}) : Instant{latest};
        key = conflict(entry, loser, winner, when).key;
    }
    if (theirsStands) {
        holdPen(key);
        store(entry, ours, theirs);
        ++outcome_.changed;
    }
}

Change Merger::conflict(const EntryName& entry, const Value& loser, const Value& winner, Instant when) {
    Change change;
    change.key =
        keyFrom(fmt::format("{} {}\n{}\n{}", static_cast<int>(entry.kind), entry.name, textOf(loser), textOf(winner)));
    change.entry = entry;
    change.at = placeInTime(loser ? loser : winner, when);
    change.was = loser;
    change.became = winner;
    change.amended = when;
    change.why = "two copies of the book differed";
    importAmendment(change);
    AmendmentRow row;
    row.kind = entry.kind;
    row.at = change.at;
    row.was = loser ? textOf(ours_.own(entry, *loser, true)) : std::string{};
    row.became = winner ? textOf(ours_.own(entry, *winner, true)) : std::string{};
    row.amended = when;
    row.why = change.why;
    outcome_.conflicts.push_back(inWords(row, BatchId{}));
    outcome_.conflicts.back().batch.reset();
    return change;
}

/// A bin, probe or batch that one copy withdrew stays, because the other still has it.
void Merger::bringBack(const EntryName& entry, const Value& live, const std::vector<Change>& history) {
    Change change;
    change.key = keyFrom(fmt::format("back {} {}", entry.name, history.empty() ? "" : history.back().key));
    change.entry = entry;
    change.amended = history.empty() ? Instant{} : history.back().amended;
    change.at = placeInTime(live, change.amended);
    change.became = live;
    change.why = "another copy of the book still has it";
    importAmendment(change);
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

MergeOutcome Logbook::merge(const Logbook& other) {
    std::error_code notBothFiles;
    if (std::filesystem::equivalent(file(), other.file(), notBothFiles)) {
        return {};
    }
    ReadTransaction moment{other.state_->file};
    Transaction transaction{state_->file};
    auto outcome = Merger{*state_, *other.state_}.run();
    transaction.commit();
    return outcome;
}

}  // namespace midden
