// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/review_json.h"

#include <nlohmann/json.hpp>

#include "core/criteria/words.h"

namespace midden {

namespace {

using Json = nlohmann::ordered_json;

template <class T, class Convert>
Json listOf(const std::vector<T>& items, Convert convert) {
    Json list = Json::array();
    for (const auto& item : items) {
        list.push_back(convert(item));
    }
    return list;
}

template <class T>
Json orNull(const std::optional<T>& value) {
    return value ? Json(*value) : Json(nullptr);
}

Json orNull(const std::optional<Instant>& at) {
    return at ? Json(isoUtc(*at)) : Json(nullptr);
}

void addHold(Json& object, const HoldFigures& figures) {
    object["credited_hours"] = figures.credited.hours();
    object["longest_run_hours"] = figures.longestRun.hours();
    object["interpolated_hours"] = figures.interpolatedSeconds / 3'600;
    object["longest_interpolated_run_hours"] = figures.longestInterpolatedSeconds / 3'600;
}

void addInterval(Json& object, const Interval& interval) {
    object["from"] = isoUtc(interval.from);
    object["to"] = isoUtc(interval.to);
}

Json jsonOf(const Interval& window) {
    Json object;
    addInterval(object, window);
    object["hours"] = window.length().hours();
    return object;
}

Json jsonOf(const ThresholdReview& threshold) {
    Json object{{"celsius", threshold.threshold.value()}};
    addHold(object, threshold.whole);
    object["windows"] = listOf(threshold.windows, [](const Interval& window) { return jsonOf(window); });
    object["by_position"] = listOf(threshold.byPosition, [](const PositionHold& position) {
        Json one{{"position", position.position}};
        addHold(one, position.figures);
        return one;
    });
    return object;
}

Json jsonOf(const GapReview& gap) {
    Json object{{"position", gap.position}};
    object.update(jsonOf(gap.interval));
    return object;
}

Json jsonOf(const AlternativeFigures& alternative) {
    return {{"title", alternative.title},
            {"verdict", word(alternative.verdict)},
            {"steps", listOf(alternative.steps, [](const StepFigures& step) {
                 Json figures{{"celsius", toCelsius(step.threshold).value()},
                              {"credited_hours", step.credited.hours()},
                              {"longest_run_hours", step.longestRun.hours()},
                              {"required_hours", step.required.hours()}};
                 if (step.qualifyingDays) {
                     figures["qualifying_days"] = *step.qualifyingDays;
                 }
                 return figures;
             })}};
}

Json jsonOf(const ConditionFigures& condition) {
    return {{"condition", condition.condition},
            {"required", orNull(condition.required)},
            {"recorded", orNull(condition.recorded)},
            {"state", word(condition.state)}};
}

Json jsonOf(const Evidence& evidence) {
    Json object;
    addInterval(object, evidence.interval);
    object["position"] = evidence.position;
    object["credited"] = evidence.credited;
    object["reason"] = evidence.reason;
    return object;
}

Json jsonOf(const Judgement& judgement) {
    return {{"id", judgement.criterion.id},
            {"verdict", word(judgement.verdict)},
            {"credited_hours", judgement.credited.hours()},
            {"required_hours", judgement.required.hours()},
            {"cumulative_hours", judgement.cumulative.hours()},
            {"restarted_by", orNull(judgement.restartedBy)},
            {"alternatives", listOf(judgement.alternatives, [](const auto& one) { return jsonOf(one); })},
            {"conditions", listOf(judgement.conditions, [](const auto& one) { return jsonOf(one); })},
            {"evidence", listOf(judgement.evidence, [](const auto& one) { return jsonOf(one); })}};
}

Json jsonOf(const LikelyCause& cause) {
    return {{"cause", cause.cause},
            {"remedy", cause.remedy},
            {"source", cause.source},
            {"caution", cause.caution},
            {"reasons", cause.reasons}};
}

Json jsonOf(const std::optional<HeatRate>& rate) {
    if (!rate) {
        return nullptr;
    }
    return {{"from", isoUtc(rate->from)},
            {"to", isoUtc(rate->to)},
            {"celsius_per_hour", rate->rate},
            {"low", rate->low},
            {"high", rate->high}};
}

const char* word(HeatChange change) {
    switch (change) {
        case HeatChange::unknown:
            return "unknown";
        case HeatChange::unchanged:
            return "unchanged";
        case HeatChange::falling:
            return "falling";
        case HeatChange::stopped:
            return "stopped";
    }
    return "";
}

const char* word(RemedyOutcome::State state) {
    switch (state) {
        case RemedyOutcome::State::worked:
            return "worked";
        case RemedyOutcome::State::didNotWork:
            return "did-not-work";
        case RemedyOutcome::State::tooEarlyToSay:
            return "too-early-to-say";
    }
    return "";
}

const char* word(TauBasis basis) {
    switch (basis) {
        case TauBasis::coolDowns:
            return "cool-downs";
        case TauBasis::wall:
            return "wall";
        case TauBasis::assumed:
            return "assumed";
    }
    return "";
}

Json jsonOf(const StallHeat& heat) {
    return {{"excess_celsius", orNull(heat.excess)},
            {"self_heating", jsonOf(heat.rate)},
            {"change", word(heat.change)},
            {"weather_alone", heat.isWeather},
            {"words", heat.sentence}};
}

Json jsonOf(const RemedyOutcome& remedy) {
    return {{"at", isoUtc(remedy.at)},
            {"remedy", remedy.remedy},
            {"outcome", word(remedy.state)},
            {"words", remedy.sentence}};
}

Json jsonOf(const Stall& stall) {
    return {{"kind", nameOf(stall.kind)},
            {"from", isoUtc(stall.from)},
            {"to", orNull(stall.to)},
            {"hours_credited", stall.hoursCredited},
            {"hours_short", stall.hoursShort},
            {"causes", listOf(stall.causes, [](const auto& one) { return jsonOf(one); })},
            {"heat", jsonOf(stall.heat)},
            {"remedies", listOf(stall.remedies, [](const auto& one) { return jsonOf(one); })}};
}

Json jsonOf(const BinHeat& heat) {
    const auto latest = heat.rates.empty() ? std::nullopt : std::optional{heat.rates.back()};
    return {{"time_constant",
             {{"hours", heat.tau.hours},
              {"low", heat.tau.low},
              {"high", heat.tau.high},
              {"basis", word(heat.tau.basis)},
              {"readings", heat.tau.readings},
              {"words", wordsOf(heat.tau)}}},
            {"self_heating", jsonOf(latest)},
            {"words", wordsOf(heat)},
            {"limits", heat.limits}};
}

Json jsonOf(const std::optional<Mixture>& mixture) {
    if (!mixture) {
        return nullptr;
    }
    return {{"wet_mass_kg", mixture->wetMassKilograms},
            {"moisture_percent", orNull(mixture->moisturePercent)},
            {"carbon_nitrogen", orNull(mixture->carbonNitrogen)}};
}

Json jsonOf(const std::optional<Peak>& peak) {
    if (!peak) {
        return nullptr;
    }
    return {{"celsius", peak->temperature.value()}, {"at", isoUtc(peak->at)}, {"position", peak->position}};
}

Json orNull(const std::optional<Seconds>& duration) {
    return duration ? Json(duration->hours()) : Json(nullptr);
}

Json jsonOf(const StandingLayer& layer) {
    return {{"fed_from", isoUtc(layer.fedFrom)},
            {"fed_to", isoUtc(layer.fedTo)},
            {"litres", layer.litres},
            {"from_cm", orNull(layer.fromCm)},
            {"to_cm", orNull(layer.toCm)},
            {"at_least_hours", layer.atLeast.hours()},
            {"longest_run_hours", layer.longestRun.hours()},
            {"at_most_hours", layer.atMost.hours()}};
}

Json jsonOf(const HarvestReckoning& harvest) {
    const auto& reckoned = harvest.reckoned;
    const auto& cautious = harvest.cautious;
    const auto parts = listOf(reckoned.parts, [](const HarvestPart& part) {
        return Json{{"litres", part.litres},
                    {"raw", part.raw},
                    {"at_least_hours", part.atLeast.hours()},
                    {"longest_run_hours", part.longestRun.hours()}};
    });
    return {{"at", isoUtc(harvest.at)},
            {"litres", harvest.litres},
            {"reckoned",
             {{"at_least_hours", orNull(reckoned.atLeast)},
              {"longest_run_hours", orNull(reckoned.longestRun)},
              {"half_hours", orNull(reckoned.halfHad)},
              {"nine_tenths_hours", orNull(reckoned.nineTenthsHad)},
              {"litres_with_hold", reckoned.litresWithHold},
              {"parts", parts}}},
            {"cautious",
             {{"fed_from", orNull(cautious.fedFrom)},
              {"fed_to", orNull(cautious.fedTo)},
              {"at_least_hours", orNull(cautious.atLeast)},
              {"longest_run_hours", orNull(cautious.longestRun)},
              {"at_most_hours", cautious.atMost.hours()}}}};
}

Json jsonOf(const ModelFit& fit) {
    return {{"k_days", fit.shrinkDays}, {"s_inf", fit.lasting}, {"kept", fit.kept}};
}

void addFed(Json& object, const FedReview& fed) {
    object["feeding"] = "fed";
    object["layers"] = listOf(fed.reckoning.layers, [](const auto& one) { return jsonOf(one); });
    object["harvests"] = listOf(fed.reckoning.harvests, [](const auto& one) { return jsonOf(one); });
    Json fits = Json::array();
    for (const auto& fit : fed.reckoning.fit) {
        fits.push_back(jsonOf(fit));
    }
    object["fit"] = std::move(fits);
}

Json jsonOf(const BatchReview& review) {
    Json object{{"batch", review.batch},
                {"bin", review.bin},
                {"started", isoUtc(review.started.at)},
                {"finished", orNull(review.finished)},
                {"positions", review.positions},
                {"spot_checks", review.spotChecks},
                {"unread_positions", review.unreadPositions},
                {"readings", review.readings},
                {"amended_entries", review.amendedEntries},
                {"late_entries", review.lateEntries},
                {"peak", jsonOf(review.peak)},
                {"thresholds", listOf(review.thresholds, [](const auto& one) { return jsonOf(one); })},
                {"gaps", listOf(review.gaps, [](const auto& one) { return jsonOf(one); })},
                {"criteria", listOf(review.criteria, [](const auto& one) { return jsonOf(one); })},
                {"stalls", listOf(review.stalls, [](const auto& one) { return jsonOf(one); })},
                {"heat", jsonOf(review.heat)},
                {"equivalents", {{"days_at_10_celsius", review.daysAtTenCelsius}}},
                {"mixture", jsonOf(review.mixture)}};
    if (review.fed) {
        addFed(object, *review.fed);
    }
    return object;
}

}  // namespace

std::string reviewJson(std::span<const BatchReview> reviews) {
    Json list = Json::array();
    for (const auto& review : reviews) {
        list.push_back(jsonOf(review));
    }
    const Json all{{"format", "middenbook.review/1"}, {"batches", std::move(list)}};
    return all.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace midden
