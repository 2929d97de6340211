// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/causes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <nlohmann/json.hpp>

namespace midden {

namespace {

using nlohmann::json;

const json& table() {
    static const json parsed = json::parse(causesText());
    return parsed;
}

std::string shown(const std::variant<double, std::string>& fact) {
    if (const auto* word = std::get_if<std::string>(&fact)) {
        return *word;
    }
    const double value = std::get<double>(fact);
    return fmt::format("{}", std::lround(value));
}

bool holdsAnyOf(const std::string& text, const json& words) {
    return std::any_of(words.begin(), words.end(), [&](const json& word) {
        return text.find(word.get_ref<const std::string&>()) != std::string::npos;
    });
}

/// Does this line of evidence count, given the fact?
bool counts(const json& line, const std::variant<double, std::string>& fact) {
    if (line.contains("is")) {
        const auto* word = std::get_if<std::string>(&fact);
        return word != nullptr && holdsAnyOf(*word, line["is"]);
    }
    const auto* value = std::get_if<double>(&fact);
    return value != nullptr && ((line.contains("below") && *value < line["below"].get<double>()) ||
                                (line.contains("above") && *value > line["above"].get<double>()));
}

struct Weighed {
    LikelyCause cause;
    double weight = 0;
};

AerationKind actNamed(const std::string& name) {
    if (name == "turned") {
        return AerationKind::turned;
    }
    return name == "forked" ? AerationKind::forked : AerationKind::watered;
}

LikelyCause causeOf(const json& entry) {
    LikelyCause cause{entry["cause"], entry["remedy"], entry["caution"], entry["source"], {},
                      entry["id"],    entry["logged"]};
    for (const auto& act : entry.value("logs", json::array())) {
        cause.acts.push_back(actNamed(act.get<std::string>()));
    }
    cause.adds = entry.value("adds", false);
    return cause;
}

Weighed weigh(const json& entry, const Facts& facts) {
    Weighed weighed{causeOf(entry)};
    std::string lastFact;
    for (const auto& line : entry["evidence"]) {
        const std::string name = line["fact"];
        const auto fact = facts.find(name);
        const bool isThere = fact != facts.end();
        if (isThere ? !counts(line, fact->second) : !line.contains("missing")) {
            continue;
        }
        // Of several lines about one fact the first that counts speaks: they go from strong to weak.
        if (name != lastFact) {
            weighed.weight += line["weight"].get<double>();
            std::string reason = line["reason"];
            if (const auto hole = reason.find("{}"); hole != std::string::npos && isThere) {
                reason.replace(hole, 2, shown(fact->second));
            }
            weighed.cause.reasons.push_back(std::move(reason));
        }
        lastFact = name;
    }
    return weighed;
}

bool applies(const json& entry, StallKind kind) {
    const auto& kinds = entry["kinds"];
    return std::find(kinds.begin(), kinds.end(), nameOf(kind)) != kinds.end();
}

}  // namespace

std::vector<LikelyCause> likelyCauses(StallKind kind, const Facts& facts) {
    std::vector<Weighed> weighed;
    for (const auto& entry : table()["causes"]) {
        auto one = applies(entry, kind) ? weigh(entry, facts) : Weighed{};
        if (one.weight > 0) {
            weighed.push_back(std::move(one));
        }
    }
    std::stable_sort(weighed.begin(), weighed.end(),
                     [](const Weighed& a, const Weighed& b) { return a.weight > b.weight; });
    std::vector<LikelyCause> ranked;
    std::transform(weighed.begin(), weighed.end(), std::back_inserter(ranked),
                   [](Weighed& one) { return std::move(one.cause); });
    if (ranked.empty()) {
        ranked.push_back(causeOf(table()["otherwise"]));
    }
    return ranked;
}

}  // namespace midden
