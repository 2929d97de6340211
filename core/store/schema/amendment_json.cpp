// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/schema/amendment_json.h"

#include <sqlite3.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "core/quantities/json_text.h"
#include "core/records/dated_entries.h"
#include "core/records/kind_nouns.h"

namespace midden {

namespace {

using Json = nlohmann::json;

constexpr std::array texts{"who",     "note",  "name",     "key",        "position",   "material",
                           "subject", "value", "bin_name", "batch_name", "probe_name", "moves"};

/// Whole numbers, and what they may be in the table they came from.
struct Range {
    const char* field;
    std::int64_t least;
    std::int64_t most;
};
constexpr std::int64_t firstSecond = beginningOfTime.utcSeconds;
constexpr std::int64_t lastSecond = endOfTime.utcSeconds - 1;
constexpr std::array ranges{
    Range{"at", firstSecond, lastSecond},
    Range{"since", firstSecond, lastSecond},
    Range{"started", firstSecond, lastSecond},
    Range{"finished", firstSecond, lastSecond},
    Range{"utc_offset", -1'080, 1'080},
    Range{"started_offset", -1'080, 1'080},
    Range{"finished_offset", -1'080, 1'080},
    Range{"raw", -760'000, 3'020'000},
    Range{"unit", 0, 1},
    Range{"source", 0, 2},
    Range{"kind", 0,
          std::max({static_cast<int>(lastOf<AerationKind>), static_cast<int>(lastOf<ObservationKind>),
                    static_cast<int>(lastOf<CheckKind>)})},
    Range{"start_given", 0, 1},
    Range{"retired", 0, 1},
    Range{"fed", 0, 1},
    Range{"spot_check", 0, 1},
    Range{"accuracy_parts", 0, 9'000'000},
    Range{"entered", INT64_MIN, INT64_MAX},
    Range{"applies_from", INT64_MIN, lastSecond},
    Range{"bin", 0, INT64_MAX},
    Range{"batch", 0, INT64_MAX},
    Range{"probe", 0, INT64_MAX},
};

bool isWhole(const Json& value, const Range& range) {
    if (!value.is_number_integer()) {
        return false;
    }
    const bool fits = !value.is_number_unsigned() || value.get<std::uint64_t>() <= std::uint64_t{INT64_MAX};
    return fits && value.get<std::int64_t>() >= range.least && value.get<std::int64_t>() <= range.most;
}

bool isSoundField(const std::string& name, const Json& value) {
    if (value.is_null()) {
        return true;
    }
    if (std::find(texts.begin(), texts.end(), name) != texts.end()) {
        return value.is_string();
    }
    const auto range = std::find_if(ranges.begin(), ranges.end(), [&](const Range& one) { return one.field == name; });
    if (range != ranges.end()) {
        return isWhole(value, *range);
    }
    // The key of an entry is a text, the number of what is set up a number; the rest are measures.
    return value.is_number() || (name == "id" && value.is_string());
}

std::string textOf(sqlite3_value* value) {
    const auto* bytes = static_cast<const char*>(sqlite3_value_blob(value));
    return bytes == nullptr ? std::string{} : std::string{bytes, static_cast<std::size_t>(sqlite3_value_bytes(value))};
}

void giveField(sqlite3_context* context, const Json& value) {
    if (value.is_string()) {
        const auto& text = value.get_ref<const std::string&>();
        sqlite3_result_text64(context, text.data(), text.size(), SQLITE_TRANSIENT, SQLITE_UTF8);
    } else if (value.is_number_integer()) {
        sqlite3_result_int64(context, value.get<std::int64_t>());
    } else if (value.is_number()) {
        sqlite3_result_double(context, value.get<double>());
    }
}

void amendedField(sqlite3_context* context, int /*count*/, sqlite3_value** values) {
    try {
        const auto entry = amendedEntry(textOf(values[0]));
        const auto field = entry ? entry->find(textOf(values[1])) : Json::const_iterator{};
        if (entry && field != entry->end()) {
            giveField(context, *field);
        }
    } catch (const std::exception& error) {
        sqlite3_result_error(context, error.what(), -1);
    }
}

/// The fields of a dated entry that no row of its table lacks.
template <class E>
std::vector<std::string> alwaysSaidBy() {
    std::vector<std::string> said{"at", "utc_offset", "note", "source", "who"};
    eachField<E>([&](const auto& field) {
        using Value = std::decay_t<decltype(E{}.*field.member)>;
        if constexpr (std::is_same_v<Value, WrittenTemperature>) {
            said.insert(said.end(), {"raw", "unit"});
        } else if constexpr (!requires(Value value) { value.has_value(); }) {
            said.emplace_back(field.column);
        }
    });
    return said;
}

/// What every entry of a kind says. A batch may be withdrawn by parts.
std::vector<std::string> alwaysSaid(EntryKind kind) {
    std::vector<std::string> said;
    DatedEntries::each([&]<class E>() {
        if (entryKind<E> == kind) {
            said = alwaysSaidBy<E>();
        }
    });
    switch (kind) {
        case EntryKind::reading:
            return {"position", "at", "utc_offset", "raw", "unit", "source", "who"};
        case EntryKind::bin:
        case EntryKind::probe:
            return {"name", "note"};
        case EntryKind::place:
            return {"position", "spot_check"};
        default:
            return said;
    }
}

bool isSoundValue(EntryKind kind, const std::optional<std::string>& text) {
    if (!text) {
        return true;
    }
    const auto entry = amendedEntry(*text);
    const auto fields = alwaysSaid(kind);
    return entry && std::all_of(fields.begin(), fields.end(), [&](const std::string& field) {
               return entry->contains(field) && !entry->at(field).is_null();
           });
}

/// A reading is named by its bin, position and instant: "KEY/core/1772352000".
bool isSoundName(EntryKind kind, const std::string& entry) {
    if (kind != EntryKind::reading) {
        return true;
    }
    const auto* end = entry.data() + entry.size();
    const auto last = entry.rfind('/');
    std::int64_t at = 0;
    const auto read = std::from_chars(entry.data() + (last == std::string::npos ? entry.size() : last + 1), end, at);
    return read.ec == std::errc{} && read.ptr == end && entry.find('/') < last && at >= firstSecond && at <= lastSecond;
}

bool lies(std::int64_t second, std::int64_t most) {
    return second >= firstSecond && second <= most;
}

std::optional<std::string> maybeText(const Query& row, int column) {
    return row.isNull(column) ? std::nullopt : std::optional{row.text(column)};
}

}  // namespace

std::optional<Json> amendedEntry(std::string_view text) {
    auto entry = readJson(text);
    if (!entry || !entry->is_object()) {
        return std::nullopt;
    }
    for (const auto& [name, value] : entry->items()) {
        if (!isSoundField(name, value)) {
            return std::nullopt;
        }
    }
    return *std::move(entry);
}

void provideAmendedField(DatabaseFile& file) {
    file.expectDone(sqlite3_create_function(file.handle(), "amended_field", 2,
                                            SQLITE_UTF8 | SQLITE_DETERMINISTIC | SQLITE_DIRECTONLY, nullptr,
                                            amendedField, nullptr, nullptr));
}

bool isSound(const KeptAmendment& amendment) {
    const bool isSoundRank = !amendment.rank || lies(*amendment.rank, 2 * lastSecond);
    return lies(amendment.amended, lastSecond) && isSoundRank && isSoundName(amendment.kind, amendment.entry) &&
           isSoundValue(amendment.kind, amendment.was) && isSoundValue(amendment.kind, amendment.became);
}

std::vector<std::string> unreadableAmendments(DatabaseFile& file) {
    std::vector<std::string> sentences;
    Query query{file, "SELECT kind, amended, rank, key, entry, was, became FROM amendment ORDER BY amended, id"};
    while (query.next()) {
        const KeptAmendment amendment{query.choice(0, lastEntryKind), query.text(4),       query.number(1),
                                      query.maybeNumber(2),           maybeText(query, 5), maybeText(query, 6)};
        if (!isSound(amendment)) {
            sentences.push_back("Amendment " + query.text(3) + " (" + nounOf(amendment.kind).one + ", " +
                                isoUtc({amendment.amended}) + ") cannot be read.");
        }
    }
    return sentences;
}

}  // namespace midden
