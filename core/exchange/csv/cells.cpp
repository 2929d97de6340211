// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/csv/cells.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <utility>

namespace midden {

namespace {

template <class Kind, std::size_t count>
using Words = std::array<std::pair<std::string_view, Kind>, count>;

constexpr Words<AerationKind, 6> aerationWords{{{"turned", AerationKind::turned},
                                                {"forked", AerationKind::forked},
                                                {"poked", AerationKind::poked},
                                                {"opened", AerationKind::opened},
                                                {"watered", AerationKind::watered},
                                                {"other", AerationKind::other}}};
constexpr Words<ObservationKind, 11> observationWords{{{"note", ObservationKind::note},
                                                       {"squeeze", ObservationKind::squeeze},
                                                       {"smell", ObservationKind::smell},
                                                       {"volume", ObservationKind::volume},
                                                       {"remedy", ObservationKind::remedy},
                                                       {"curing", ObservationKind::curing},
                                                       {"self-heating", ObservationKind::selfHeating},
                                                       {"seed-test", ObservationKind::seedTest},
                                                       {"screening", ObservationKind::screening},
                                                       {"condition", ObservationKind::condition},
                                                       {"level", ObservationKind::level}}};
constexpr Words<CheckKind, 2> checkWords{{{"ice", CheckKind::ice}, {"boiling", CheckKind::boiling}}};
constexpr Words<bool, 2> yesNoWords{{{"yes", true}, {"no", false}}};
constexpr Words<TemperatureUnit, 6> unitWords{{{"c", TemperatureUnit::celsius},
                                               {"f", TemperatureUnit::fahrenheit},
                                               {"°c", TemperatureUnit::celsius},
                                               {"°f", TemperatureUnit::fahrenheit},
                                               {"celsius", TemperatureUnit::celsius},
                                               {"fahrenheit", TemperatureUnit::fahrenheit}}};

bool sameWord(std::string_view a, std::string_view b) {
    const auto low = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [&](char x, char y) { return low(x) == low(y); });
}

template <class Kind, std::size_t count>
Result<Kind> kindOf(std::string_view cell, const Words<Kind, count>& words, std::string_view expected) {
    const auto word = withoutBlanks(cell);
    const auto found = std::find_if(words.begin(), words.end(), [&](const auto& w) { return sameWord(w.first, word); });
    if (found == words.end()) {
        return refused(fmt::format("\"{}\" is none of the words for this column", word), std::string{expected});
    }
    return found->second;
}

template <class Kind, std::size_t count>
Result<std::optional<Kind>> optionalKindOf(std::string_view cell, const Words<Kind, count>& words,
                                           std::string_view expected) {
    if (withoutBlanks(cell).empty()) {
        return std::optional<Kind>{};
    }
    return kindOf(cell, words, expected).map([](Kind kind) { return std::optional{kind}; });
}

template <class Kind, std::size_t count>
std::string_view wordIn(const Words<Kind, count>& words, Kind kind) {
    return std::find_if(words.begin(), words.end(), [&](const auto& w) { return w.second == kind; })->first;
}

/// Behind any number of apostrophes, does something begin that a spreadsheet would run?
bool looksLikeFormula(std::string_view text) {
    const auto first = text.find_first_not_of('\'');
    return first != std::string_view::npos &&
           std::string_view{"=+-@\t\r\n"}.find(text[first]) != std::string_view::npos;
}

constexpr std::string_view blanks = " \t\r\n";

}  // namespace

std::string_view withoutBlanks(std::string_view text) {
    const auto first = text.find_first_not_of(blanks);
    return first == std::string_view::npos ? std::string_view{}
                                           : text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

Result<double> parseDecimal(std::string_view cell) {
    std::string number{withoutBlanks(cell)};
    if (number.starts_with('+')) {
        number.erase(0, 1);
    }
    const bool plain = number.find_first_not_of("0123456789.,-") == std::string::npos &&
                       number.find('-', 1) == std::string::npos && number.size() <= 40;
    const auto comma = number.find(',');
    const bool oneMark = comma == std::string::npos || number.find_first_of(".,", comma + 1) == std::string::npos;
    if (comma != std::string::npos && number.find('.') > comma) {
        number[comma] = '.';
    }
    double value = 0;
    const auto* const end = number.data() + number.size();
    const auto read = std::from_chars(number.data(), end, value, std::chars_format::fixed);
    if (!plain || !oneMark || read.ec != std::errc{} || read.ptr != end) {
        return refused(fmt::format("\"{}\" is not a number", cell), "a plain number such as 12.5");
    }
    return value;
}

Result<std::optional<double>> parseOptional(std::string_view cell, const NumberRange& range) {
    if (withoutBlanks(cell).empty()) {
        return std::optional<double>{};
    }
    const auto value = parseDecimal(cell);
    if (!value || *value < range.least || *value > range.most) {
        return refused(value ? fmt::format("{} is out of range", withoutBlanks(cell)) : value.error().wrong,
                       std::string{range.words});
    }
    return std::optional{*value};
}

Result<std::optional<TemperatureUnit>> parseUnit(std::string_view cell) {
    return optionalKindOf(cell, unitWords, "c or f");
}

Result<std::optional<bool>> parseYesNo(std::string_view cell) {
    return optionalKindOf(cell, yesNoWords, "yes, no or nothing");
}

Result<AerationKind> parseAerationKind(std::string_view cell) {
    return kindOf(cell, aerationWords, "turned, forked, poked, opened, watered or other");
}

std::string_view wordFor(AerationKind kind) {
    return wordIn(aerationWords, kind);
}

Result<ObservationKind> parseObservationKind(std::string_view cell) {
    return kindOf(
        cell, observationWords,
        "note, squeeze, smell, volume, remedy, curing, self-heating, seed-test, screening, condition or level");
}

std::string_view wordFor(ObservationKind kind) {
    return wordIn(observationWords, kind);
}

Result<CheckKind> parseCheckKind(std::string_view cell) {
    return kindOf(cell, checkWords, "ice or boiling");
}

std::string_view wordFor(CheckKind kind) {
    return wordIn(checkWords, kind);
}

std::string guardedText(std::string_view text) {
    return (looksLikeFormula(text) ? "'" : "") + std::string{text};
}

std::string_view unguardedText(std::string_view cell) {
    return cell.starts_with('\'') && looksLikeFormula(cell) ? cell.substr(1) : cell;
}

}  // namespace midden
