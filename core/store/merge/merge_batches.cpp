// SPDX-License-Identifier: GPL-3.0-or-later
// Merging what is said of a batch: its name, its first bin, its start, its finish and its note are settled each by
// itself, so that a correction of one does not undo what another copy knows of the other.
#include <algorithm>
#include <array>

#include "core/store/merge/merger.h"

namespace midden {

namespace {

const std::array<Fields, 6>& fieldsOfBatch() {
    static const std::array<Fields, 6> fields{{{"name"},
                                               {"bin"},
                                               {"note"},
                                               {"fed"},
                                               {"started", "started_offset", "start_given"},
                                               {"finished", "finished_offset"}}};
    return fields;
}

auto weight(const MergeSide& book, const Json& value, const Fields& fields) {
    return std::pair{mergePriority(value, fields),
                     book.inNames(partOf(value, fields)).dump(-1, ' ', false, Json::error_handler_t::replace)};
}

/// The corrections of these fields.
Changes changesOf(const Changes& history, const Fields& fields) {
    Changes changes;
    for (const Change& change : history) {
        if (change.was && change.became && !isOfMove(change) &&
            partOf(*change.was, fields) != partOf(*change.became, fields)) {
            changes.push_back(change);
        }
    }
    return changes;
}

/// The last correction that people made.
const Change* lastOf(const MergeSide& book, const Changes& changes, const Fields& fields) {
    const Change* last = nullptr;
    for (const Change& change : changes) {
        if (change.rank && (last == nullptr || std::pair{*change.rank, weight(book, *change.became, fields)} >
                                                   std::pair{*last->rank, weight(book, *last->became, fields)})) {
            last = &change;
        }
    }
    return last;
}

Json with(Json value, const Json& other, const Fields& fields) {
    for (const std::string& field : fields) {
        value[field] = other[field];
    }
    return value;
}

}  // namespace

Json partOf(const Json& value, const std::vector<std::string>& fields) {
    Json part = Json::object();
    for (const std::string& field : fields) {
        const auto found = value.find(field);
        part[field] = found == value.end() ? Json{} : *found;
    }
    return part;
}

std::int64_t mergePriority(const Json& value, const std::vector<std::string>& fields) {
    if (fields.front() == "finished") {
        return value["finished"].is_null() ? 0 : 1;
    }
    if (fields.front() == "started") {
        return value["start_given"] == 0 ? -value["started"].get<std::int64_t>() : INT64_MAX;
    }
    return 0;
}

bool isOfMove(const Change& change) {
    return (change.was ? *change.was : *change.became).contains("since");
}

/// The amendments by which either copy withdrew it: they tell what that copy knew of it.
std::vector<const Change*> Merger::withdrawalsHeard(const EntryName& batch) const {
    std::vector<const Change*> heard;
    for (const MergeSide* side : {&ours_, &theirs_}) {
        for (const Change& change : side->historyOf(batch)) {
            if (!change.became && !isOfMove(change)) {
                heard.push_back(&change);
            }
        }
    }
    std::sort(heard.begin(), heard.end(), [](const Change* a, const Change* b) { return a->key < b->key; });
    return heard;
}

bool Merger::isInBook(const MergeSide& side, const EntryName& batch) const {
    return side.live(batch) && (&side != &ours_ || !returned_.contains(batch));
}

/// `theirs` is ours where they withdrew it.
void Merger::resolveBatch(const EntryName& batch, const Json& ours, const Json& theirs) {
    Joined joined{ours, {}};
    for (const Fields& fields : fieldsOfBatch()) {
        settleFields(batch, joined, {ours, theirs}, fields);
        hearWithdrawn(batch, joined, fields);
    }
    hearIdleFinish(batch, joined);
    dropEarlyFinish(batch, joined);
    if (joined.value == ours) {
        return;
    }
    beginAudit(joined.key);
    updateRow(batch, joined.value);
    beginAudit({});
    ++outcome_.changed;
}

/// What is noted differs in these fields only, and reads the same in whichever direction the copies are merged.
void Merger::settleFields(const EntryName& batch, Joined& joined, const TwoValues& copies, const Fields& fields) {
    if (partOf(copies.ours, fields) == partOf(copies.theirs, fields)) {
        return;
    }
    const Json& common = std::min(copies.ours, copies.theirs);
    const auto [theirsStands, key] = settle(
        batch, {with(common, copies.ours, fields), with(common, copies.theirs, fields),
                changesOf(ours_.historyOf(batch), fields), changesOf(theirs_.historyOf(batch), fields), &fields});
    if (theirsStands) {
        joined = {with(joined.value, copies.theirs, fields), key.empty() ? joined.key : key};
    }
}

/// What a copy knew of a batch that it has no more: the last correction, or else what its withdrawal told. A finish,
/// for one, leaves no amendment of its own.
void Merger::hearWithdrawn(const EntryName& batch, Joined& joined, const Fields& fields) {
    const auto ours = changesOf(ours_.historyOf(batch), fields);
    const auto theirs = changesOf(theirs_.historyOf(batch), fields);
    const auto ofLiving = std::max(isInBook(ours_, batch) ? highestRank(ours) : INT64_MIN,
                                   isInBook(theirs_, batch) ? highestRank(theirs) : INT64_MIN);
    Changes known = ours;
    known.insert(known.end(), theirs.begin(), theirs.end());
    if (const Change* last = lastOf(ours_, known, fields)) {
        if (last->rank > ofLiving || weight(ours_, *last->became, fields) > weight(ours_, joined.value, fields)) {
            joined = {with(joined.value, *last->became, fields), last->key};
        }
        return;
    }
    for (const Change* withdrawal : withdrawalsHeard(batch)) {
        Json told = *withdrawal->was;
        told.erase("moves");
        if (partOf(told, fields) == partOf(joined.value, fields)) {
            continue;
        }
        const auto [itStands, key] = settle(batch, {with(told, joined.value, fields), told, known, known, &fields});
        if (itStands) {
            joined = {with(joined.value, told, fields), key.empty() ? withdrawal->key : key};
        }
    }
}

/// Whoever finished the batch in a book that had such a finish knew of it.
bool Merger::isAnswered(const EntryName& batch, const Change& idleFinish) const {
    for (const MergeSide* side : {&ours_, &theirs_}) {
        const auto& history = side->historyOf(batch);
        const bool knew = std::any_of(history.begin(), history.end(),
                                      [&](const Change& change) { return change.key == idleFinish.key; });
        const Value live = side->live(batch);
        if (knew && live && !(*live)["finished"].is_null()) {
            return true;
        }
    }
    return false;
}

/// A finish that did not count when other copies met may count now.
void Merger::hearIdleFinish(const EntryName& batch, Joined& joined) {
    const Fields& fields = fieldsOfBatch().back();
    const auto known = std::max(highestRank(changesOf(ours_.historyOf(batch), fields)),
                                highestRank(changesOf(theirs_.historyOf(batch), fields)));
    for (const MergeSide* side : {&ours_, &theirs_}) {
        for (const Change& change : side->historyOf(batch)) {
            if (change.why != finishedTooEarly || change.rank || !change.was || isAnswered(batch, change)) {
                continue;
            }
            const bool isNewest = change.was->value(rankOfFinish, INT64_MIN) >= known;
            if (isNewest && weight(ours_, *change.was, fields) > weight(ours_, joined.value, fields)) {
                joined = {with(joined.value, *change.was, fields), change.key};
            }
        }
    }
}

/// A batch cannot be finished before it began. Which of the two is wrong no merge can know: the start stands, and the
/// finish is kept as an amendment, with the rank it had.
void Merger::dropEarlyFinish(const EntryName& batch, Joined& joined) {
    const Json& value = joined.value;
    if (value["finished"].is_null() || value["finished"] >= value["started"]) {
        return;
    }
    const Fields& fields = fieldsOfBatch().back();
    Json unfinished = partOf(value, {"name", "started", "started_offset"});
    Json early = with(unfinished, value, fields);
    const auto rank = std::max(highestRank(changesOf(ours_.historyOf(batch), fields)),
                               highestRank(changesOf(theirs_.historyOf(batch), fields)));
    if (rank != INT64_MIN) {
        early[rankOfFinish] = rank;
    }
    joined.key = noteDropped(batch, early, unfinished, finishedTooEarly);
    joined.value["finished"] = nullptr;
    joined.value["finished_offset"] = nullptr;
}

}  // namespace midden
