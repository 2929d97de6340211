// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/rights.h"

#include <unistd.h>

#include <cerrno>

#include "core/files/file_trouble.h"

namespace midden {

namespace fs = std::filesystem;

namespace {

constexpr mode_t allBits = 0777;

mode_t withoutGroup(mode_t bits) {
    const mode_t everybody = bits & 0007U;
    return (bits & 0707U) | (bits & 0070U & (everybody << 3U));
}

}  // namespace

Rights rightsIn(const struct stat& status) {
    return {status.st_mode & allBits, status.st_gid};
}

Rights rightsOf(const fs::path& file) {
    struct stat status {};
    return ::stat(file.c_str(), &status) == 0 ? rightsIn(status) : Rights{};
}

void giveRights(const fs::path& made, const Rights& rights) {
    struct stat status {};
    if (::stat(made.c_str(), &status) != 0) {
        throw troubleAt(made, errno);
    }
    const bool hasGroup = !rights.group || *rights.group == status.st_gid ||
                          ::chown(made.c_str(), static_cast<uid_t>(-1), *rights.group) == 0;
    if (::chmod(made.c_str(), hasGroup ? rights.bits : withoutGroup(rights.bits)) != 0) {
        throw troubleAt(made, errno);
    }
}

}  // namespace midden
