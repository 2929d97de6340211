// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace midden {

/// What the tables of a book hold, in the plural and as people call it: "turnings and other airings" for `aeration`.
std::string kindWords(std::string_view table);

/// "among the observations is a value that no logbook holds"
std::string foreignValueAmong(std::string_view table);

/// What SQLite's quick_check or integrity_check found, told in words a steward understands; to be put behind "… is
/// damaged: ". Never SQLite's own text.
std::string damageWords(std::string_view found);

}  // namespace midden
