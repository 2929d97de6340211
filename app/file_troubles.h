// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>

namespace midden::app {

/// Which file or folder the system refused, why, and what was expected, in one sentence.
std::string inWords(const std::filesystem::filesystem_error& trouble);

}  // namespace midden::app
