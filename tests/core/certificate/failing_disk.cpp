// SPDX-License-Identifier: GPL-3.0-or-later
// Loaded before the C library (LD_PRELOAD): no PDF gets a name, and from then on nothing can be written.
#include <dlfcn.h>
#include <sys/types.h>

#include <cerrno>
#include <cstring>

namespace {

bool isBroken = false;

template <class Function>
Function* next(const char* name) {
    Function* function = nullptr;
    void* const found = ::dlsym(RTLD_NEXT, name);
    std::memcpy(&function, &found, sizeof found);
    return function;
}

}  // namespace

extern "C" {

int renameat2(int oldFolder, const char* oldName, int newFolder, const char* newName, unsigned int flags) {
    const std::size_t length = std::strlen(newName);
    if (length > 4 && std::strcmp(newName + length - 4, ".pdf") == 0) {
        isBroken = true;
        errno = EIO;
        return -1;
    }
    return next<int(int, const char*, int, const char*, unsigned int)>("renameat2")(oldFolder, oldName, newFolder,
                                                                                    newName, flags);
}

ssize_t pwrite64(int file, const void* bytes, std::size_t size, off64_t at) {
    if (isBroken) {
        errno = EIO;
        return -1;
    }
    return next<ssize_t(int, const void*, std::size_t, off64_t)>("pwrite64")(file, bytes, size, at);
}

ssize_t write(int file, const void* bytes, std::size_t size) {
    if (isBroken && file > 2) {
        errno = EIO;
        return -1;
    }
    return next<ssize_t(int, const void*, std::size_t)>("write")(file, bytes, size);
}
}
