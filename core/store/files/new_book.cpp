// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/files/new_book.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>

#include "core/files/naming.h"
#include "core/store/files/book_copy.h"
#include "core/store/state.h"

namespace midden {

namespace fs = std::filesystem;

namespace {

/// The lock that SQLite takes before it writes (https://www.sqlite.org/fileformat.html, "The Lock-Byte Page"), on a
/// file of 0 bytes, which SQLite itself could only lock by beginning to fill it. False: it is taken.
bool lockForWriting(int file) {
    constexpr off_t reservedByte = 0x40000001;
    struct flock lock {};
    lock.l_type = F_WRLCK;
    lock.l_whence = SEEK_SET;
    lock.l_start = reservedByte;
    lock.l_len = 1;
    return ::fcntl(file, F_OFD_SETLK, &lock) == 0 || (errno != EAGAIN && errno != EACCES);
}

void waitForLock(int file, const fs::path& book) {
    constexpr int mostLooks = 500;
    constexpr useconds_t moment = 10'000;
    for (int look = 0; !lockForWriting(file); ++look) {
        if (look == mostLooks) {
            throw LogbookError{LogbookError::Kind::busy,
                               "another program is writing to " + fileName(book) + "; try again in a moment"};
        }
        ::usleep(moment);
    }
}

/// Whoever fills a file of 0 bytes locks it first, so two programs never both take its place.
bool takePlaceOfEmpty(const Destination& place, const TemporaryBook& made) {
    const Descriptor empty{::open(place.path.c_str(), O_RDWR | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC)};
    if (!empty.isOpen()) {
        throw logbookErrorOf(troubleAt(place.path, errno));
    }
    waitForLock(empty.number(), place.path);
    return asLogbookError([&] {
        giveRights(made.path(), rightsIn(*place.there));
        return hasNoSideFiles(place) && takePlaceOf(*place.there, made.path(), place.path);
    });
}

}  // namespace

bool isUnwritten(const fs::path& file) {
    const auto destination = asLogbookError([&] { return destinationOf(file); });
    return !destination.isTaken() || destination.isEmptyFile();
}

bool beginBook(const fs::path& file, const std::function<void(Logbook&)>& fill) {
    const auto destination = asLogbookError([&] { return destinationOf(file); });
    if (destination.isTaken() && !destination.isEmptyFile()) {
        return false;
    }
    TemporaryBook passing{destination.path};
    {
        openState(passing.path(), Logbook::Mode::createIfAbsent, migrations).reset();
        auto book = Logbook::open(passing.path(), Logbook::Mode::readWrite);
        fill(book);
    }
    return destination.isTaken() ? takePlaceOfEmpty(destination, passing) : passing.takeName(destination.path);
}

}  // namespace midden
