// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <sys/stat.h>

#include <filesystem>
#include <optional>

namespace midden {

/// Who may do what with a file: the nine bits of chmod(1), and whose group it is.
struct Rights {
    mode_t bits = 0600;
    std::optional<gid_t> group;
};

/// Those of a file that is there; without one, those of a new book: its owner may read and write it, nobody else.
Rights rightsOf(const std::filesystem::path& file);
Rights rightsIn(const struct stat& status);

/// A file of ours gets these rights. Where it cannot have that group, its own group may do what everybody may.
/// Throws FileTrouble.
void giveRights(const std::filesystem::path& made, const Rights& rights);

}  // namespace midden
