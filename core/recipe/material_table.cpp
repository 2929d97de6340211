// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/recipe/material_table.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>
#include <utility>

namespace midden {
namespace {

constexpr std::string_view header =
    "id;name;aliases;group;nitrogen;nitrogen_low;nitrogen_high;carbon_nitrogen;carbon_nitrogen_low;"
    "carbon_nitrogen_high;moisture;moisture_low;moisture_high;bulk;bulk_low;bulk_high;raw;cautions;source;checked;"
    "known;basis;note";

/// Where the columns stand; an estimate takes three: typical, low, high.
enum Column : std::size_t {
    id = 0,
    name = 1,
    aliases = 2,
    group = 3,
    nitrogen = 4,
    carbonNitrogen = 7,
    moisture = 10,
    bulk = 13,
    raw = 16,
    cautions = 17,
    source = 18,
    checked = 19,
    ownColumns = 20,  ///< a line of the steward's own ends here
    known = 20,
    basis = 21,
    note = 22,
    columns = 23
};

constexpr std::string_view ownBasis = "own";
constexpr std::array<std::pair<std::string_view, Known>, 6> knownNames{{{"opened", Known::opened},
                                                                        {"quoted", Known::quoted},
                                                                        {"derived", Known::derived},
                                                                        {"estimate", Known::estimate},
                                                                        {"memory", Known::memory},
                                                                        {"own", Known::own}}};

/// What a figure may be, at most, and how it is called when it is not.
struct Limits {
    std::string_view what;
    double highest;
};
constexpr Limits nitrogenLimits{"nitrogen", 100};
constexpr Limits carbonNitrogenLimits{"C:N", 10'000};
constexpr Limits moistureLimits{"moisture", 100};
constexpr Limits bulkLimits{"bulk density", 3'000};

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) {
        text.remove_prefix(1);
    }
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r')) {
        text.remove_suffix(1);
    }
    return text;
}

Result<double> numberOf(std::string_view text, const Limits& limits) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool whole = error == std::errc{} && end == text.data() + text.size();
    if (!whole || !std::isfinite(value) || value < 0 || value > limits.highest) {
        return refused(fmt::format("\"{}\" is not a {}", text, limits.what),
                       fmt::format("a number from 0 to {}", limits.highest));
    }
    return value;
}

Result<std::optional<Estimate>> estimateOf(std::span<const std::string_view> three, const Limits& limits) {
    if (three[0].empty()) {
        return std::nullopt;
    }
    std::array<double, 3> values{};
    for (std::size_t i = 0; i < 3; ++i) {
        const auto number = numberOf(three[i].empty() ? three[0] : three[i], limits);
        if (!number) {
            return tl::unexpected(number.error());
        }
        values.at(i) = *number;
    }
    if (values[1] > values[0] || values[0] > values[2]) {
        return refused(fmt::format("the {} {} lies outside its own range", limits.what, three[0]),
                       "low, typical, high in that order of size");
    }
    const bool spreadKnown = !three[1].empty() || !three[2].empty() || values[0] == 0 || values[0] == limits.highest;
    return Estimate{values[0], {values[1], values[2]}, spreadKnown};
}

std::vector<std::string> listOf(std::string_view text) {
    std::vector<std::string> list;
    for (const auto part : fieldsOf(text, '|')) {
        list.emplace_back(part);
    }
    return list;
}

Result<void> readFigures(Material& material, std::span<const std::string_view> fields) {
    struct Figure {
        std::optional<Estimate>* into = nullptr;
        Column first = id;
        Limits limits;
    };
    for (const auto& [into, first, limits] : {Figure{&material.nitrogenPercent, nitrogen, nitrogenLimits},
                                              Figure{&material.carbonNitrogen, carbonNitrogen, carbonNitrogenLimits},
                                              Figure{&material.moisturePercent, moisture, moistureLimits},
                                              Figure{&material.bulkDensity, bulk, bulkLimits}}) {
        const auto estimate = estimateOf(fields.subspan(first, 3), limits);
        if (!estimate) {
            return tl::unexpected(estimate.error());
        }
        *into = *estimate;
    }
    if (material.bulkDensity && material.bulkDensity->within.low <= 0) {
        return refused("a bulk density of 0", "kilograms in a cubic metre");
    }
    return {};
}

/// The figures of a material and how each is known, side by side.
template <class Material>
auto figuresOf(Material& m) {
    return std::array{std::pair{&m.nitrogenPercent, &m.known.nitrogen},
                      std::pair{&m.carbonNitrogen, &m.known.carbonNitrogen},
                      std::pair{&m.moisturePercent, &m.known.moisture}, std::pair{&m.bulkDensity, &m.known.bulk}};
}

