// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

namespace midden {

/// resources/criteria.json, put into the program when it is built.
std::string_view criteriaText();

}  // namespace midden
