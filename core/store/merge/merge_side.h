// SPDX-License-Identifier: GPL-3.0-or-later
// One of the two copies of a book that are brought together, with every value in a form both copies share.
#pragma once

#include <map>
#include <nlohmann/json.hpp>

#include "core/store/sqlite/database.h"

namespace midden {

using Json = nlohmann::json;
/// An entry's value, or nothing where the entry is withdrawn or was never there.
using Value = std::optional<Json>;

/// What names an entry in every copy: its kind and its lasting name.
struct EntryName {
    EntryKind kind{};
    std::string name;
    auto operator<=>(const EntryName&) const = default;
};

/// An amendment in the shared form.
struct Change {
    std::string key;
    EntryName entry;
    std::string ownEntry;  ///< the name its file gives the entry, where it was read from a file
    Instant at;
    Value was;
    Value became;
    Instant amended;
    std::string who;
    std::string why;
    std::optional<std::int64_t> rank;  ///< none = made by a merge
};
using Changes = std::vector<Change>;

/// What both copies call the same: the number each file gave a bin, probe or batch, and the key they share.
class Keys {
  public:
    void add(const std::string& kind, std::int64_t id, const std::string& shared) {
        shared_[{kind, id}] = shared;
        ids_[{kind, shared}] = id;
    }
    std::string sharedKey(const std::string& kind, std::int64_t id) const;
    std::optional<std::int64_t> idOf(const std::string& kind, const std::string& shared) const;

  private:
    std::map<std::pair<std::string, std::int64_t>, std::string> shared_;
    std::map<std::pair<std::string, std::string>, std::int64_t> ids_;
};

/// Those fields of a value.
Json partOf(const Json& value, const std::vector<std::string>& fields);

/// What of two values of such fields stands where nobody corrected either: the higher. Every change that leaves no
/// amendment climbs here, a finish that was not known and a start that nobody gave coming earlier, so that copies may
/// meet in any order.
std::int64_t mergePriority(const Json& value, const std::vector<std::string>& fields);

/// When a batch was moved, and the shared key of the bin it came to.
using Moves = std::map<std::int64_t, std::string>;
/// As the amendment of a withdrawn batch has them: "since key;since key".
std::string movesText(const Moves& moves);
Moves movesFrom(const std::string& text);

/// The table of a kind, and the column its lasting name stands in.
struct Shape {
    const char* table;
    const char* nameColumn;
};
Shape shapeOf(EntryKind kind);
bool isSetUp(EntryKind kind);  ///< bins, probes, batches
/// A correction of a move of a batch, not of the batch itself.
bool isOfMove(const Change& change);
std::int64_t highestRank(const Changes& history);

class MergeSide {
  public:
    explicit MergeSide(DatabaseFile& opened) : file{opened} {}

    DatabaseFile& file;
    Keys keys;
    /// The key this file gave, and the one both share, where they differ.
    std::map<std::string, std::string> ownKeyToShared;
    std::map<std::string, std::string> sharedKeyToOwn;

    void readHistory();
    const Changes& historyOf(const EntryName& entry) const;
    const std::map<EntryName, Changes>& history() const { return history_; }

    Value live(const EntryName& entry) const;
    Moves movesOf(const EntryName& batch) const;
    std::vector<EntryName> entriesOf(EntryKind kind) const;

    /// Numbers become shared keys and names go, so that the other copy can read it.
    Json shared(EntryKind kind, Json own) const;
    /// Back into this file's numbers. `withNames` adds the names that amendments carry.
    Json own(const EntryName& entry, Json shared, bool withNames) const;
    /// With names in the place of the keys of bins, batches and probes, for decisions that shall not depend on keys,
    /// which are random. What this file does not have keeps its key.
    Json inNames(Json shared) const;
    std::string ownName(const EntryName& entry) const;
    std::string sharedName(EntryKind kind, const std::string& own) const;

    ReadingId readingId(const EntryName& entry) const;
    EntryName nameOf(const ReadingId& id) const;

  private:
    class LaterColumns;
    Value liveReading(const EntryName& entry) const;
    void withOwnMoves(Json& shared) const;
    std::string inKeys(const std::string& moves, const std::map<std::string, std::string>& exchange) const;

    std::map<EntryName, Changes> history_;
};

void addJson(Query& query, const Json& value);
/// 32 hexadecimal digits that are the same wherever the same text is hashed. A name, not a proof.
std::string keyFrom(const std::string& text);

}  // namespace midden
