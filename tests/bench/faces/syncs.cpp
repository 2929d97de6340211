// SPDX-License-Identifier: GPL-3.0-or-later
// Stands between SQLite and the system, so that waiting for the disk can be told from our own work.
#include <sys/syscall.h>
#include <unistd.h>

#include <atomic>

#include "tests/bench/faces/parts.h"
#include "tests/bench/row.h"

namespace midden::bench {

namespace {

std::atomic<double> waited = 0;

int timed(long call, int file) {
    const double begun = wallNanoseconds();
    const long result = syscall(call, file);
    waited = waited + (wallNanoseconds() - begun);
    return static_cast<int>(result);
}

}  // namespace

double syncNanoseconds() {
    return waited;
}

}  // namespace midden::bench

// NOLINTBEGIN(readability-inconsistent-declaration-parameter-name): the system's header has names that are reserved
extern "C" int fsync(int file) {
    return midden::bench::timed(SYS_fsync, file);
}

extern "C" int fdatasync(int file) {
    return midden::bench::timed(SYS_fdatasync, file);
}
// NOLINTEND(readability-inconsistent-declaration-parameter-name)
