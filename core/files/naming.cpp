// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/naming.h"

#include <fcntl.h>
#include <stdio.h>
#include <unistd.h>

#include <cerrno>

#include "core/files/descriptor.h"

namespace midden {

namespace fs = std::filesystem;

namespace {

bool isUnknownHere(int error) {
    return error == EINVAL || error == ENOSYS || error == ENOTSUP || error == EPERM || error == EMLINK;
}

/// On a disk without links: a look, and then a renaming.
bool renameIfFree(const fs::path& made, const fs::path& name) {
    if (fileStatus(name)) {
        return false;
    }
    if (::rename(made.c_str(), name.c_str()) != 0) {
        throw troubleAt(name, errno);
    }
    return true;
}

/// For disks that know no renaming of the kind wanted. A link, unlike a renaming, never replaces anything.
bool linkName(const fs::path& made, const fs::path& name) {
    if (::link(made.c_str(), name.c_str()) == 0) {
        ::unlink(made.c_str());
        return true;
    }
    if (errno == EEXIST) {
        return false;
    }
    if (isUnknownHere(errno)) {
        return renameIfFree(made, name);
    }
    throw troubleAt(name, errno);
}

bool isSame(const struct stat& one, const struct stat& other) {
    return identityOf(one) == identityOf(other) && one.st_size == other.st_size &&
           one.st_mtim.tv_sec == other.st_mtim.tv_sec && one.st_mtim.tv_nsec == other.st_mtim.tv_nsec;
}

bool stands(const struct stat& found, const fs::path& name) {
    const auto now = fileStatus(name);
    return now && isSame(*now, found);
}

bool swapNames(const fs::path& one, const fs::path& other) {
    return ::renameat2(AT_FDCWD, one.c_str(), AT_FDCWD, other.c_str(), RENAME_EXCHANGE) == 0;
}

void syncFile(const fs::path& file) {
    const Descriptor opened{::open(file.c_str(), O_RDONLY | O_CLOEXEC)};
    if (!opened.isOpen() || ::fsync(opened.number()) != 0) {
        throw troubleAt(file, errno);
    }
}

}  // namespace

bool giveName(const fs::path& made, const fs::path& name) {
    if (::renameat2(AT_FDCWD, made.c_str(), AT_FDCWD, name.c_str(), RENAME_NOREPLACE) != 0) {
        if (errno == EEXIST) {
            return false;
        }
        if (!isUnknownHere(errno)) {
            throw troubleAt(name, errno);
        }
        if (!(fs::is_directory(made) ? renameIfFree(made, name) : linkName(made, name))) {
            return false;
        }
    }
    syncFolder(name.parent_path());
    return true;
}

bool takePlaceOf(const struct stat& found, const fs::path& made, const fs::path& name) {
    if (!stands(found, name)) {
        return false;
    }
    if (swapNames(made, name)) {
        if (!stands(found, made)) {  // somebody was quicker: theirs goes back
            swapNames(made, name);
            return false;
        }
    } else if (!isUnknownHere(errno)) {
        throw troubleAt(name, errno);
    } else if (::rename(made.c_str(), name.c_str()) != 0) {
        throw troubleAt(name, errno);
    }
    syncFolder(name.parent_path());
    return true;
}

void syncFolder(const fs::path& folder) noexcept {
    const Descriptor opened{::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)};
    if (opened.isOpen()) {
        ::fsync(opened.number());
    }
}

void syncTree(const fs::path& folder) {
    for (const auto& entry : fs::directory_iterator{folder}) {
        entry.is_directory() ? syncTree(entry.path()) : syncFile(entry.path());
    }
    syncFolder(folder);
}

}  // namespace midden
