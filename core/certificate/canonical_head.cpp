// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/canonical.h"
#include "core/criteria/criteria_json.h"

namespace midden {

std::string canonicalHead(const IssuedFor& issuedFor) {
    auto text = "middenbook.record/1\nissued for\n" + CanonicalLine{"group"}.with("name", issuedFor.group).text();
    for (const auto& criterion : issuedFor.criteria) {
        const auto* owner = criterion.ofTheGroup ? "the group" : "the published rules";
        text += CanonicalLine{"criterion"}.with("of", owner).text() + criterionText(criterion) + "\n";
    }
    for (const auto& row : issuedFor.information) {
        CanonicalLine line{"information"};
        line.with("id", row.id).with("title", row.title);
        for (const auto& sentence : row.says) {
            line.with("says", sentence);
        }
        text += line.text();
    }
    return text;
}

std::optional<Instant> harvestOf(std::string_view canonical) {
    auto head = partsOf(canonical).head;
    while (!head.empty()) {
        const auto end = head.find('\n');
        const auto line = CanonicalLine::parse(head.substr(0, end));
        if (line.word() == "harvest") {
            const auto at = parseIsoTime(line.field("at"));
            return at ? std::optional{instantOf(at->wall, at->offset)} : std::nullopt;
        }
        head = end == std::string_view::npos ? std::string_view{} : head.substr(end + 1);
    }
    return std::nullopt;
}

}  // namespace midden
