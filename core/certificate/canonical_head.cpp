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
    return text;
}

}  // namespace midden
