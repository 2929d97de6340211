// SPDX-License-Identifier: GPL-3.0-or-later
// Merging bins, probes, batches, their stays, certificates and settings.
#include <fmt/core.h>

#include <algorithm>
#include <array>

#include "core/logbook/merger.h"

namespace midden {

namespace {

struct Named {
    std::int64_t id = 0;
    std::string key;
    std::string name;
};

std::vector<Named> namedIn(DatabaseFile& file, const std::string& table) {
    std::vector<Named> all;
    Query query{file, kept("SELECT id, key, name FROM " + table + " ORDER BY id")};
    while (query.next()) {
        all.push_back({query.number(0), query.text(1), query.text(2)});
    }
    return all;
}

/// Numbers of what was withdrawn: old amendments still speak of them.
void addWithdrawn(MergeSide& side, const std::string& table, EntryKind kind) {
    Query query{side.file,
                "SELECT DISTINCT json_extract(was, '$.id'), entry FROM amendment "
                "WHERE kind = ? AND became IS NULL AND json_extract(was, '$.id') IS NOT NULL"};
    query.with(kind);
    while (query.next()) {
        side.keys.add(table, query.number(0), side.sharedName(kind, query.text(1)));
    }
}

const Named* findBy(const std::vector<Named>& all, std::string Named::*field, const std::string& value) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const Named& one) { return one.*field == value; });
    return found == all.end() ? nullptr : &*found;
}

using StayPlaces = std::map<std::int64_t, std::string>;  // since, and the bin's shared key

StayPlaces staysOf(const MergeSide& side, const EntryName& batch) {
    StayPlaces stays;
    Query query{side.file, "SELECT since, bin FROM stay WHERE batch = ?"};
    query.with(side.keys.idOf("batch", batch.name));
    while (query.next()) {
        stays[query.number(0)] = side.keys.sharedKey("bin", query.number(1));
    }
    return stays;
}

/// The amendment by which a copy took this stay back.
const Change* takenBack(const MergeSide& side, const EntryName& batch, std::int64_t since, const std::string& bin) {
    for (const Change& change : side.historyOf(batch)) {
        if (change.was && change.was->contains("since") && (*change.was)["since"] == since &&
            (*change.was)["bin"] == bin) {
            return &change;
        }
    }
    return nullptr;
}

}  // namespace

void Merger::pairAll() {
    pair("bin");
    pair("probe");
    pair("batch");
    for (MergeSide* side : {&ours_, &theirs_}) {
        addWithdrawn(*side, "bin", EntryKind::bin);
        addWithdrawn(*side, "probe", EntryKind::probe);
        addWithdrawn(*side, "batch", EntryKind::batch);
    }
    for (MergeSide* side : {&ours_, &theirs_}) {  // what stands wins over what was withdrawn
        for (const char* table : {"bin", "probe", "batch"}) {
            for (const Named& one : namedIn(side->file, table)) {
                side->keys.add(table, one.id, side->sharedName(EntryKind::bin, one.key));
            }
        }
    }
}

/// Where only the names agree both keep their own key, and the smaller one is what the merge calls them.
void Merger::pair(const std::string& table) {
    const auto ours = namedIn(ours_.file, table);
    const auto theirs = namedIn(theirs_.file, table);
    for (const Named& their : theirs) {
        const Named* our = findBy(ours, &Named::name, their.name);
        if (our == nullptr || findBy(ours, &Named::key, their.key) != nullptr ||
            findBy(theirs, &Named::key, our->key) != nullptr) {
            continue;
        }
        const auto& shared = std::min(our->key, their.key);
        for (auto [side, own] : {std::pair{&ours_, our->key}, std::pair{&theirs_, their.key}}) {
            side->ownKeyToShared[own] = shared;
            side->sharedKeyToOwn[shared] = own;
        }
    }
}

void Merger::insertMissing(EntryKind kind) {
    const std::string table = shapeOf(kind).table;
    for (const EntryName& entry : theirs_.entriesOf(kind)) {
        if (ours_.live(entry)) {
            continue;
        }
        const auto live = theirs_.live(entry);
        if (!ours_.historyOf(entry).empty()) {
            bringBack(entry, live, ours_.historyOf(entry));
            holdPen(keyFrom(fmt::format("back {} {}", entry.name, ours_.historyOf(entry).back().key)));
        } else {
            ++outcome_.added;
        }
        insertRow(entry, *live);
        holdPen({});
        ours_.keys.add(table, state_.file.number("SELECT last_insert_rowid()"), entry.name);
    }
}

