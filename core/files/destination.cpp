// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/destination.h"

#include <algorithm>
#include <cerrno>
#include <string_view>
#include <system_error>

namespace midden {

namespace fs = std::filesystem;
using Kind = FileTrouble::Kind;

namespace {

constexpr int mostLinks = 40;  // as many as Linux follows (path_resolution(7))

/// SQLite takes such a file for a part of the book beside it.
void expectNoSideName(const fs::path& file) {
    const auto name = fileName(file);
    for (const std::string_view end : {"-journal", "-wal", "-shm"}) {
        const auto book = name.substr(0, name.size() - std::min(end.size(), name.size()));
        if (name.ends_with(end) && !book.empty() && fileStatus(file.parent_path() / book)) {
            throw FileTrouble{Kind::refused,
                              name + " is a name that only " + book + " itself may use; expected another name"};
        }
    }
}

fs::path wholeFolder(const fs::path& file) {
    std::error_code problem;
    auto folder = fs::canonical(file.has_parent_path() ? file.parent_path() : fs::path{"."}, problem);
    if (problem) {
        throw troubleAt(file, problem.value());
    }
    return folder;
}

}  // namespace

std::string fileName(const fs::path& file) {
    const auto name = file.filename().u8string();
    return {name.begin(), name.end()};
}

FileTrouble troubleAt(const fs::path& name, int error) {
    const auto shown = fileName(name);
    switch (error) {
        case ENOSPC:
        case EDQUOT:
        case EFBIG:
            return {Kind::full, "there is no space left for " + shown};
        case ENOENT:
        case ENOTDIR:
            return {Kind::unwritable, "there is no folder " + name.parent_path().string() + " for " + shown};
        case EACCES:
        case EPERM:
        case EROFS:
            return {Kind::unwritable, shown + " or its folder cannot be written to"};
        case ELOOP:
            return {Kind::refused, shown + " is a link that leads round in a circle"};
        case ENAMETOOLONG:
            return {Kind::refused, shown + " is too long a name"};
        default:
            return {Kind::failed, shown + " cannot be written: " + std::generic_category().message(error)};
    }
}

std::optional<struct stat> fileStatus(const fs::path& file) {
    struct stat status {};
    if (::lstat(file.c_str(), &status) == 0) {
        return status;
    }
    if (errno == ENOENT) {
        return std::nullopt;
    }
    throw troubleAt(file, errno);
}

FileIdentity identityOf(const struct stat& status) {
    return {status.st_dev, status.st_ino};
}

Destination destinationOf(const fs::path& named) {
    fs::path file = named;
    for (int links = 0; links <= mostLinks; ++links) {
        if (!file.has_filename() || file.filename() == "." || file.filename() == "..") {
            throw FileTrouble{Kind::refused, named.string() + " is the name of a folder; expected that of a file"};
        }
        const auto whole = wholeFolder(file) / file.filename();
        const auto there = fileStatus(whole);
        if (!there || !S_ISLNK(there->st_mode)) {
            Destination found{whole, there};
            if (!there || found.isEmptyFile()) {
                expectNoSideName(whole);
            }
            return found;
        }
        std::error_code problem;
        file = whole.parent_path() / fs::read_symlink(whole, problem);
        if (problem) {
            throw troubleAt(whole, problem.value());
        }
    }
    throw troubleAt(named, ELOOP);
}

}  // namespace midden
