// SPDX-License-Identifier: GPL-3.0-or-later
#include <nlohmann/json.hpp>

#include "core/criteria/criteria_json.h"

namespace midden {

namespace {

using Json = nlohmann::ordered_json;

/// Whole hours as whole numbers.
Json hoursJson(Seconds duration) {
    return duration.count % 3'600 == 0 ? Json(duration.count / 3'600) : Json(duration.hours());
}

std::string continuityName(Continuity continuity) {
    if (continuity == Continuity::silent) {
        return "silent";
    }
    return continuity == Continuity::cumulative ? "cumulative" : "consecutive";
}

Json turningsJson(const TurningsAsked& asked) {
    Json turnings{{"count", asked.count}};
    if (asked.minimumSpacing) {
        turnings["apart_hours"] = hoursJson(*asked.minimumSpacing);
    }
    return turnings;
}

Json stepJson(const Step& step) {
    Json json;
    json[step.exceeds ? "above" : "at_least"] = writtenWithUnit(step.threshold);
    if (step.ceiling) {
        json["at_most"] = writtenWithUnit(*step.ceiling);
    }
    json[step.holdExceeds ? "more_than_hours" : "hours"] = hoursJson(step.hold);
    json["continuity"] = continuityName(step.continuity);
    if (step.mean) {
        json[step.mean->exceeds ? "mean_above" : "mean_at_least"] = writtenWithUnit(step.mean->threshold);
    }
    if (step.turnings) {
        json["turnings"] = turningsJson(*step.turnings);
    }
    if (step.maxGap) {
        json["max_gap_hours"] = hoursJson(*step.maxGap);
    }
    if (step.withinStep) {
        json["within_step"] = *step.withinStep + 1;
    }
    return json;
}

void addConditions(Json& json, const std::vector<Condition>& conditions) {
    for (const auto& condition : conditions) {
        Json entry{{"id", condition.id}, {"words", condition.words}};
        if (condition.carbonNitrogen) {
            entry["carbon_nitrogen"] = {{"least", condition.carbonNitrogen->least},
                                        {"most", condition.carbonNitrogen->most}};
        }
        json["conditions"].push_back(std::move(entry));
    }
}

Json alternativeJson(const Alternative& alternative) {
    Json json{{"title", alternative.title}, {"steps", Json::array()}};
    for (const auto& step : alternative.steps) {
        json["steps"].push_back(stepJson(step));
    }
    addConditions(json, alternative.conditions);
    return json;
}

Json sourceJson(const Citation& source) {
    Json json{{"document", source.document}};
    if (!source.section.empty()) {
        json["section"] = source.section;
    }
    json["checked"] = source.checked;
    if (!source.known.empty()) {
        json["known"] = source.known;
    }
    if (source.fromMemory) {
        json["from_memory"] = true;
    }
    return json;
}

}  // namespace

std::string criterionText(const Criterion& criterion) {
    Json json{{"id", criterion.id},
              {"title", criterion.title},
              {"jurisdiction", criterion.jurisdiction},
              {"source", sourceJson(criterion.source)},
              {"scope", criterion.scope},
              {"method", criterion.method},
              {"alternatives", Json::array()}};
    for (const auto& alternative : criterion.alternatives) {
        json["alternatives"].push_back(alternativeJson(alternative));
    }
    addConditions(json, criterion.conditions);
    if (!criterion.note.empty()) {
        json["note"] = criterion.note;
    }
    return json.dump(2, ' ', false, Json::error_handler_t::replace);
}

}  // namespace midden
