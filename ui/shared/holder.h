// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <filesystem>

namespace midden::ui {

/// Which other program on this computer holds a lock on the file, as the system itself tells it: "sqlite3 (process
/// 4711)". Empty when it does not say: the program is on another computer, has let go by now, or this is not Linux.
QString lockHolder(const std::filesystem::path& file);

}  // namespace midden::ui
