// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/process.h"

#include <fcntl.h>
#include <sys/mman.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <exception>
#include <new>
#include <string_view>

namespace midden::app {

namespace {

/// A stream that is closed is opened the wrong way round, so that using it fails as it would have.
void standOn(int stream, int mode) {
    if (::fcntl(stream, F_GETFD) < 0 && ::open("/dev/null", mode) < 0) {
        ::_exit(3);  // no number is free, or the system has no such device
    }
}

void endOrAbort() noexcept {
    try {
        if (const auto cause = std::current_exception()) {
            std::rethrow_exception(cause);
        }
    } catch (const std::bad_alloc&) {
        endWithoutMemory();
    } catch (...) {  // NOLINT(bugprone-empty-catch): a mistake of ours, which aborts
    }
    std::abort();
}

}  // namespace

void prepareProcess() {
    standOn(STDIN_FILENO, O_WRONLY);
    standOn(STDOUT_FILENO, O_RDONLY);
    standOn(STDERR_FILENO, O_RDWR);
    std::signal(SIGXFSZ, SIG_IGN);
    std::signal(SIGPIPE, SIG_IGN);
    std::set_terminate(endOrAbort);
}

bool standardOutputIsOpen() {
    const int mode = ::fcntl(STDOUT_FILENO, F_GETFL);
    return mode >= 0 && (mode & O_ACCMODE) != O_RDONLY;
}

void expectMemory(std::size_t bytes) {
    void* const room = ::mmap(nullptr, bytes, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    if (room == MAP_FAILED) {
        throw std::bad_alloc{};
    }
    ::munmap(room, bytes);
}

void endWithoutMemory() noexcept {
    constexpr std::string_view words = "This computer has not enough memory for that.\n";
    [[maybe_unused]] const auto told = ::write(STDERR_FILENO, words.data(), words.size());
    ::_exit(3);
}

}  // namespace midden::app
