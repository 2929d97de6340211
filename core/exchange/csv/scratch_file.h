// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <span>

#include "core/files/descriptor.h"

namespace midden {

/// Where long imports keep what does not fit into memory, unless another folder is handed in. Not /tmp, which many
/// machines keep in memory itself (Filesystem Hierarchy Standard 3.0, section 5.15: /var/tmp).
inline const std::filesystem::path usualScratchFolder{"/var/tmp"};

/// A file without a name: nobody else sees it, and it is gone with the program, however that ends.
/// Throws LogbookError when the folder cannot be written or is full.
class ScratchFile {
  public:
    explicit ScratchFile(const std::filesystem::path& folder);

    /// Writes behind what is there; says where it begins.
    std::uint64_t append(std::span<const std::byte> bytes);
    /// Bytes written before; all of `into` is filled.
    void read(std::uint64_t offset, std::span<std::byte> into) const;
    std::uint64_t size() const { return size_; }

  private:
    [[noreturn]] void fail(int error) const;

    std::filesystem::path folder_;
    Descriptor file_;
    std::uint64_t size_ = 0;
};

}  // namespace midden
