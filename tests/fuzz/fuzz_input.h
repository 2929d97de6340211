// SPDX-License-Identifier: GPL-3.0-or-later
// What every target needs: the bytes as text, a file that lives in memory, and a way to say that a law was broken.
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <string_view>

namespace midden::fuzz {

/// The bytes of one trial. The first may be taken off to choose between ways of asking.
class Input {
  public:
    Input(const std::uint8_t* data, std::size_t size)
        : bytes_{size == 0 ? std::string_view{} : std::string_view{reinterpret_cast<const char*>(data), size}} {}

    std::uint8_t takeByte() {
        if (bytes_.empty()) {
            return 0;
        }
        const auto first = static_cast<std::uint8_t>(bytes_.front());
        bytes_.remove_prefix(1);
        return first;
    }
    std::string_view text() const { return bytes_; }

  private:
    std::string_view bytes_;
};

/// A law of the program that must hold for every input. Stops at once, so that the input is kept as a crash.
inline void expect(bool holds, const char* law) {
    if (!holds) {
        std::fprintf(stderr, "broken: %s\n", law);
        std::abort();
    }
}

/// A file of these bytes that no disk holds.
class MemoryFile {
  public:
    explicit MemoryFile(std::string_view bytes);
    MemoryFile(const MemoryFile&) = delete;
    MemoryFile& operator=(const MemoryFile&) = delete;
    ~MemoryFile();

    std::filesystem::path path() const;

  private:
    int descriptor_;
};

/// A file name for SQLite, which needs a folder for its journal: in memory where the system has such a folder.
/// Nothing stands there yet; everything of that name is gone afterwards.
class BookFile {
  public:
    BookFile();
    BookFile(const BookFile&) = delete;
    BookFile& operator=(const BookFile&) = delete;
    ~BookFile();

    const std::filesystem::path& path() const { return path_; }
    void write(std::string_view bytes) const;

  private:
    void clear() const;
    std::filesystem::path path_;
};

/// Opens the file as a logbook and asks it everything a screen would, then writes an entry into it. The book may
/// refuse with a LogbookError at any point; nothing else may happen.
void readEverything(const std::filesystem::path& file);

}  // namespace midden::fuzz

/// libFuzzer's own name for a target. Always returns 0.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data,
                                      std::size_t size);  // NOLINT(readability-identifier-naming)
