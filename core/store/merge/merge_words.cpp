// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/merge/merge_words.h"

#include <array>
#include <vector>

namespace midden {

namespace {

struct Noun {
    const char* one;
    const char* many;
};

std::string counted(std::int64_t count, const Noun& noun) {
    return std::to_string(count) + " " + (count == 1 ? noun.one : noun.many);
}

Noun nounFor(EntryKind kind) {
    static constexpr std::array<Noun, 9> nouns{{{"reading", "readings"},
                                                {"addition", "additions"},
                                                {"aeration", "aerations"},
                                                {"observation", "observations"},
                                                {"thermometer check", "thermometer checks"},
                                                {"batch", "batches"},
                                                {"bin", "bins"},
                                                {"probe", "probes"},
                                                {"position", "positions"}}};
    return nouns.at(static_cast<std::size_t>(kind));
}

std::string listed(const std::vector<std::string>& items) {
    std::string words;
    for (std::size_t i = 0; i < items.size(); ++i) {
        words += i == 0 ? "" : i + 1 == items.size() ? " and " : ", ";
        words += items[i];
    }
    return words;
}

}  // namespace

std::string nounOf(EntryKind kind) {
    return nounFor(kind).one;
}

std::string arrivalsInWords(const MergeOutcome& outcome) {
    std::vector<std::string> arrivals;
    for (const auto& [kind, count] : outcome.addedOfKind) {
        arrivals.push_back(counted(count, nounFor(kind)));
    }
    if (outcome.certificates > 0) {
        arrivals.push_back(counted(outcome.certificates, {"certificate", "certificates"}));
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
