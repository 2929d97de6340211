// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/merge/merge_side.h"

#include <fmt/core.h>

#include <array>
#include <set>

#include "core/quantities/json_text.h"
#include "core/records/dated_entries.h"
#include "core/store/schema/amendment_json.h"

namespace midden {

namespace {

constexpr std::array linkFields{"bin", "batch", "probe"};

/// "json_object('id', id, …)" over all columns of a table.
const char* rowAsJson(DatabaseFile& file, const std::string& table) {
    std::string fields;
    Query query{file, "SELECT name FROM pragma_table_info(?) ORDER BY cid"};
    query.with(table);
    while (query.next()) {
        fields += fmt::format("{}'{}', {}", fields.empty() ? "" : ", ", query.text(0), query.text(0));
    }
    return interned("json_object(" + fields + ")");
}

Json parsed(const std::string& text) {
    return readJson(text).value_or(Json{});
}

std::string nameIn(DatabaseFile& file, const std::string& table, std::int64_t id) {
    Query query{file, interned("SELECT name FROM " + table + " WHERE id = ?")};
    query.with(id);
    return query.next() ? query.text(0) : std::string{};
}

/// "KEY/rest": the key of the bin in front, exchanged.
std::string withKey(const std::string& name, const std::map<std::string, std::string>& exchange) {
    const auto end = std::min(name.find('/'), name.size());
    const auto found = exchange.find(name.substr(0, end));
    return found == exchange.end() ? name : found->second + name.substr(end);
}

}  // namespace

std::string Keys::sharedKey(const std::string& kind, std::int64_t id) const {
    const auto found = shared_.find({kind, id});
    return found == shared_.end() ? fmt::format("{} {}", kind, id) : found->second;
}

std::optional<std::int64_t> Keys::idOf(const std::string& kind, const std::string& shared) const {
    const auto found = ids_.find({kind, shared});
    return found == ids_.end() ? std::nullopt : std::optional{found->second};
}

Shape shapeOf(EntryKind kind) {
    Shape shape{};
    DatedEntries::each([&]<class E>() {
        if (entryKind<E> == kind) {
            shape = {EntryDescription<E>::table.data(), "id"};
        }
    });
    switch (kind) {
        case EntryKind::reading:
            return {"reading", ""};
        case EntryKind::batch:
            return {"batch", "id"};
        case EntryKind::bin:
            return {"bin", "id"};
        case EntryKind::probe:
            return {"probe", "id"};
        case EntryKind::place:
            return {"place_setting", ""};
        default:
            return shape;
    }
}

bool isSetUp(EntryKind kind) {
    return kind == EntryKind::bin || kind == EntryKind::probe || kind == EntryKind::batch;
}

Json MergeSide::shared(EntryKind kind, Json own) const {
    for (const char* link : linkFields) {
        if (own.contains(link) && own[link].is_number()) {
            own[link] = keys.sharedKey(link, own[link].get<std::int64_t>());
        }
        own.erase(std::string{link} + "_name");
    }
    if (isSetUp(kind)) {
        own.erase("id");
        own.erase("key");
    }
    if (kind == EntryKind::reading && own["note"].is_null()) {
        own["note"] = "";
    }
    if (kind == EntryKind::batch && own.contains("moves")) {
        const Json moves = own["moves"];
        own.erase("moves");
        if (moves.is_string()) {
            own["moves"] = inKeys(moves, ownKeyToShared);
        }
    }
    return own;
}

void MergeSide::withOwnMoves(Json& shared) const {
    if (shared.contains("moves")) {
        shared["moves"] = inKeys(shared["moves"], sharedKeyToOwn);
    }
}

Json MergeSide::own(const EntryName& entry, Json shared, bool withNames) const {
    for (const std::string link : linkFields) {
        if (!shared.contains(link)) {
            continue;
        }
        const auto id = shared[link].is_string() ? keys.idOf(link, shared[link].get<std::string>()) : std::nullopt;
        shared[link] = id ? Json(*id) : Json();
        if (withNames) {
            shared[link + "_name"] = id ? Json(nameIn(file, link, *id)) : Json();
        }
    }
    withOwnMoves(shared);
    if (isSetUp(entry.kind) && !shared.contains("since")) {
        const auto id = keys.idOf(shapeOf(entry.kind).table, entry.name);
        shared["id"] = id ? Json(*id) : Json();
        shared["key"] = ownName(entry);
    }
    return shared;
}

Json MergeSide::inNames(Json shared) const {
    for (const std::string link : linkFields) {
        if (!shared.contains(link) || !shared[link].is_string()) {
            continue;
        }
        if (const auto id = keys.idOf(link, shared[link].get<std::string>())) {
            shared[link] = nameIn(file, link, *id);
        }
    }
    return shared;
}

std::string MergeSide::ownName(const EntryName& entry) const {
    return withKey(entry.name, sharedKeyToOwn);
}

std::string MergeSide::sharedName(EntryKind kind, const std::string& own) const {
    const bool startsWithKey = kind == EntryKind::reading || kind == EntryKind::place || isSetUp(kind);
    return startsWithKey ? withKey(own, ownKeyToShared) : own;
}

/// A row that was written down before its table got these columns says of them what the table says.
class MergeSide::LaterColumns {
  public:
    explicit LaterColumns(DatabaseFile& file) : file_{file} {}

