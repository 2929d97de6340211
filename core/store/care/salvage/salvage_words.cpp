// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "core/store/care/salvage/salvage.h"

namespace midden {

namespace {

std::string counted(std::int64_t count, const std::string& one, const std::string& many) {
    return std::to_string(count) + ' ' + (count == 1 ? one : many);
}

std::string sentenceOf(const SalvagedKind& kind) {
    std::string sentence = counted(kind.kept, kind.one, kind.many) + " kept";
    if (kind.lost > 0) {
        sentence += "; " + std::to_string(kind.lost) + " could not be read whole";
    }
    if (kind.lostPages > 0) {
        sentence += "; " + counted(kind.lostPages, "page", "pages") + " of the file with more of them unreadable";
        const auto about = kind.lostPages * kind.aPage;
        sentence += about > 1 ? ", about " + std::to_string(about) + " at most" : "";
    }
    return sentence + '.';
}

}  // namespace

bool SalvageReport::isWhole() const {
    return std::all_of(kinds.begin(), kinds.end(), [](const auto& k) { return k.lost == 0 && k.lostPages == 0; });
}

std::vector<std::string> inWords(const SalvageReport& report) {
    std::vector<std::string> sentences;
    for (const SalvagedKind& kind : report.kinds) {
        if (kind.kept > 0 || kind.lost > 0 || kind.lostPages > 0) {
            sentences.push_back(sentenceOf(kind));
        }
    }
    for (const std::string& name : report.standIns) {
        sentences.push_back("“" + name + "” stands in for one whose own name could not be read.");
    }
    if (!report.isWhole()) {
        sentences.emplace_back(
            "A number on a damaged page may be wrong without showing it: compare the new book with "
            "your paper or with a copy made before.");
    }
    return sentences;
}

}  // namespace midden
