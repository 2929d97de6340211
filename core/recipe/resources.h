// SPDX-License-Identifier: GPL-3.0-or-later
// The text of the tables in resources/, put into the program when it is built.
#pragma once

#include <string_view>

namespace midden::resources {

std::string_view materialsTable();
std::string_view earlierMaterialsTable();
std::string_view cautionsTable();
std::string_view factsTable();

}  // namespace midden::resources
