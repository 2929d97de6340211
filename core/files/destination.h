// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <sys/stat.h>

#include <filesystem>
#include <optional>

#include "core/files/file_trouble.h"

namespace midden {

/// Which file of this computer it is, whatever it is called.
struct FileIdentity {
    dev_t device = 0;
    ino_t number = 0;
    friend bool operator==(const FileIdentity&, const FileIdentity&) = default;
};

/// Where a file that a person named comes to stand.
struct Destination {
    std::filesystem::path path;        ///< whole, with all links followed, also one that leads to nothing
    std::optional<struct stat> there;  ///< what stands there now

    bool isTaken() const { return there.has_value(); }
    bool isPlainFile() const { return there && S_ISREG(there->st_mode); }
    bool isEmptyFile() const { return isPlainFile() && there->st_size == 0; }
};

/// Throws FileTrouble where no file can stand: a name ending in "/", a circle of links, an absent folder, or a name
/// that SQLite would take for a side file of one that is there ("x-journal", "x-wal" and "x-shm" beside "x").
Destination destinationOf(const std::filesystem::path& named);

/// What the name stands for now, links not followed. No value: nothing.
std::optional<struct stat> fileStatus(const std::filesystem::path& file);
FileIdentity identityOf(const struct stat& status);

}  // namespace midden
