// SPDX-License-Identifier: GPL-3.0-or-later
// Criteria as text: the file that ships and the group's own rules. The format is described in
// resources/criteria.schema.json; adding a rule is adding data.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/criteria/criterion.h"

namespace midden {

/// A whole file of criteria. A refusal names the criterion, the field, what was found and what was expected.
Result<std::vector<Criterion>> parseCriteria(std::string_view text);

/// The criteria of resources/criteria.json, as they were built in. Throws std::logic_error if that file is wrong.
const std::vector<Criterion>& shippedCriteria();

/// One criterion, as the logbook keeps the group's own. `ofTheGroup` is set. Its id may be neither `target` nor that
/// of a criterion that ships.
Result<Criterion> parseGroupCriterion(std::string_view text);
/// The text that parseGroupCriterion reads back.
std::string criterionText(const Criterion& criterion);

}  // namespace midden
