// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/merge/merge_words.h"

#include <vector>

#include "core/records/kind_nouns.h"

namespace midden {

namespace {

std::string listed(const std::vector<std::string>& items) {
    std::string words;
    for (std::size_t i = 0; i < items.size(); ++i) {
        words += i == 0 ? "" : i + 1 == items.size() ? " and " : ", ";
        words += items[i];
    }
    return words;
}

}  // namespace

std::string arrivalsInWords(const MergeOutcome& outcome) {
    std::vector<std::string> arrivals;
    for (const auto& [kind, count] : outcome.addedOfKind) {
        arrivals.push_back(counted(count, nounOf(kind)));
    }
    if (outcome.certificates > 0) {
        arrivals.push_back(counted(outcome.certificates, Noun{"certificate", "certificates"}));
    }
    const bool isOne = outcome.added + outcome.certificates == 1;
    std::string words =
        arrivals.empty() ? "Nothing is new here" : listed(arrivals) + (isOne ? " is" : " are") + " new here";
    if (outcome.changed > 0) {
        words += "; " + counted(outcome.changed, {"entry changes", "entries change"}) + " to what the other copy says";
    }
    return words + ".";
}

std::string inWords(const MergeConflict::Side& side, const TimeZone& zone) {
    std::string words = side.value.empty() ? "withdrawn" : side.value;
    if (!side.who.empty()) {
        words += ", " + side.who;
    }
    return side.when ? words + ", " + longDateTime(zone.momentAt(*side.when)) : words;
}

}  // namespace midden
