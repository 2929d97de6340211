// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <filesystem>

namespace midden::bench {

/// What reading the file costs at the very least: a parser for the benchmark's four columns and their one way of
/// writing times and numbers, over a mapping, every character checked, nothing stored.
struct Floor {
    std::int64_t rows = 0;
    std::int64_t sum = 0;  ///< of instants and temperatures, so that nothing can be left out
};
Floor parseOnly(const std::filesystem::path& file);

}  // namespace midden::bench
