// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "core/exchange/refusal.h"

namespace midden {

/// The bytes of a file, mapped rather than copied, so that a logger's 400 MB cost no memory of ours.
/// What cannot be mapped (a pipe) is read in.
class FileText {
  public:
    static FileResult<FileText> open(const std::filesystem::path& file);

    FileText(const FileText&) = delete;
    FileText& operator=(const FileText&) = delete;
    FileText(FileText&& other) noexcept;
    FileText& operator=(FileText&&) = delete;
    ~FileText();

    std::string_view text() const { return mapped_ != nullptr ? std::string_view{mapped_, size_} : read_; }

  private:
    FileText() = default;
    const char* mapped_ = nullptr;
    std::size_t size_ = 0;
    std::string read_;
};

}  // namespace midden
