// SPDX-License-Identifier: GPL-3.0-or-later
// What the copies call the same, and merging what only one of them has: bins, probes, batches, certificates, settings.
#include <fmt/core.h>

#include <algorithm>
#include <array>

#include "core/store/merge/merger.h"

namespace midden {

namespace {

struct Named {
    std::int64_t id = 0;
    std::string key;
    std::string name;
};

std::vector<Named> namedIn(DatabaseFile& file, const std::string& table) {
    std::vector<Named> all;
    Query query{file, interned("SELECT id, key, name FROM " + table + " ORDER BY id")};
    while (query.next()) {
        all.push_back({query.number(0), query.text(1), query.text(2)});
    }
    return all;
}

/// Numbers of what was withdrawn: old amendments still speak of them.
void addWithdrawn(MergeSide& side, const std::string& table, EntryKind kind) {
    Query query{side.file,
                "SELECT DISTINCT amended_field(was, 'id'), entry FROM amendment "
                "WHERE kind = ? AND became IS NULL AND amended_field(was, 'id') IS NOT NULL"};
    query.with(kind);
    while (query.next()) {
        side.keys.add(table, query.number(0), side.sharedName(kind, query.text(1)));
    }
}

const Named* findBy(const std::vector<Named>& all, std::string Named::*field, const std::string& value) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const Named& one) { return one.*field == value; });
    return found == all.end() ? nullptr : &*found;
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

/// What was withdrawn here comes back for now: only when all else is in the book is it seen whether it goes.
void Merger::insertMissing(EntryKind kind) {
    for (const EntryName& entry : theirs_.entriesOf(kind)) {
        if (ours_.live(entry)) {
            continue;
        }
        const auto& history = ours_.historyOf(entry);
        if (history.empty()) {
            count(kind);
        } else {
            returned_.insert(entry);
            beginAudit(history.back().key);
        }
        insertRow(entry, *theirs_.live(entry));
        beginAudit({});
        ours_.keys.add(shapeOf(kind).table, state_.file.number("SELECT last_insert_rowid()"), entry.name);
    }
}

void Merger::mergeCertificates() {
    Query theirs{
        theirs_.file,
        "SELECT number, batch, issued, digest, supersedes, canonical FROM certificate ORDER BY issued, number"};
    while (theirs.next()) {
        const auto batch = ours_.keys.idOf("batch", theirs_.keys.sharedKey("batch", theirs.number(1)));
        outcome_.certificates +=
            Query{state_.file,
                  "INSERT INTO certificate(number, batch, issued, digest, supersedes, canonical) "
                  "SELECT ?1, ?2, ?3, ?4, ?5, ?6 WHERE NOT EXISTS (SELECT 1 FROM certificate WHERE number = ?1)"}
                .with(theirs.text(0), batch, theirs.number(2), theirs.text(3), theirs.text(4), theirs.text(5))
                .run();
    }
}

/// Which additions are read with the list of materials of before: as many as either copy says, so that copies may meet
/// in any order. A copy that does not say reads all of its own so.
void Merger::mergeMaterialsSince() {
    constexpr const char* said = "SELECT CAST(value AS INTEGER) FROM setting WHERE name = 'materials_since'";
    const auto saidIn = [&](DatabaseFile& file) -> std::optional<std::int64_t> {
        Query query{file, said};
        return query.next() ? query.maybeNumber(0) : std::nullopt;
    };
    const auto effectiveIn = [&](DatabaseFile& file) {
        Query query{file, "SELECT max(at) + 1 FROM addition"};
        const auto last = query.next() ? query.maybeNumber(0) : std::nullopt;
        return saidIn(file).value_or(last.value_or(beginningOfTime.utcSeconds));
    };
    if (saidIn(state_.file) || saidIn(theirs_.file)) {
        const auto since = std::max(effectiveIn(state_.file), effectiveIn(theirs_.file));
        Query{state_.file,
              "INSERT INTO setting(name, value) VALUES ('materials_since', ?) "
              "ON CONFLICT(name) DO UPDATE SET value = excluded.value WHERE value <> excluded.value"}
            .with(std::to_string(since))
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
