// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <memory>
#include <string_view>

#include "core/exchange/refusal.h"

namespace midden {

/// The bytes of a file, read in once. Not mapped: a mapped file that another program cuts short meanwhile, or that lies
/// on a stick pulled out, would end this program at the next look at it.
class FileText {
  public:
    static FileResult<FileText> open(const std::filesystem::path& file);

    std::string_view text() const { return {bytes_.get(), size_}; }

  private:
    FileText() = default;
    int readAll(int descriptor, std::size_t expected);
    void growTo(std::size_t capacity);

    std::unique_ptr<char[]> bytes_;
    std::size_t size_ = 0;
    std::size_t capacity_ = 0;
};

}  // namespace midden
