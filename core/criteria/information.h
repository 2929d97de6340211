// SPDX-License-Identifier: GPL-3.0-or-later
// Rules that say something to people who keep a bin, but set nothing to judge readings by.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/criteria/criterion.h"

namespace midden {

/// Shown in Setup and, where the steward chooses it, on the certificate. Never judged: it has no verdict.
struct Information {
    std::string id;  ///< never one of a criterion's
    std::string title;
    std::string jurisdiction;
    Citation source;
    std::string scope;              ///< for whom the rule is written
    std::vector<std::string> says;  ///< a sentence each
};

/// The rows under "information" of a file of criteria, in its order; none there is no fault. A refusal names the row,
/// the field, what was found and what was expected.
Result<std::vector<Information>> parseInformation(std::string_view text);

/// Those of resources/criteria.json. Throws std::logic_error if that file is wrong.
const std::vector<Information>& shippedInformation();

/// The one of that id; null when there is none.
const Information* informationOf(std::string_view id);

}  // namespace midden
