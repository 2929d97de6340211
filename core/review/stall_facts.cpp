// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/stall_facts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <span>

#include "core/recipe/mixture.h"
#include "core/review/act_words.h"
#include "core/review/feeding_advice.h"
#include "core/review/rounds.h"

namespace midden {

namespace {

/// An observation older than this says nothing of today. Common practice, no source.
constexpr Seconds freshness = days(7);

std::string lowerCase(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(),
                   [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
    return text;
}

double daysBetween(Instant from, Instant to) {
    return (to - from).hours() / 24;
}

/// The last entry not later than `end` that `isMeant`; null when there is none.
template <class Entries, class Test>
auto latest(const Entries& entries, Instant end, Test isMeant) -> decltype(&entries.front()) {
    for (auto entry = entries.rbegin(); entry != entries.rend(); ++entry) {
        if (entry->when.at <= end && isMeant(*entry)) {
            return &*entry;
        }
    }
    return nullptr;
}

const Observation* latestObservation(const BatchRecord& record, ObservationKind kind, Instant end) {
    return latest(record.observations, end, [&](const Observation& seen) { return seen.kind == kind; });
}

void addWords(Facts& facts, const BatchRecord& record, Instant end) {
    for (const auto& [kind, name] :
         {std::pair{ObservationKind::squeeze, "squeeze"}, {ObservationKind::smell, "smell"}}) {
        const auto* seen = latestObservation(record, kind, end);
        if (seen != nullptr && end - seen->when.at <= freshness && !seen->value.empty()) {
            facts[name] = lowerCase(seen->value);
        }
    }
}

std::optional<double> numberIn(const std::string& text) {
    double value = 0;
    const auto [rest, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    return error == std::errc{} && value > 0 ? std::optional{value} : std::nullopt;
}

void addContents(Facts& facts, const BatchRecord& record, Instant end, const Materials& materials) {
    const auto later = std::find_if(record.additions.begin(), record.additions.end(),
                                    [&](const Addition& addition) { return addition.when.at > end; });
    const auto mixture = mixtureOf(std::span{record.additions.begin(), later}, materials);
    if (mixture && mixture->moisturePercent) {
        facts["moisture_percent"] = *mixture->moisturePercent;
    }
    if (mixture && mixture->carbonNitrogen) {
        facts["carbon_nitrogen"] = *mixture->carbonNitrogen;
    }
    const auto* seen = latestObservation(record, ObservationKind::volume, end);
    const auto litres = seen != nullptr ? numberIn(seen->value) : std::nullopt;
    if (litres || record.bin.volumeLitres) {
        facts["volume_litres"] = litres ? *litres : *record.bin.volumeLitres;
    }
    if (record.bin.insulationMillimetres) {
        facts["wall_millimetres"] = *record.bin.insulationMillimetres;
    }
}

/// Additions so near to one another are one feed. Our own choice: a day's work at the bin.
constexpr Seconds oneFeed = hours(12);

void addFeeds(Facts& facts, const BatchRecord& record, Instant end, const Materials& materials) {
    double all = 0;
    double kitchen = 0;
    double last = 0;
    std::optional<Instant> lastAt;
    for (const auto& addition : record.additions) {
        if (addition.when.at <= end) {
            lastAt = addition.when.at;
        }
    }
    for (const auto& addition : record.additions) {
        if (addition.when.at > end) {
            continue;
        }
        const Material* material = materials.find(addition);
        all += addition.massKilograms;
        kitchen += material != nullptr && material->isKitchenWaste() ? addition.massKilograms : 0;
        last += *lastAt - addition.when.at <= oneFeed ? addition.massKilograms : 0;
    }
    if (all > 0) {
        facts["kitchen_percent"] = 100 * kitchen / all;
    }
    if (all > last) {
        facts["last_feed_percent"] = 100 * last / (all - last);
    }
}

/// Of a fed batch: what it was fed, held against what it should need by its walls and the weather.
void addFeedingNeed(Facts& facts, const BatchRecord& record, Instant end, const HoldTarget& target) {
    if (!record.batch.fed) {
        return;
    }
    const FeedingAdvice advice = feedingAdviceOf(record, target, end);
    if (!advice.week) {
        return;
    }
    facts["fed_percent_of_week"] = 100 * advice.fedAWeek / advice.week->low;
    double last = 0;
    std::optional<Instant> lastAt;
    for (auto addition = record.additions.rbegin(); addition != record.additions.rend(); ++addition) {
        if (addition->when.at > end) {
            continue;
        }
        lastAt = lastAt.value_or(addition->when.at);
        if (*lastAt - addition->when.at > oneFeed) {
            break;
        }
        last += addition->massKilograms;
    }
    facts["last_feed_percent_of_week"] = 100 * last / advice.week->high;
}

bool givesAir(const Aeration& aeration) {
    return aeration.kind != AerationKind::watered && aeration.kind != AerationKind::other;
}

void addDays(Facts& facts, const BatchRecord& record, Instant end) {
    const auto any = [](const auto&) { return true; };
    if (const auto* air = latest(record.aerations, end, givesAir)) {
        facts["days_since_air"] = daysBetween(air->when.at, end);
    }
    if (const auto* feed = latest(record.additions, end, any)) {
        facts["days_since_feed"] = daysBetween(feed->when.at, end);
    }
    if (const auto* check = latest(record.checks, end, any)) {
        facts["days_since_check"] = daysBetween(check->when.at, end);
    }
}

std::span<const Sample> upTo(const Track& track, Instant end) {
    const auto after = std::upper_bound(track.samples.begin(), track.samples.end(), end,
                                        [](Instant at, const Sample& sample) { return at < sample.at; });
    return {track.samples.begin(), after};
}

void addPeak(Facts& facts, const BatchRecord& record, const Stall& stall, Instant end, Celsius hot) {
    std::optional<Celsius> peak;
    std::optional<Instant> firstHot;
    for (const auto& track : record.tracks) {
        for (const auto& sample : upTo(track, end)) {
            peak = std::max(peak.value_or(sample.temperature()), sample.temperature());
            if (sample.temperature() >= hot && sample.at < firstHot.value_or(stall.from)) {
                firstHot = sample.at;
            }
        }
    }
    if (peak) {
        facts["peak"] = peak->value();
    }
    if (firstHot) {
        facts["hot_days"] = daysBetween(*firstHot, stall.from);
    }
}

void addSpread(Facts& facts, const BatchRecord& record, Instant end) {
    std::vector<double> latestByPosition;
    for (const auto& track : record.tracks) {
        const auto samples = upTo(track, end);
        if (!samples.empty() && end - samples.back().at <= ordinaryMaxGap) {
            latestByPosition.push_back(samples.back().temperature().value());
        }
    }
    if (latestByPosition.size() > 1) {
        const auto [low, high] = std::minmax_element(latestByPosition.begin(), latestByPosition.end());
        facts["spread"] = *high - *low;
    }
}

void addHeat(Facts& facts, const BatchRecord& record, const Stall& stall, Instant end) {
    std::optional<double> outside;
    for (const auto& sample : record.outside) {
        if (sample.at <= end && end - sample.at <= ordinaryMaxGap) {
            outside = sample.temperature().value();
        }
    }
    if (outside) {
        facts["outside_celsius"] = *outside;
    }
    if (stall.heat.excess) {
        facts["excess"] = *stall.heat.excess;
    }
    switch (stall.heat.change) {
        case HeatChange::unknown:
            break;
        case HeatChange::unchanged:
            facts["heat"] = "unchanged";
            break;
        case HeatChange::falling:
            facts["heat"] = "falling";
            break;
        case HeatChange::stopped:
            facts["heat"] = "stopped";
            break;
    }
    if (stall.heat.isWeather) {
        facts["weather_alone"] = "yes";
    }
}

/// Did the last turning inside the stall bring the heat back? Says nothing before its time is up.
void addReheating(Facts& facts, const BatchRecord& record, const Stall& stall, Instant end, Seconds allowed) {
    const auto* turning = latest(record.aerations, end, [&](const Aeration& aeration) {
        return aeration.kind == AerationKind::turned || aeration.kind == AerationKind::forked;
    });
    if (turning == nullptr || turning->when.at < stall.from) {
        return;
    }
    if (stall.to && *stall.to - turning->when.at <= allowed) {
        facts["reheated"] = "yes";
    } else if (end - turning->when.at >= allowed) {
        facts["reheated"] = "no";
    }
}

/// "turned 14 hours": what was done last before the dip.
void addHandling(Facts& facts, const BatchRecord& record, const Stall& stall, Seconds explains) {
    const auto* air = latest(record.aerations, stall.from, [](const Aeration& aeration) {
        return aeration.kind != AerationKind::poked && aeration.kind != AerationKind::other;
    });
    const auto* feed = latest(record.additions, stall.from, [](const Addition&) { return true; });
    const bool isFeed = feed != nullptr && (air == nullptr || feed->when.at > air->when.at);
    if (air == nullptr && !isFeed) {
        return;
    }
    const Seconds ago = stall.from - (isFeed ? feed->when.at : air->when.at);
    if (ago <= explains) {
        const auto whole = std::lround(ago.hours());
        facts["handled"] =
            fmt::format("{} {} hour{}", isFeed ? "added to" : actWord(air->kind), whole, whole == 1 ? "" : "s");
    }
}

}  // namespace

Facts factsOf(const BatchRecord& record, const Stall& stall, Instant end, const StallSettings& settings,
              const Materials& materials) {
    Facts facts;
    addWords(facts, record, end);
    addContents(facts, record, end, materials);
    addFeeds(facts, record, end, materials);
    addFeedingNeed(facts, record, end, settings.target);
    addDays(facts, record, end);
    addPeak(facts, record, stall, end, settings.hot);
    addSpread(facts, record, end);
    addHeat(facts, record, stall, end);
    addReheating(facts, record, stall, end, settings.remedy);
    addHandling(facts, record, stall, settings.afterHandling);
    return facts;
}

}  // namespace midden