    void addTo(Json& row, EntryKind kind) {
        if (kind == EntryKind::reading || (kind == EntryKind::batch && !row.contains("start_given"))) {
            return;  // a reading has no row of its own, and of a batch only a part may be told
        }
        for (const auto& [column, value] : otherwise(kind).items()) {
            if (!row.contains(column)) {
                row[column] = value;
            }
        }
    }

  private:
    const Json& otherwise(EntryKind kind) {
        const auto [found, isNew] = byKind_.try_emplace(kind, Json::object());
        if (isNew) {
            Query query{file_, "SELECT name, dflt_value FROM pragma_table_info(?) WHERE pk = 0 AND name <> 'key'"};
            query.with(shapeOf(kind).table);
            while (query.next()) {
                const auto value = query.isNull(1) ? std::string{"null"} : query.text(1);
                found->second[query.text(0)] = parsed(value);
            }
        }
        return found->second;
    }

    DatabaseFile& file_;
    std::map<EntryKind, Json> byKind_;
};

void MergeSide::readHistory() {
    LaterColumns later{file};
    const auto value = [&](EntryKind kind, const Query& row, int column) -> Value {
        auto own = amendedEntry(row.text(column));
        if (!own) {
            return std::nullopt;
        }
        later.addTo(*own, kind);
        return shared(kind, *std::move(own));
    };
    Query query{
        file, "SELECT key, kind, entry, at, was, became, amended, who, why, rank FROM amendment ORDER BY amended, id"};
    while (query.next()) {
        Change change;
        change.key = query.text(0);
        const auto kind = query.choice(1, lastEntryKind);
        change.ownEntry = query.text(2);
        change.entry = {kind, sharedName(kind, change.ownEntry)};
        change.at = {query.number(3)};
        change.was = value(kind, query, 4);
        change.became = value(kind, query, 5);
        change.amended = {query.number(6)};
        change.who = query.text(7);
        change.why = query.text(8);
        change.rank = query.maybeNumber(9);
        history_[change.entry].push_back(change);
    }
}

const Changes& MergeSide::historyOf(const EntryName& entry) const {
    static const Changes none;
    const auto found = history_.find(entry);
    return found == history_.end() ? none : found->second;
}

ReadingId MergeSide::readingId(const EntryName& entry) const {
    const auto first = entry.name.find('/');
    const auto last = entry.name.rfind('/');
    ReadingId id;
    if (const auto bin = keys.idOf("bin", entry.name.substr(0, first))) {
        id.place.bin = BinId{*bin};
    }
    if (entry.kind == EntryKind::place) {
        id.place.position = entry.name.substr(first + 1);
        return id;
    }
    id.place.position = entry.name.substr(first + 1, last > first ? last - first - 1 : 0);
    id.at = {std::stoll(entry.name.substr(last + 1))};
    return id;
}

EntryName MergeSide::nameOf(const ReadingId& id) const {
    const auto bin = id.place.bin ? keys.sharedKey("bin", static_cast<std::int64_t>(*id.place.bin)) : std::string{};
    return {EntryKind::reading, fmt::format("{}/{}/{}", bin, id.place.position, id.at.utcSeconds)};
}

Value MergeSide::liveReading(const EntryName& entry) const {
    const ReadingId id = readingId(entry);
    if (!id.place.bin && !entry.name.starts_with('/')) {
        return std::nullopt;  // of a bin this copy does not have
    }
    Query query{file,
                "SELECT json_object('bin', s.bin, 'position', s.position, 'at', r.at, 'utc_offset', s.utc_offset,"
                "  'raw', r.raw, 'unit', s.unit, 'probe', s.probe, 'source', s.source, 'who', s.who,"
                "  'note', m.note, 'entered', m.entered) "
                "FROM series s CROSS JOIN reading r ON r.series = s.id AND r.at = ?3 "
                "LEFT JOIN reading_more m ON m.series = r.series AND m.at = r.at "
                "WHERE ifnull(s.bin, 0) = ifnull(?1, 0) AND s.position = ?2"};
    query.with(id.place.bin, id.place.position, id.at);
    return query.next() ? Value{shared(EntryKind::reading, parsed(query.text(0)))} : std::nullopt;
}

Value MergeSide::live(const EntryName& entry) const {
    if (entry.kind == EntryKind::reading) {
        return liveReading(entry);
    }
    const Shape shape = shapeOf(entry.kind);
    const std::string select = fmt::format("SELECT {} FROM {} ", rowAsJson(file, shape.table), shape.table);
    Query query{
        file, interned(select + (entry.kind == EntryKind::place ? "WHERE bin = ? AND position = ?" : "WHERE id = ?"))};
    if (entry.kind == EntryKind::place) {
        const auto id = readingId(entry);
        query.with(id.place.bin, id.place.position);
    } else if (isSetUp(entry.kind)) {
        query.with(keys.idOf(shape.table, entry.name));
    } else {
        query.with(entry.name);
    }
    return query.next() ? Value{shared(entry.kind, parsed(query.text(0)))} : std::nullopt;
}

Moves MergeSide::movesOf(const EntryName& batch) const {
    Moves moves;
    Query query{file, "SELECT since, bin FROM move WHERE batch = ?"};
    query.with(keys.idOf("batch", batch.name));
    while (query.next()) {
        moves[query.number(0)] = keys.sharedKey("bin", query.number(1));
    }
    return moves;
}

std::string MergeSide::inKeys(const std::string& moves, const std::map<std::string, std::string>& exchange) const {
    Moves exchanged = movesFrom(moves);
    for (auto& [since, key] : exchanged) {
        key = withKey(key, exchange);
    }
    return movesText(exchanged);
}

std::vector<EntryName> MergeSide::entriesOf(EntryKind kind) const {
    const Shape shape = shapeOf(kind);
    const bool isPlace = kind == EntryKind::place;
    Query query{file, interned(isPlace ? std::string{"SELECT bin, position FROM place_setting"}
                                       : fmt::format("SELECT {} FROM {}", shape.nameColumn, shape.table))};
    std::vector<EntryName> entries;
    while (query.next()) {
        if (isPlace) {
            entries.push_back({kind, keys.sharedKey("bin", query.number(0)) + "/" + query.text(1)});
        } else if (isSetUp(kind)) {
            entries.push_back({kind, keys.sharedKey(shape.table, query.number(0))});
        } else {
            entries.push_back({kind, query.text(0)});
        }
    }
    return entries;
}

void addJson(Query& query, const Json& value) {
    if (value.is_null()) {
        query.add(std::optional<std::int64_t>{});
    } else if (value.is_number_float()) {
        query.add(value.get<double>());
    } else if (value.is_number()) {
        query.add(value.get<std::int64_t>());
    } else {
        query.add(value.get<std::string>());
    }
}

std::string keyFrom(const std::string& text) {
    // FNV-1a, twice with different starts: http://www.isthe.com/chongo/tech/comp/fnv/ (from memory, unverified).
    std::uint64_t one = 0xcbf29ce484222325;
    std::uint64_t two = 0x84222325cbf29ce4;
    for (const char c : text) {
        one = (one ^ static_cast<unsigned char>(c)) * 0x100000001b3;
        two = (two ^ static_cast<unsigned char>(c)) * 0x100000001b3 + 1;
    }
    return fmt::format("{:016x}{:016x}", one, two);
}

}  // namespace midden
