// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/fuzz/fuzz_input.h"

#include <sys/mman.h>
#include <unistd.h>

#include <fstream>

namespace midden::fuzz {

namespace fs = std::filesystem;

MemoryFile::MemoryFile(std::string_view bytes) : descriptor_{::memfd_create("trial", MFD_CLOEXEC)} {
    expect(descriptor_ >= 0 && ::ftruncate(descriptor_, 0) == 0, "a file in memory can be made");
    const auto written = ::write(descriptor_, bytes.data(), bytes.size());
    expect(written == static_cast<ssize_t>(bytes.size()), "a file in memory can be written");
}

MemoryFile::~MemoryFile() {
    ::close(descriptor_);
}

fs::path MemoryFile::path() const {
    return "/proc/self/fd/" + std::to_string(descriptor_);
}

BookFile::BookFile() {
    const fs::path memory{"/dev/shm"};
    path_ = (fs::is_directory(memory) ? memory : fs::temp_directory_path()) /
            ("middenbook-fuzz-" + std::to_string(::getpid()) + ".midden");
    clear();
}

BookFile::~BookFile() {
    clear();
}

void BookFile::write(std::string_view bytes) const {
    std::ofstream{path_, std::ios::binary} << bytes;
}

void BookFile::clear() const {
    std::error_code ignored;
    for (const char* suffix : {"", "-journal", "-wal", "-shm"}) {
        fs::remove(path_.string() + suffix, ignored);
    }
}

}  // namespace midden::fuzz
