// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/read/book_rules.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <limits>

#include "core/criteria/criteria_json.h"
#include "core/quantities/json_text.h"

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

Celsius celsiusOf(const Logbook& book, const Setting& setting) {
    return Celsius::ofTenThousandths(std::llround(settingNumber(book, setting) * 10'000));
}

Seconds secondsOf(const Logbook& book, const Setting& setting) {
    const auto one = setting.unit == SettingUnit::days    ? days(1)
                     : setting.unit == SettingUnit::hours ? hours(1)
                                                          : minutes(1);
    return Seconds{std::llround(settingNumber(book, setting) * static_cast<double>(one.count))};
}

Instant materialsSinceOf(const Logbook& book) {
    const std::string stored = book.setting(setting::materialsSince);
    Instant since{std::numeric_limits<std::int64_t>::max()};
    std::from_chars(stored.data(), stored.data() + stored.size(), since.utcSeconds);
    return since;
}

}  // namespace

double settingNumber(const Logbook& book, const Setting& setting) {
    return numberOf(setting, book.setting(setting));
}

TemperatureUnit unitOf(const Logbook& book) {
    return book.setting(setting::unit) == "f" ? TemperatureUnit::fahrenheit : TemperatureUnit::celsius;
}

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

bool isJsonSequence(const std::string& texts) {
    const auto parts = partsOf(texts);
    return std::all_of(parts.begin(), parts.end(), [](const auto& text) { return readJson(text).has_value(); });
}

std::string groupCriteriaText(const Logbook& book, std::span<const Criterion> criteria) {
    std::string texts;
    for (const auto& criterion : criteria) {
        texts += separator + criterionText(criterion);
    }
    for (const auto& text : partsOf(book.setting(setting::criteria))) {
        if (!parseGroupCriterion(text)) {
            texts += separator + text;
        }
    }
    return texts;
}

void storeGroupCriteria(Logbook& book, std::span<const Criterion> criteria) {
    book.setSetting(setting::criteria, groupCriteriaText(book, criteria));
}

std::vector<Criterion> criteriaOf(const Logbook& book) {
    std::vector<Criterion> all{targetOf(book)};
    all.insert(all.end(), shippedCriteria().begin(), shippedCriteria().end());
    const auto own = groupCriteriaOf(book);
    all.insert(all.end(), own.begin(), own.end());
    return all;
}

std::vector<Criterion> criteriaInForce(const Logbook& book) {
    const std::string chosen = ' ' + book.setting(setting::inForce) + ' ';
    auto all = criteriaOf(book);
    std::erase_if(all, [&](const Criterion& criterion) {
        return criterion.id != "target" && chosen.find(' ' + criterion.id + ' ') == std::string::npos;
    });
    return all;
}

Materials materialsOf(const Logbook& book) {
    const auto table = book.setting(setting::materials);
    const auto own = table.empty() ? Result<Materials>{} : Materials::parse(table);
    const auto theirs = own.value_or(Materials{});
    return builtInMaterials().with(theirs).withEarlier(earlierMaterials().with(theirs), materialsSinceOf(book));
}

Seconds roundLengthOf(const Logbook& book) {
    return secondsOf(book, setting::round);
}

StallSettings stallSettingsOf(const Logbook& book) {
    StallSettings settings;
    settings.hot = celsiusOf(book, setting::hot);
    settings.round = roundLengthOf(book);
    settings.heatingUp = secondsOf(book, setting::heatingUp);
    settings.span = secondsOf(book, setting::stallSpan);
    settings.afterHandling = secondsOf(book, setting::afterHandling);
    settings.recovery = secondsOf(book, setting::recovery);
    settings.remedy = secondsOf(book, setting::remedy);
    const auto target = targetOf(book);
    const auto& step = target.alternatives.front().steps.front();
    settings.target = {toCelsius(step.threshold), step.hold, maxGapFor(step)};
    return settings;
}

OutlookSettings outlookSettingsOf(const Logbook& book) {
    OutlookSettings settings;
    settings.stalls = stallSettingsOf(book);
    settings.warm = celsiusOf(book, setting::warm);
    settings.tooHot = celsiusOf(book, setting::tooHot);
    settings.betweenRounds = secondsOf(book, setting::betweenRounds);
    return settings;
}

TaskSettings taskSettingsOf(const Logbook& book) {
    TaskSettings settings;
    const auto outlook = outlookSettingsOf(book);
    settings.betweenRounds = outlook.betweenRounds;
    settings.remedy = outlook.stalls.remedy;
    settings.care.cured = celsiusOf(book, setting::cured);
    settings.care.curing = secondsOf(book, setting::curing);
    settings.care.check = secondsOf(book, setting::probeCheck);
    return settings;
}

ReviewQuestions questionsOf(const Logbook& book) {
    ReviewQuestions questions;
    questions.criteria = criteriaOf(book);
    questions.materials = materialsOf(book);
    questions.stalls = stallSettingsOf(book);
    return questions;
}

}  // namespace midden
