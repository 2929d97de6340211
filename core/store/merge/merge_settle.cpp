// SPDX-License-Identifier: GPL-3.0-or-later
// Which value of an entry stands where two copies differ, and how the book keeps the other.
#include <fmt/core.h>

#include <algorithm>

#include "core/store/entries/amendment_words.h"
#include "core/store/logbook.h"
#include "core/store/merge/merger.h"

namespace midden {

namespace {

std::string textOf(const Value& value) {
    return value ? value->dump(-1, ' ', false, Json::error_handler_t::replace) : std::string{};
}

std::optional<std::int64_t> number(const Json& json, const char* field) {
    const auto found = json.find(field);
    return found != json.end() && found->is_number() ? std::optional{found->get<std::int64_t>()} : std::nullopt;
}

/// Who wrote it and when does not change what a value says. Neither does what is no correction: a finish not known yet,
/// and when a batch began whose start nobody gave. `only`, where given, are the fields in question.
bool sayTheSame(const Value& one, const Value& other, const Fields* only) {
    if (!one || !other) {
        return one.has_value() == other.has_value();
    }
    std::vector<std::string> beside{"who", "entered", "source"};
    if (one->contains("finished") && other->contains("finished") &&
        ((*one)["finished"].is_null() || (*other)["finished"].is_null())) {
        beside.insert(beside.end(), {"finished", "finished_offset"});
    }
    if (number(*one, "start_given") == 0 && number(*other, "start_given") == 0) {
        beside.insert(beside.end(), {"started", "started_offset"});
    }
    Json a = only == nullptr ? *one : partOf(*one, *only);
    Json b = only == nullptr ? *other : partOf(*other, *only);
    for (const std::string& field : beside) {
        a.erase(field);
        b.erase(field);
    }
    return a == b;
}

/// Did this copy have that value once, and change it since?
bool hadOnce(const Changes& history, const Value& value, const Fields* only) {
    return std::any_of(history.begin(), history.end(),
                       [&](const Change& change) { return sayTheSame(change.was, value, only); });
}

/// A total order, the same in every copy: corrected before untouched, then the later, then whatever tells them apart.
/// `value` is in names.
auto weight(const Value& value, const Changes& history, const Fields* only) {
    const auto entered = value ? number(*value, "entered").value_or(INT64_MIN) : INT64_MIN;
    const Value part = value && only != nullptr ? Value{partOf(*value, *only)} : value;
    const auto leans = value && only != nullptr ? mergePriority(*value, *only) : 0;
    return std::tuple{highestRank(history), entered, value.has_value(), leans, textOf(part)};
}

/// The last change that people made, by which the value came to stand.
const Change* lastChange(const Changes& history) {
    const Change* last = nullptr;
    for (const Change& change : history) {
        if (change.rank && (last == nullptr || *change.rank >= *last->rank)) {
            last = &change;
        }
    }
    return last;
}

std::optional<Instant> changedAt(const Value& value, const Changes& history) {
    if (const Change* last = lastChange(history)) {
        return last->amended;
    }
    const auto entered = value ? number(*value, "entered") : std::nullopt;
    return entered ? std::optional{Instant{*entered}} : std::nullopt;
}

std::string changedBy(const Value& value, const Changes& history) {
    const Change* last = lastChange(history);
    return last != nullptr ? last->who : value ? value->value("who", "") : std::string{};
}

Instant placeInTime(const Value& value, Instant otherwise) {
    for (const char* field : {"at", "started", "since"}) {
        if (value && number(*value, field)) {
            return {*number(*value, field)};
        }
    }
    return otherwise;
}

/// What both copies had before one of them changed it.
Value lastShared(const Changes& one, const Changes& other) {
    for (const Change& change : one) {
        const bool isKnown =
            std::any_of(other.begin(), other.end(), [&](const Change& theirs) { return theirs.key == change.key; });
        if (!isKnown && change.rank) {
            return change.was;
        }
    }
    return std::nullopt;
}

}  // namespace

std::int64_t highestRank(const Changes& history) {
    std::int64_t highest = INT64_MIN;
    for (const Change& change : history) {
        highest = std::max(highest, change.rank.value_or(INT64_MIN));
    }
    return highest;
}

/// Both copies know the entry and differ.
Merger::Verdict Merger::settle(const EntryName& entry, const Sides& sides) {
    const bool theirsStands = weight(inNames(sides.theirs), sides.theirHistory, sides.only) >
                              weight(inNames(sides.ours), sides.ourHistory, sides.only);
    const Changes& winning = theirsStands ? sides.theirHistory : sides.ourHistory;
    const Value& loser = theirsStands ? sides.ours : sides.theirs;
    const bool saysTheSame = sayTheSame(sides.ours, sides.theirs, sides.only);
    if (!hadOnce(winning, loser, sides.only) && !saysTheSame) {
        return decideConflict(entry, sides, theirsStands);
    }
    if (const Change* last = lastChange(winning)) {
        return {theirsStands, last->key};  // what people changed is in the book already
    }
    if (sides.only != nullptr && saysTheSame) {
        return {theirsStands, {}};  // no correction, so there is nothing to keep
    }
    // The same number from two hands: no conflict, but both hands are kept.
    return {theirsStands, noteGivenWay(entry, loser, theirsStands ? sides.theirs : sides.ours, sides)};
}

/// As this book calls its bins, batches and probes now that those of both copies are in it.
Value Merger::inNames(const Value& value) const {
    return value ? Value{ours_.inNames(*value)} : value;
}

Merger::Verdict Merger::decideConflict(const EntryName& entry, const Sides& sides, bool theirsStands) {
    const Value& winner = theirsStands ? sides.theirs : sides.ours;
    const Value& loser = theirsStands ? sides.ours : sides.theirs;
    MergeConflict conflict = inWordsOf(entry, sides);
    conflict.key = noteGivenWay(entry, loser, winner, sides);
    conflict.theirsStands = theirsStands;
    std::string key = conflict.key;
    const auto wish = decide_ ? decide_(conflict) : Stands::byTheRule;
    if (wish != Stands::byTheRule && (wish == Stands::theirs) != theirsStands) {
        conflict.theirsStands = !theirsStands;
        key = noteChoice(entry, winner, loser, sides);
    }
    outcome_.conflicts.push_back(conflict);
    return {conflict.theirsStands, key};
}

MergeConflict Merger::inWordsOf(const EntryName& entry, const Sides& sides) const {
    const auto inWords = [&](const Value& was, const Value& became) {
        AmendmentRow row;
        row.kind = entry.kind;
        row.was = was ? textOf(ours_.own(entry, *was, true)) : std::string{};
        row.became = became ? textOf(ours_.own(entry, *became, true)) : std::string{};
        return midden::inWords(row, BatchId{});
    };
    const auto both = inWords(sides.ours, sides.theirs);
    MergeConflict conflict;
    conflict.kind = entry.kind;
    conflict.at = placeInTime(sides.ours ? sides.ours : sides.theirs, Instant{});
    conflict.subject = both.subject;
    conflict.ours = {both.was, changedBy(sides.ours, sides.ourHistory), changedAt(sides.ours, sides.ourHistory)};
    conflict.theirs = {both.became, changedBy(sides.theirs, sides.theirHistory),
                       changedAt(sides.theirs, sides.theirHistory)};
    auto before = lastShared(sides.ourHistory, sides.theirHistory);
    if (!before) {
        before = lastShared(sides.theirHistory, sides.ourHistory);
    }
    if (before) {
        conflict.before = inWords(before, sides.ours ? sides.ours : sides.theirs).was;
    }
    return conflict;
}

/// What both directions of a merge write alike.
std::string Merger::noteGivenWay(const EntryName& entry, const Value& loser, const Value& winner, const Sides& sides,
                                 const char* why) {
    Change change;
    change.entry = entry;
    const auto latest = std::max(changedAt(sides.ours, sides.ourHistory), changedAt(sides.theirs, sides.theirHistory));
    change.amended = latest.value_or(placeInTime(winner ? winner : loser, Instant{}));
    change.key = keyFrom(fmt::format("{} {} {}\n{}\n{}", static_cast<int>(entry.kind), entry.name,
                                     change.amended.utcSeconds, textOf(loser), textOf(winner)));
    change.at = placeInTime(loser ? loser : winner, change.amended);
    change.was = loser;
    change.became = winner;
    change.why = why;
    importAmendment(change);
    return change.key;
}

/// A choice is a correction like any other, made by whoever merges.
std::string Merger::noteChoice(const EntryName& entry, const Value& from, const Value& to, const Sides& sides) {
    const auto known = std::max(highestRank(sides.ourHistory), highestRank(sides.theirHistory));
    Change change;
    change.entry = entry;
    change.amended = state_.clock().value_or(changedAt(from, {}).value_or(placeInTime(from ? from : to, Instant{})));
    change.at = placeInTime(from ? from : to, change.amended);
    change.was = from;
    change.became = to;
    change.who = state_.who;
    change.why = "chosen when two copies of the book were brought together";
    change.rank = known == INT64_MIN ? change.amended.utcSeconds : std::max(change.amended.utcSeconds, known + 1);
    change.key = keyFrom(fmt::format("choice {} {}\n{}\n{}", *change.rank, change.who, textOf(from), textOf(to)));
    importAmendment(change);
    return change.key;
}

/// Where an earlier merge said so.
const Change* Merger::noteOf(const EntryName& entry, const Json& dropped, const char* why) const {
    static const Fields dropping{"since", "bin", "finished", "finished_offset", rankOfFinish};
    for (const MergeSide* side : {&ours_, &theirs_}) {
        for (const Change& change : side->historyOf(entry)) {
            if (!change.rank && change.was && change.why == why &&
                partOf(*change.was, dropping) == partOf(dropped, dropping)) {
                return &change;
            }
        }
    }
    return nullptr;
}

/// What does not count, now that something else has been decided. People are told of it once. Returns the key of the
/// amendment that says so.
std::string Merger::noteDropped(const EntryName& entry, const Json& dropped, const Value& instead, const char* why) {
    if (const Change* noted = noteOf(entry, dropped, why)) {
        return noted->key;
    }
    const Sides sides{dropped, instead, {}, {}};
    MergeConflict conflict = inWordsOf(entry, sides);
    conflict.key = noteGivenWay(entry, dropped, instead, sides, why);
    conflict.theirsStands = true;
    conflict.isChoice = false;
    outcome_.conflicts.push_back(conflict);
    return conflict.key;
}

}  // namespace midden
