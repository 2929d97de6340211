// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <string_view>

#include "core/exchange/csv/refusal.h"

namespace midden {

/// A text that is asked for a piece at a time, so that it need not fit into memory.
/// A file is read, not mapped: a mapped file that another program cuts short meanwhile, or that lies on a stick pulled
/// out, would end this program at the next look at it.
class TextSource {
  public:
    /// A file, or a pipe; what came out of a pipe is kept in `scratchFolder` to be read again.
    static FileResult<std::shared_ptr<TextSource>> open(const std::filesystem::path& file,
                                                        const std::filesystem::path& scratchFolder);
    /// A text that lives as long as this.
    static std::shared_ptr<TextSource> ofText(std::string_view text);

    TextSource() = default;
    TextSource(const TextSource&) = delete;
    TextSource& operator=(const TextSource&) = delete;
    virtual ~TextSource() = default;

    /// Fills `into` from `offset` on and says how far; less than all of it only at the end of the text.
    virtual FileResult<std::size_t> read(std::uint64_t offset, std::span<char> into) = 0;
    /// In bytes; 0 = not known.
    virtual std::uint64_t size() const { return 0; }
    /// Was the text another one when it was opened?
    virtual std::optional<Problem> changed() const { return std::nullopt; }
};

}  // namespace midden
