// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/schema/replacement_rules.h"

#include <fmt/core.h>

namespace midden {

namespace {

using Texts = std::vector<std::string>;

constexpr const char* refusal =
    "SELECT RAISE(ABORT, 'an entry of that name or key is in the book already, and is not replaced')";

Texts textsFrom(Query& query) {
    Texts texts;
    while (query.next()) {
        texts.push_back(query.text(0));
    }
    return texts;
}

Texts tablesWithWords(DatabaseFile& file) {
    Query query{file,
                "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%' "
                "AND name NOT IN ('setting', 'hand') ORDER BY name"};
    return textsFrom(query);
}

/// What must not be there twice. An index over expressions, as that of series, is taken for one over all columns that
/// are no key of their own, where nothing equals nothing.
std::vector<Texts> keysOf(DatabaseFile& file, const std::string& table) {
    Query own{file, "SELECT name FROM pragma_table_info(?) WHERE pk > 0 ORDER BY pk"};
    std::vector<Texts> keys{textsFrom(own.with(table))};
    Query indexes{file, "SELECT name FROM pragma_index_list(?) WHERE \"unique\" = 1 AND origin <> 'pk' ORDER BY name"};
    for (const auto& index : textsFrom(indexes.with(table))) {
        Query expressions{file, "SELECT 1 FROM pragma_index_info(?) WHERE cid = -2"};
        const bool hasExpressions = expressions.with(index).next();
        Query columns{file, hasExpressions ? "SELECT name FROM pragma_table_info(?) WHERE pk = 0 ORDER BY cid"
                                           : "SELECT name FROM pragma_index_info(?) ORDER BY seqno"};
        keys.push_back(textsFrom(columns.with(hasExpressions ? table : index)));
    }
    return keys;
}

std::string listed(const Texts& columns, const std::string& before, const std::string& between) {
    std::string list;
    for (const auto& column : columns) {
        list += (list.empty() ? "" : between) + fmt::format(fmt::runtime(before), column);
    }
    return list;
}

std::string isTaken(const std::string& table, const Texts& key) {
    return fmt::format("EXISTS (SELECT 1 FROM {} WHERE {})", table, listed(key, "{0} IS NEW.{0}", " AND "));
}

std::string changes(const Texts& key) {
    return fmt::format("({}) IS NOT ({})", listed(key, "NEW.{}", ", "), listed(key, "OLD.{}", ", "));
}

void writeTrigger(DatabaseFile& file, const std::string& name, const std::string& event, const Texts& conditions) {
    file.run(fmt::format("DROP TRIGGER IF EXISTS {0}; CREATE TRIGGER {0} BEFORE {1}\nWHEN {2}\nBEGIN {3}; END", name,
                         event, listed(conditions, "{}", "\n OR "), refusal));
}

}  // namespace

void writeReplacementRules(DatabaseFile& file) {
    for (const auto& table : tablesWithWords(file)) {
        Texts taken;
        Texts takenAnew;
        for (const auto& key : keysOf(file, table)) {
            taken.push_back(isTaken(table, key));
            takenAnew.push_back(changes(key) + " AND " + taken.back());
        }
        writeTrigger(file, table + "_not_replaced", "INSERT ON " + table, taken);
        writeTrigger(file, table + "_not_overwritten", "UPDATE ON " + table, takenAnew);
    }
}

}  // namespace midden
