// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <set>
#include <string>

#include "core/exchange/export/export.h"
#include "tests/core/exchange/scratch.h"

namespace midden::testing {

/// Everything a book holds, as one text.
inline std::string contentsOf(const Logbook& book) {
    const Scratch space;
    exportLogbook(book, space.path("out"));
    std::set<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator{space.path("out")}) {
        if (entry.is_regular_file()) {
            files.insert(entry.path());
        }
    }
    std::string contents;
    for (const auto& file : files) {
        contents += std::filesystem::relative(file, space.path("out")).string() + "\n" + Scratch::read(file);
    }
    return contents;
}

}  // namespace midden::testing
