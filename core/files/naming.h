// SPDX-License-Identifier: GPL-3.0-or-later
// Giving finished files their names. No call here ever replaces what it was not told to replace.
#pragma once

#include <filesystem>

#include "core/files/destination.h"

namespace midden {

/// Gives `made`, a file or folder, the name if nobody has it, and puts that on the disk. False: somebody has it, and
/// `made` still has its own. Throws FileTrouble for what the machine refuses.
bool giveName(const std::filesystem::path& made, const std::filesystem::path& name);

/// Puts `made` in the place of the file that was found there, which has the name of `made` afterwards. False: another
/// file has the name by now, and all is as it was. Throws FileTrouble.
bool takePlaceOf(const struct stat& found, const std::filesystem::path& made, const std::filesystem::path& name);

/// What the folder lists is on the disk when this returns. A disk that cannot promise it is let be.
void syncFolder(const std::filesystem::path& folder) noexcept;

/// Every file and folder in there is on the disk when this returns. Throws FileTrouble.
void syncTree(const std::filesystem::path& folder);

}  // namespace midden
