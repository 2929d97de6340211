// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/schema/amendment_rules.h"

#include <fmt/core.h>

#include <array>

#include "core/records/dated_entries.h"

namespace midden {

namespace {

/// What is particular to the amendments of one table. "{0}" is the row as it was or as it becomes: OLD or NEW.
struct Rule {
    EntryKind kind{};
    const char* table = nullptr;
    const char* entry = nullptr;  ///< its name in every copy of the book
    const char* batch = nullptr;
    const char* at = nullptr;
    const char* correctedWhen = nullptr;  ///< nothing = every change is a correction
    const char* withdrawnWhen = nullptr;  ///< nothing = every row that goes was withdrawn
    const char* putBackWhen = nullptr;    ///< nothing = when the book has an amendment of that entry
    const char* goesWithIt = "";          ///< what else a withdrawn row says, as a field and its value
    const char* laterColumn = nullptr;    ///< one that came with a later format: its changes are corrections too
};

constexpr const char* atTheAmendment = "ifnull(hand.at, unixepoch())";

// No corrections: a batch finished, and a start that nobody gave coming earlier.
constexpr const char* batchCorrected =
    "(OLD.key, OLD.name, OLD.bin, OLD.start_given, OLD.note)"
    " IS NOT (NEW.key, NEW.name, NEW.bin, NEW.start_given, NEW.note)"
    " OR (OLD.started <> NEW.started AND NOT (OLD.start_given = 0 AND NEW.started < OLD.started))"
    " OR (OLD.finished IS NOT NULL AND OLD.finished IS NOT NEW.finished)";
// The moves of a batch go with it, and say so in its own amendment: whoever brings it back brings them back.
constexpr const char* movesOfBatch =
    ", 'moves', (SELECT group_concat(since || ' ' || key, ';')"
    " FROM (SELECT m.since, b.key FROM move m JOIN bin b ON b.id = m.bin WHERE m.batch = OLD.id ORDER BY m.since))";
constexpr const char* ofBatchThatStays = "EXISTS (SELECT 1 FROM batch WHERE id = OLD.batch)";
// Where a batch goes next is no correction; to say again what was taken back is.
constexpr const char* takenBackBefore =
    "EXISTS (SELECT 1 FROM amendment WHERE entry = (SELECT key FROM batch WHERE id = NEW.batch)"
    " AND at = NEW.since AND instr(ifnull(was, became), '\"since\":') > 0)";

constexpr const char* batchOfMove = "(SELECT key FROM batch WHERE id = {0}.batch)";
constexpr const char* binAndPosition = "(SELECT key FROM bin WHERE id = {0}.bin) || '/' || {0}.position";

/// Of the dated entries all alike.
template <class E>
constexpr Rule ruleOf() {
    return {entryKind<E>, EntryDescription<E>::table.data(), "{0}.id",
            EntryDescription<E>::owner == "batch" ? "{0}.batch" : "NULL", "{0}.at"};
}

constexpr std::array<Rule, 5> rulesOfSetUp{{
    {EntryKind::batch, "batch", "{0}.key", "{0}.id", "{0}.started", batchCorrected, nullptr, nullptr, movesOfBatch,
     "fed"},
    {EntryKind::batch, "move", batchOfMove, "{0}.batch", "{0}.since", nullptr, ofBatchThatStays, takenBackBefore},
    {EntryKind::bin, "bin", "{0}.key", "NULL", atTheAmendment},
    {EntryKind::probe, "probe", "{0}.key", "NULL", atTheAmendment},
    {EntryKind::place, "place_setting", binAndPosition, "NULL", atTheAmendment},
}};

std::string of(const char* row, const std::string& pattern) {
    return fmt::format(fmt::runtime(pattern), row);
}

/// "json_object('id', {0}.id, …)" over all columns, with the names of what the row points to.
std::string rowJson(DatabaseFile& file, const char* table) {
    std::string fields;
    Query query{file, "SELECT name FROM pragma_table_info(?) ORDER BY cid"};
    query.with(table);
    while (query.next()) {
        const auto column = query.text(0);
        fields += fmt::format("{}'{}', {{0}}.{}", fields.empty() ? "" : ", ", column, column);
        if (column == "batch" || column == "bin" || column == "probe") {
            fields += fmt::format(", '{0}_name', (SELECT name FROM {0} WHERE id = {{0}}.{0})", column);
        }
    }
    return "json_object(" + fields + ")";
}

void writeTrigger(DatabaseFile& file, const std::string& name, const std::string& event, const std::string& action) {
    file.run("DROP TRIGGER IF EXISTS " + name + "; CREATE TRIGGER " + name + " " + event + " BEGIN\n" + action +
             ";\nEND");
}

std::string amendmentBy(const Rule& rule, const char* row, const std::string& was, const std::string& became) {
    const auto entry = of(row, rule.entry);
    const auto values = fmt::format("{}, {}, {}, NULL, {},\n{},\n{}", static_cast<int>(rule.kind), entry,
                                    of(row, rule.batch), of(row, rule.at), was, became);
    return amendmentOf(values, entry, "(SELECT 1)");
}

std::string when(const std::string& condition) {
    return condition.empty() ? std::string{} : "\nWHEN " + condition;
}

std::string orNothing(const char* condition) {
    return condition == nullptr ? std::string{} : condition;
}

bool isThere(DatabaseFile& file, const std::string& table) {
    Query query{file, "SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = ?"};
    return query.with(table).next();
}

bool hasColumn(DatabaseFile& file, const char* table, const char* column) {
    Query query{file, "SELECT 1 FROM pragma_table_info(?) WHERE name = ?"};
    return query.with(table, column).next();
}

std::string correctedWhen(DatabaseFile& file, const Rule& rule) {
    std::string condition = orNothing(rule.correctedWhen);
    if (rule.laterColumn != nullptr && hasColumn(file, rule.table, rule.laterColumn)) {
        condition += fmt::format(" OR OLD.{0} IS NOT NEW.{0}", rule.laterColumn);
    }
    return condition;
}

void writeRule(DatabaseFile& file, const Rule& rule) {
    const std::string table = rule.table;
    if (!isThere(file, table)) {
        return;  // it comes with a later format
    }
    const auto row = rowJson(file, rule.table);
    const auto was = of("OLD", row);
    const auto became = of("NEW", row);
    const auto gone = was.substr(0, was.size() - 1) + rule.goesWithIt + ")";
    const auto known = fmt::format("EXISTS (SELECT 1 FROM amendment WHERE entry = {})", of("NEW", rule.entry));
    writeTrigger(file, table + "_corrected", "BEFORE UPDATE ON " + table + when(correctedWhen(file, rule)),
                 amendmentBy(rule, "OLD", was, became));
    writeTrigger(file, table + "_withdrawn", "BEFORE DELETE ON " + table + when(orNothing(rule.withdrawnWhen)),
                 amendmentBy(rule, "OLD", gone, "NULL"));
    writeTrigger(file, table + "_put_back",
                 "AFTER INSERT ON " + table + when(rule.putBackWhen == nullptr ? known : rule.putBackWhen),
                 amendmentBy(rule, "NEW", "NULL", became));
}

/// A reading is spread over three tables. `from` names the row it starts from: OLD or NEW.
std::string readingIn(const char* series, const std::string& json) {
    return fmt::format(
        "(SELECT {} FROM series s LEFT JOIN bin b ON b.id = s.bin LEFT JOIN probe p ON p.id = s.probe"
        " WHERE s.id = {})",
        json, series);
}

std::string readingAmendment(const std::string& was, const std::string& became) {
    const std::string entry =
        "(SELECT ifnull(b.key, '') || '/' || s.position || '/' || OLD.at"
        " FROM series s LEFT JOIN bin b ON b.id = s.bin WHERE s.id = OLD.series)";
    return amendmentOf(
        "0, " + entry + ", NULL, (SELECT bin FROM series WHERE id = OLD.series), OLD.at,\n" + was + ",\n" + became,
        entry, "(SELECT 1)");
}

/// Putting a reading back is noted by EntryStore<Reading>, so that ten million logger readings need not ask.
void writeReadingRules(DatabaseFile& file) {
    const std::string theNote = "(SELECT note FROM reading_more WHERE series = OLD.series AND at = OLD.at)";
    const std::string theEntered = "(SELECT entered FROM reading_more WHERE series = OLD.series AND at = OLD.at)";
    const std::string theRaw = "(SELECT raw FROM reading WHERE series = OLD.series AND at = OLD.at)";
    const auto before = readingIn("OLD.series", readingJson("OLD.at", "OLD.raw", theNote, theEntered));
    const auto after = readingIn("NEW.series", readingJson("NEW.at", "NEW.raw", theNote, theEntered));
    const auto noteBefore = readingIn("OLD.series", readingJson("OLD.at", theRaw, "OLD.note", "OLD.entered"));
    const auto noteAfter = readingIn("OLD.series", readingJson("OLD.at", theRaw, "NEW.note", "NEW.entered"));
    const auto noNote = readingIn("OLD.series", readingJson("OLD.at", theRaw, "NULL", "NULL"));
    writeTrigger(file, "reading_corrected", "BEFORE UPDATE ON reading", readingAmendment(before, after));
    writeTrigger(file, "reading_withdrawn", "BEFORE DELETE ON reading", readingAmendment(before, "NULL"));
    writeTrigger(file, "reading_note_corrected",
                 "BEFORE UPDATE OF note, entered ON reading_more\n"
                 "WHEN OLD.note <> '' OR OLD.entered IS NOT NEW.entered",
                 readingAmendment(noteBefore, noteAfter));
    writeTrigger(file, "reading_note_withdrawn",
                 "BEFORE DELETE ON reading_more\n"
                 "WHEN EXISTS (SELECT 1 FROM reading WHERE series = OLD.series AND at = OLD.at)",
                 readingAmendment(noteBefore, noNote));
}

}  // namespace

std::string amendmentOf(const std::string& values, const std::string& entry, const std::string& from) {
    return fmt::format(
        "INSERT INTO amendment(key, kind, entry, batch, bin, at, was, became, amended, who, why, rank)\n"
        "SELECT ifnull(hand.key, lower(hex(randomblob(16)))), {0},\n"
        "ifnull(hand.at, unixepoch()), ifnull(hand.who, ''), ifnull(hand.why, ''),\n"
        "max(ifnull(hand.at, unixepoch()), ifnull((SELECT max(a.rank) + 1 FROM amendment a WHERE a.entry = {1}),"
        " ifnull(hand.at, unixepoch())))\n"
        "FROM {2} LEFT JOIN hand WHERE NOT EXISTS (SELECT 1 FROM amendment WHERE key = hand.key)",
        values, entry, from);
}

std::string readingJson(const std::string& at, const std::string& raw, const std::string& note,
                        const std::string& entered) {
    return fmt::format(
        "json_object('bin', s.bin, 'bin_name', b.name, 'position', s.position, 'at', {}, 'utc_offset', s.utc_offset,"
        " 'raw', {}, 'unit', s.unit, 'probe', s.probe, 'probe_name', p.name, 'source', s.source, 'who', s.who,"
        " 'note', {}, 'entered', {})",
        at, raw, note, entered);
}

void writeAmendmentRules(DatabaseFile& file) {
    DatedEntries::each([&]<class E>() { writeRule(file, ruleOf<E>()); });
    for (const Rule& rule : rulesOfSetUp) {
        writeRule(file, rule);
    }
    writeReadingRules(file);
}

}  // namespace midden