Result<std::optional<Known>> knownOf(std::string_view name) {
    if (name.empty()) {
        return std::nullopt;
    }
    for (const auto& [word, known] : knownNames) {
        if (word == name) {
            return known;
        }
    }
    return refused(fmt::format("a figure is known as \"{}\"", name),
                   "opened, quoted, derived, estimate, memory or own");
}

Result<void> readKnown(Material& material, std::string_view text) {
    const auto codes = fieldsOf(text, '|');
    std::size_t place = 0;
    for (const auto& [figure, known] : figuresOf(material)) {
        const auto code = knownOf(place < codes.size() ? codes[place] : std::string_view{});
        if (!code) {
            return tl::unexpected(code.error());
        }
        *known = *code;
        if (known->has_value() != figure->has_value()) {
            return refused(
                fmt::format("\"{}\" does not say of each figure, and of none that is missing, how it is known", text),
                "four codes parted by |, empty where the figure is");
        }
        ++place;
    }
    if (codes.size() > place) {
        return refused(fmt::format("\"{}\" has {} codes", text, codes.size()), "four codes parted by |");
    }
    return {};
}

void takeAsOwn(Material& material) {
    for (const auto& [figure, known] : figuresOf(material)) {
        *known = figure->has_value() ? std::optional{Known::own} : std::nullopt;
    }
    material.basis = ownBasis;
}

std::string knownWritten(const Material& material) {
    std::string text;
    for (const auto& [figure, known] : figuresOf(material)) {
        text += text.empty() && figure == &material.nitrogenPercent ? "" : "|";
        for (const auto& [word, code] : knownNames) {
            text += *known == code ? word : "";
        }
    }
    return text == "|||" ? "" : text;
}

bool isOwnLine(const Material& material) {
    Material own = material;
    takeAsOwn(own);
    return material.basis == ownBasis && material.carbonNote.empty() && material.known == own.known;
}

std::string written(const std::optional<Estimate>& estimate) {
    if (!estimate) {
        return ";;";
    }
    if (!estimate->spreadKnown || estimate->within.low == estimate->within.high) {
        return fmt::format("{};;", estimate->typical);
    }
    return fmt::format("{};{};{}", estimate->typical, estimate->within.low, estimate->within.high);
}

}  // namespace

std::vector<std::string_view> linesOf(std::string_view text) {
    std::vector<std::string_view> lines;
    while (!text.empty()) {
        const auto end = text.find('\n');
        lines.push_back(trimmed(text.substr(0, end)));
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    }
    return lines;
}

std::vector<std::string_view> fieldsOf(std::string_view line, char separator) {
    std::vector<std::string_view> fields;
    while (!line.empty()) {
        const auto end = line.find(separator);
        fields.push_back(trimmed(line.substr(0, end)));
        if (end == std::string_view::npos) {
            return fields;
        }
        line.remove_prefix(end + 1);
        if (line.empty()) {
            fields.emplace_back();
        }
    }
    return fields;
}

Result<Material> materialOf(std::span<const std::string_view> fields) {
    if (fields.size() != columns && fields.size() != ownColumns) {
        return refused(fmt::format("{} fields", fields.size()),
                       fmt::format("{} fields parted by semicolons", std::size_t{columns}));
    }
    if (fields[id].empty() || fields[name].empty()) {
        return refused("no id or no name", "both");
    }
    if (fields[raw] != "yes" && fields[raw] != "no") {
        return refused(fmt::format("raw is \"{}\"", fields[raw]), "yes or no");
    }
    Material material;
    material.id = fields[id];
    material.name = fields[name];
    material.aliases = listOf(fields[aliases]);
    material.group = fields[group];
    material.raw = fields[raw] == "yes";
    material.cautions = listOf(fields[cautions]);
    material.source = fields[source];
    material.checked = fields[checked];
    if (const auto read = readFigures(material, fields); !read) {
        return tl::unexpected(read.error());
    }
    if (fields.size() == ownColumns) {
        takeAsOwn(material);
        return material;
    }
    if (const auto read = readKnown(material, fields[known]); !read) {
        return tl::unexpected(read.error());
    }
    material.basis = fields[basis];
    material.carbonNote = fields[note];
    return material;
}

std::string tableOf(const std::vector<Material>& materials) {
    std::string table = std::string{header} + "\n";
    for (const Material& m : materials) {
        table +=
            fmt::format("{};{};{};{};{};{};{};{};{};{};{};{}", m.id, m.name, fmt::join(m.aliases, "|"), m.group,
                        written(m.nitrogenPercent), written(m.carbonNitrogen), written(m.moisturePercent),
                        written(m.bulkDensity), m.raw ? "yes" : "no", fmt::join(m.cautions, "|"), m.source, m.checked);
        // Older programs read the steward's own lines, which stay as they were.
        table += isOwnLine(m) ? "\n" : fmt::format(";{};{};{}\n", knownWritten(m), m.basis, m.carbonNote);
    }
    return table;
}

}  // namespace midden