void Merger::mergeStays() {
    // Deletions first: a bin may be free again for another batch at that very instant.
    const auto batches = theirs_.entriesOf(EntryKind::batch);
    for (const EntryName& batch : batches) {
        for (const auto& [since, bin] : staysOf(ours_, batch)) {
            const Change* gone = takenBack(theirs_, batch, since, bin);
            const auto theirs = staysOf(theirs_, batch);
            const bool theyHaveIt = theirs.contains(since) && theirs.at(since) == bin;
            if (gone != nullptr && !theyHaveIt) {
                holdPen(gone->key);
                Query{state_.file, "DELETE FROM stay WHERE batch = ? AND since = ?"}
                    .with(ours_.keys.idOf("batch", batch.name), since)
                    .run();
            }
        }
    }
    for (const EntryName& batch : batches) {
        mergeStaysOf(batch);
        dropImpossibleStays(batch);
    }
    holdPen({});
}

void Merger::mergeStaysOf(const EntryName& batch) {
    const auto id = ours_.keys.idOf("batch", batch.name);
    const auto ours = staysOf(ours_, batch);
    for (const auto& [since, bin] : staysOf(theirs_, batch)) {
        const auto here = ours.find(since);
        if (here != ours.end() && here->second == bin) {
            continue;
        }
        if (here == ours.end() && takenBack(ours_, batch, since, bin) != nullptr) {
            continue;
        }
        const Json theirs{{"batch", batch.name}, {"since", since}, {"bin", bin}};
        if (here == ours.end()) {
            const auto binId = ours_.keys.idOf("bin", bin);
            Query taken{state_.file,
                        "SELECT b.name FROM stay s JOIN batch b ON b.id = s.batch WHERE s.bin = ? AND s.since = ?"};
            taken.with(binId, since);
            if (taken.next()) {
                refuse("the copies have different batches come to one bin at " + isoUtc({since}) +
                       "; one of them is “" + taken.text(0) + "”: give both the same name, or correct one start");
            }
            Query{state_.file, "INSERT INTO stay(batch, since, bin) VALUES (?, ?, ?)"}.with(id, since, binId).run();
            continue;
        }
        const Json own{{"batch", batch.name}, {"since", since}, {"bin", here->second}};
        const bool theirsStands = bin > here->second;
        const auto change = conflict(batch, theirsStands ? own : theirs, theirsStands ? theirs : own, {since});
        if (theirsStands) {
            holdPen(change.key);
            Query{state_.file, "UPDATE stay SET bin = ? WHERE batch = ? AND since = ?"}
                .with(ours_.keys.idOf("bin", bin), id, since)
                .run();
        }
    }
}

/// When one copy's start or finish gave way to the other's, its stays outside them go.
void Merger::dropImpossibleStays(const EntryName& batch) {
    const auto id = ours_.keys.idOf("batch", batch.name);
    Query started{state_.file, "SELECT started, ifnull(finished, 9223372036854775807) FROM batch WHERE id = ?"};
    started.with(id);
    started.next();
    const Instant start{started.number(0)};
    const Instant finish{started.number(1)};
    for (const auto& [since, bin] : staysOf(ours_, batch)) {
        if (Instant{since} < start || Instant{since} > finish) {
            const auto change =
                conflict(batch, Json{{"batch", batch.name}, {"since", since}, {"bin", bin}}, std::nullopt, start);
            holdPen(change.key);
            Query{state_.file, "DELETE FROM stay WHERE batch = ? AND since = ?"}.with(id, since).run();
        }
    }
}

void Merger::mergeCertificates() {
    Query theirs{
        theirs_.file,
        "SELECT number, batch, issued, digest, supersedes, canonical FROM certificate ORDER BY issued, number"};
    while (theirs.next()) {
        const auto batch = ours_.keys.idOf("batch", theirs_.keys.sharedKey("batch", theirs.number(1)));
        outcome_.added +=
            Query{state_.file,
                  "INSERT INTO certificate(number, batch, issued, digest, supersedes, canonical) "
                  "VALUES (?, ?, ?, ?, ?, ?) ON CONFLICT(number) DO NOTHING"}
                .with(theirs.text(0), batch, theirs.number(2), theirs.text(3), theirs.text(4), theirs.text(5))
                .run();
    }
}

/// Settings are each copy's own; only those it never set are taken over.
void Merger::mergeSettings() {
    Query theirs{theirs_.file, "SELECT name, value FROM setting"};
    while (theirs.next()) {
        Query{state_.file, "INSERT INTO setting(name, value) VALUES (?, ?) ON CONFLICT(name) DO NOTHING"}
            .with(theirs.text(0), theirs.text(1))
            .run();
    }
}

}  // namespace midden
