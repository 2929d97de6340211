// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/workplace.h"

#include <fcntl.h>
#include <stdlib.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/utsname.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <system_error>

namespace midden {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view folderStart = ".middenbook-";
constexpr std::size_t chanceLetters = 6;
constexpr auto markName = ".in-use";

/// Locks do not reach every other computer, so a folder also says on which one it was made.
std::string markText() {
    struct utsname here {};
    ::uname(&here);
    return std::string{
               "A Middenbook program is making a file in this folder and takes it away when it is done.\n"
               "If that program was stopped, the next one removes the folder.\nMade on: "} +
           static_cast<const char*>(here.nodename) + "\n";
}

bool isOfOurs(const struct stat& status) {
    return status.st_uid == ::geteuid();
}

/// Is this the mark we write, whole?
bool isOurMark(int mark) {
    struct stat status {};
    const auto text = markText();
    std::array<char, 512> found{};
    const bool fits = ::fstat(mark, &status) == 0 && S_ISREG(status.st_mode) && isOfOurs(status) &&
                      status.st_size == static_cast<off_t>(text.size()) && text.size() <= found.size();
    return fits && ::pread(mark, found.data(), text.size(), 0) == static_cast<ssize_t>(text.size()) &&
           text == std::string_view{found.data(), text.size()};
}

bool isNameOfOurs(const fs::path& folder) {
    const auto name = fileName(folder);
    return name.starts_with(folderStart) && name.size() == folderStart.size() + chanceLetters;
}

/// All but the mark first, so that what is left when this is killed still says what it is.
void removeAll(const fs::path& folder) {
    std::error_code ignored;
    for (const auto& entry : fs::directory_iterator{folder, ignored}) {
        if (entry.path().filename() != markName) {
            fs::remove_all(entry.path(), ignored);
        }
    }
    fs::remove(folder / markName, ignored);
    fs::remove(folder, ignored);
}

void removeIfLeft(const fs::path& folder) {
    struct stat status {};
    if (!isNameOfOurs(folder) || ::lstat(folder.c_str(), &status) != 0 || !S_ISDIR(status.st_mode) ||
        !isOfOurs(status)) {
        return;
    }
    const Descriptor mark{::open((folder / markName).c_str(), O_RDWR | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK)};
    if (!mark.isOpen()) {
        ::rmdir(folder.c_str());  // killed before it was marked: empty, or it stays
        return;
    }
    if (isOurMark(mark.number()) && ::flock(mark.number(), LOCK_EX | LOCK_NB) == 0) {
        removeAll(folder);
    }
}

}  // namespace

void tidyUpAfterKilled(const fs::path& place) noexcept {
    std::error_code problem;
    for (fs::directory_iterator each{place, problem}, end; !problem && each != end; each.increment(problem)) {
        removeIfLeft(each->path());
    }
}

Workplace::Workplace(const fs::path& wanted) {
    tidyUpAfterKilled(wanted.parent_path());
    constexpr int mostAttempts = 100;  // another program may remove a folder that is not marked yet
    for (int attempt = 0; attempt < mostAttempts && !mark_.isOpen(); ++attempt) {
        settle(wanted);
    }
    if (!mark_.isOpen()) {
        throw troubleAt(wanted, EAGAIN);
    }
    making_ = folder_ / (wanted.filename() == markName ? fs::path{"made"} : wanted.filename());
}

/// One attempt; `mark_` stays closed where it has to be made again.
void Workplace::settle(const fs::path& wanted) {
    auto folder = (wanted.parent_path() / (std::string{folderStart} + std::string(chanceLetters, 'X'))).string();
    if (::mkdtemp(folder.data()) == nullptr) {
        throw troubleAt(wanted, errno);
    }
    const auto text = markText();
    Descriptor mark{::open((fs::path{folder} / markName).c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0600)};
    const bool isOurs = mark.isOpen() && (::flock(mark.number(), LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK);
    const bool isMarked =
        isOurs && ::write(mark.number(), text.data(), text.size()) == static_cast<ssize_t>(text.size());
    const int error = errno;
    struct stat status {};
    if (isMarked && ::fstat(mark.number(), &status) == 0 && status.st_nlink > 0) {
        folder_ = folder;
        mark_ = std::move(mark);
        return;
    }
    removeAll(folder);
    if (error != ENOENT && error != EWOULDBLOCK && !isMarked) {
        throw troubleAt(wanted, error);
    }
}

Workplace::~Workplace() {
    removeAll(folder_);
}

}  // namespace midden
