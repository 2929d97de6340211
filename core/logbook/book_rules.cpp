// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/logbook/book_rules.h"

#include <charconv>

#include "core/criteria/criteria_json.h"

namespace midden {

namespace {

/// Sets one JSON text off from the next: the record separator of RFC 7464.
constexpr char separator = '\x1e';

constexpr std::int64_t longestTargetHours = 10'000;

std::vector<std::string> partsOf(const std::string& texts) {
    std::vector<std::string> parts;
    std::size_t from = 0;
    while (from < texts.size()) {
        const auto end = std::min(texts.find(separator, from), texts.size());
        if (end > from) {
            parts.push_back(texts.substr(from, end - from));
        }
        from = end + 1;
    }
    return parts;
}

std::optional<Seconds> hoursTyped(const std::string& typed) {
    std::int64_t count = 0;
    const auto* end = typed.data() + typed.size();
    const auto read = std::from_chars(typed.data(), end, count);
    const bool whole = read.ec == std::errc{} && read.ptr == end;
    return whole && count > 0 && count <= longestTargetHours ? std::optional{hours(count)} : std::nullopt;
}

}  // namespace

Criterion targetOf(const Logbook& book) {
    const auto standard = defaultTarget();
    const auto& step = standard.alternatives.front().steps.front();
    const auto threshold = parseTemperature(book.setting(setting::targetTemperature), TemperatureUnit::celsius);
    const auto hold = hoursTyped(book.setting(setting::targetHours));
    return targetCriterion(threshold.value_or(step.threshold), hold.value_or(step.hold));
}

std::vector<Criterion> groupCriteriaOf(const Logbook& book) {
    std::vector<Criterion> found;
    for (const auto& text : partsOf(book.setting(setting::criteria))) {
        if (auto criterion = parseGroupCriterion(text)) {
            found.push_back(std::move(*criterion));
        }
    }
    return found;
}

void storeGroupCriteria(Logbook& book, std::span<const Criterion> criteria) {
    std::string texts;
    for (const auto& criterion : criteria) {
        texts += separator + criterionText(criterion);
    }
    for (const auto& text : partsOf(book.setting(setting::criteria))) {
        if (!parseGroupCriterion(text)) {
            texts += separator + text;
        }
    }
    book.setSetting(setting::criteria, texts);
}

std::vector<Criterion> criteriaOf(const Logbook& book) {
    std::vector<Criterion> all{targetOf(book)};
    all.insert(all.end(), shippedCriteria().begin(), shippedCriteria().end());
    const auto own = groupCriteriaOf(book);
    all.insert(all.end(), own.begin(), own.end());
    return all;
}

Materials materialsOf(const Logbook& book) {
    const auto table = book.setting(setting::materials);
    const auto own = table.empty() ? Result<Materials>{} : Materials::parse(table);
    return own ? builtInMaterials().with(*own) : builtInMaterials();
}

ReviewQuestions questionsOf(const Logbook& book) {
    ReviewQuestions questions;
    questions.criteria = criteriaOf(book);
    questions.materials = materialsOf(book);
    const auto target = targetOf(book);
    const auto& step = target.alternatives.front().steps.front();
    questions.stalls.target = {toCelsius(step.threshold), step.hold, maxGapFor(step)};
    return questions;
}

}  // namespace midden
