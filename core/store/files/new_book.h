// SPDX-License-Identifier: GPL-3.0-or-later
// How a book comes into being: it is made under a passing name and gets its own when it is whole.
#pragma once

#include <filesystem>
#include <functional>

#include "core/store/logbook.h"

namespace midden {

/// Is there no book at that name yet: nothing, a link that leads to nothing, or a file of 0 bytes? Throws LogbookError
/// where there can be none.
bool isUnwritten(const std::filesystem::path& file);

/// Makes the book at a name that is unwritten, with what `fill` puts into it. When `fill` throws, all is as it was.
/// False: another program has begun a book there meanwhile, and what `fill` did is gone. Throws LogbookError.
/// Its owner alone may read and write the new book; one in the place of a file of 0 bytes gets the rights of that.
bool beginBook(const std::filesystem::path& file, const std::function<void(Logbook&)>& fill);

}  // namespace midden
