// SPDX-License-Identifier: GPL-3.0-or-later
// Old and new values of amended entries, as a person reads them.
#include "core/store/entries/amendment_words.h"

#include <fmt/core.h>

#include <array>
#include <nlohmann/json.hpp>

#include "core/store/schema/amendment_json.h"

namespace midden {

namespace {

using Json = nlohmann::json;

std::int64_t number(const Json& entry, const char* field) {
    const auto found = entry.find(field);
    return found != entry.end() && found->is_number() ? found->get<std::int64_t>() : 0;
}

std::string text(const Json& entry, const char* field) {
    const auto found = entry.find(field);
    return found != entry.end() && found->is_string() ? found->get<std::string>() : std::string{};
}

bool isThere(const Json& entry, const char* field) {
    const auto found = entry.find(field);
    return found != entry.end() && !found->is_null();
}

template <std::size_t N>
std::string chosen(const std::array<const char*, N>& words, std::int64_t index) {
    return index >= 0 && index < std::ssize(words) ? words.at(static_cast<std::size_t>(index)) : "unknown";
}

std::string joined(const std::string& first, const std::string& separator, const std::string& second) {
    return second.empty() ? first : first + separator + second;
}

Moment momentOf(const Json& entry, const char* field, const char* offset) {
    return {{number(entry, field)}, {static_cast<std::int16_t>(number(entry, offset))}};
}

std::string temperatureWords(const Json& entry) {
    return writtenWithUnit({static_cast<std::int32_t>(number(entry, "raw")),
                            number(entry, "unit") == 1 ? TemperatureUnit::fahrenheit : TemperatureUnit::celsius});
}

std::string measure(const Json& entry, const char* field, const char* unit) {
    const auto found = entry.find(field);
    return found != entry.end() && found->is_number() ? fmt::format("{:g} {}", found->get<double>(), unit)
                                                      : std::string{};
}

std::string additionWords(const Json& entry) {
    std::string words = measure(entry, "mass_kg", "kg") + " " + text(entry, "material");
    words = joined(words, ", ", measure(entry, "volume_litres", "litres"));
    words = joined(words, ", ", measure(entry, "moisture_percent", "% moisture"));
    words = joined(words, ", ", measure(entry, "carbon_percent", "% carbon"));
    words = joined(words, ", ", measure(entry, "nitrogen_percent", "% nitrogen"));
    if (isThere(entry, "carbon_nitrogen")) {
        words += fmt::format(", C:N {:g}", entry["carbon_nitrogen"].get<double>());
    }
    if (isThere(entry, "raw")) {
        words += number(entry, "raw") != 0 ? ", raw" : ", not raw";
    }
    return words;
}

std::string observationWords(const Json& entry) {
    static constexpr std::array kinds{"note",   "squeeze test",      "smell",     "volume",    "remedy",
                                      "curing", "self-heating test", "seed test", "screening", "condition",
                                      "level"};
    if (number(entry, "kind") == static_cast<std::int64_t>(ObservationKind::level)) {
        return "surface " + text(entry, "value") + " cm above the floor";
    }
    const std::string words = joined(chosen(kinds, number(entry, "kind")), ": ", text(entry, "subject"));
    return joined(words, ": ", text(entry, "value"));
}

std::string aerationWords(const Json& entry) {
    static constexpr std::array kinds{"turned", "forked", "poked", "lid opened", "watered", "other"};
    const auto depth = measure(entry, "depth_cm", "cm deep");
    return joined(chosen(kinds, number(entry, "kind")), ", ", depth);
}

std::string harvestWords(const Json& entry) {
    return joined("harvested " + measure(entry, "volume_litres", "litres"), ", ", measure(entry, "mass_kg", "kg"));
}

std::string checkWords(const Json& entry) {
    std::string words = (number(entry, "kind") == 0 ? "ice " : "boiling water ") + temperatureWords(entry);
    words = joined(words, " at ", measure(entry, "altitude_m", "m"));
    words = joined(words, " at ", measure(entry, "pressure_hpa", "hPa"));
    if (isThere(entry, "applies_from")) {
        words += ", holds from " + longDateTime(momentOf(entry, "applies_from", "utc_offset"));
    }
    return words;
}

std::string batchWords(const Json& entry) {
    if (isThere(entry, "since")) {
        return "in " + text(entry, "bin_name") + " from " + isoUtc({number(entry, "since")});
    }
    std::string words = "started " + longDateTime(momentOf(entry, "started", "started_offset"));
    if (isThere(entry, "finished")) {
        words += ", finished " + longDateTime(momentOf(entry, "finished", "finished_offset"));
    }
    return text(entry, "name") + ", " + words + (number(entry, "fed") != 0 ? ", fed on top" : "");
}

std::string binWords(const Json& entry) {
    std::string words = text(entry, "name");
    words = joined(words, ", height ", measure(entry, "height_cm", "cm"));
    return joined(words, ", hatch up to ", measure(entry, "hatch_top_cm", "cm"));
}

/// What the entry says, without its time, note and thermometer.
std::string valueWords(EntryKind kind, const Json& entry) {
    switch (kind) {
        case EntryKind::reading:
            return temperatureWords(entry);
        case EntryKind::addition:
            return additionWords(entry);
        case EntryKind::aeration:
            return aerationWords(entry);
        case EntryKind::observation:
            return observationWords(entry);
        case EntryKind::check:
            return checkWords(entry);
        case EntryKind::batch:
            return batchWords(entry);
        case EntryKind::bin:
            return binWords(entry);
        case EntryKind::probe:
            return text(entry, "name");
        case EntryKind::place:
            return joined(text(entry, "position"), ", height ", measure(entry, "height_cm", "cm"));
        case EntryKind::harvest:
            return harvestWords(entry);
    }
    return {};
}

std::string placeOf(const Json& entry) {
    const std::string position = text(entry, "position");
    return joined(position.empty() ? "outside air" : position, ", ", text(entry, "bin_name"));
}

std::string subjectOf(EntryKind kind, const Json& entry) {
    switch (kind) {
        case EntryKind::reading:
        case EntryKind::place:
            return placeOf(entry);
        case EntryKind::addition:
            return "addition";
        case EntryKind::aeration:
            return "aeration";
        case EntryKind::observation:
            return "observation";
        case EntryKind::harvest:
            return "harvest";
        case EntryKind::check:
            return joined("thermometer check", ", ", text(entry, "probe_name"));
        case EntryKind::batch:
            return "batch";
        case EntryKind::bin:
            return "bin";
        case EntryKind::probe:
            return "probe";
    }
    return {};
}

/// The words of one side, with whatever of time, place, thermometer and note differs from the other side.
std::string sideWords(EntryKind kind, const Json& entry, const Json& other) {
    std::string words = valueWords(kind, entry);
    const auto differs = [&](const char* field) {
        return entry.contains(field) && (!other.is_object() || other.value(field, Json{}) != entry[field]);
    };
    if (other.is_object() && entry.contains("at") && differs("at")) {
        words += " at " + longDateTime(momentOf(entry, "at", "utc_offset"));
    }
    if (other.is_object() && kind == EntryKind::reading && (differs("position") || differs("bin"))) {
        words += " (" + placeOf(entry) + ")";
    }
    if (other.is_object() && kind == EntryKind::batch && !isThere(entry, "since") && differs("bin_name")) {
        words += ", in " + text(entry, "bin_name");
    }
    if (other.is_object() && differs("probe_name")) {
        words += isThere(entry, "probe_name") ? " by " + text(entry, "probe_name") : " by no named thermometer";
    }
    if (differs("note") && !text(entry, "note").empty()) {
        words += ", “" + text(entry, "note") + "”";
    }
    return words;
}

/// A reading's lasting name is its bin's, its position and its instant: "4b1f…/core/1772366400".
ReadingId readingNamed(const AmendmentRow& row) {
    const auto first = row.entry.find('/');
    const auto last = row.entry.rfind('/');
    const bool isWhole = first != std::string::npos && last > first;
    return {{row.bin, isWhole ? row.entry.substr(first + 1, last - first - 1) : std::string{}}, row.at};
}

std::optional<ReadingId> readingSaid(const Json& entry) {
    if (!entry.is_object()) {
        return std::nullopt;
    }
    const auto bin = isThere(entry, "bin") ? std::optional{BinId{number(entry, "bin")}} : std::nullopt;
    return ReadingId{{bin, text(entry, "position")}, {number(entry, "at")}};
}

void nameEntry(Amendment& amendment, const AmendmentRow& row, const Json& became) {
    switch (row.kind) {
        case EntryKind::reading:
            amendment.reading = readingNamed(row);
            amendment.readingIs = readingSaid(became);
            break;
        case EntryKind::addition:
        case EntryKind::aeration:
        case EntryKind::observation:
        case EntryKind::harvest:
        case EntryKind::check:
            amendment.entry = {row.entry};
            break;
        case EntryKind::batch:
        case EntryKind::bin:
        case EntryKind::probe:
        case EntryKind::place:
            break;
    }
}

/// A value that is there and makes no sense.
std::string unreadable(const std::string& text) {
    return text.empty() ? std::string{} : "(cannot be read)";
}

}  // namespace

Amendment inWords(const AmendmentRow& row, BatchId batch) {
    const Json was = amendedEntry(row.was).value_or(Json{});
    const Json became = amendedEntry(row.became).value_or(Json{});
    Amendment amendment;
    amendment.kind = row.kind;
    nameEntry(amendment, row, became);
    amendment.batch = batch;
    amendment.at = row.at;
    amendment.subject = subjectOf(row.kind, was.is_object() ? was : became);
    amendment.was = was.is_object() ? sideWords(row.kind, was, became) : unreadable(row.was);
    amendment.became = became.is_object() ? sideWords(row.kind, became, was) : unreadable(row.became);
    amendment.amended = row.amended;
    amendment.who = row.who;
    amendment.why = row.why;
    return amendment;
}

}  // namespace midden
