// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/sqlite/second_name.h"

#include <sys/stat.h>
#include <unistd.h>

#include <system_error>

#include "core/files/destination.h"
#include "core/records/entries.h"
#include "core/store/sqlite/logbook_error.h"

namespace midden {

namespace fs = std::filesystem;
using Kind = LogbookError::Kind;

namespace {

/// No value where it cannot be looked at, which opening it will say.
std::optional<struct stat> statusOf(const fs::path& book) {
    struct stat status {};
    return ::stat(book.c_str(), &status) == 0 ? std::optional{status} : std::nullopt;
}

bool hasSecondName(const fs::path& book) {
    const auto status = statusOf(book);
    return status && status->st_nlink > 1;
}

bool hasJournal(const fs::path& book) {
    const auto journal = statusOf(fs::path{book} += "-journal");
    return journal && journal->st_size > 0;
}

}  // namespace

void expectOneName(const fs::path& book) {
    // On a disk that cannot rename without replacing, a file has two names for a moment while it gets its own.
    constexpr int mostLooks = 20;
    constexpr useconds_t moment = 10'000;
    for (int look = 1; hasSecondName(book); ++look) {
        if (look == mostLooks) {
            throw SecondName{fileName(book) +
                             " has a second name (a hard link), and what is written under one "
                             "name can be lost under the other, so it can only be read; make a "
                             "file of its own with \"middenbook backup\" and write in that"};
        }
        ::usleep(moment);
    }
}

void expectNoBrokenChange(const fs::path& book) {
    std::error_code problem;
    const auto real = fs::canonical(book, problem);
    const auto status = problem ? std::nullopt : statusOf(real);
    if (!status || status->st_nlink < 2) {
        return;
    }
    for (fs::directory_iterator each{real.parent_path(), problem}, end; !problem && each != end;
         each.increment(problem)) {
        const auto other = statusOf(each->path());
        if (other && identityOf(*other) == identityOf(*status) && hasJournal(each->path())) {
            const auto name = fileName(each->path());
            throw LogbookError{Kind::failed, fileName(book) + " has a second name (a hard link), and a change made " +
                                                 "under the name " + name +
                                                 " was broken off; remove the other names and open " + name};
        }
    }
}

}  // namespace midden
