// SPDX-License-Identifier: GPL-3.0-or-later
// A SQLite file read page by page without SQLite, which gives up where a page is damaged. Names and layout follow
// "Database File Format", sqlite.org/fileformat2.html, sections 1.3 (header), 1.5 (free pages), 1.6 (b-tree pages).
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace midden::salvage {

using PageNumber = std::uint32_t;  ///< counted from 1; 0 = none
using Bytes = std::span<const unsigned char>;

std::uint32_t bigEndian(Bytes bytes, std::size_t at, std::size_t count);

/// The whole file in memory.
class Pages {
  public:
    explicit Pages(std::string file);

    PageNumber count() const { return count_; }
    /// Empty where the file has no such page, or only a part of it.
    Bytes page(PageNumber number) const;
    /// Bytes of a page that hold content.
    std::size_t usable() const { return size_; }
    /// The pages that hold nothing any more, as far as the list of them can be followed.
    std::vector<PageNumber> freePages() const;

  private:
    void readSize();
    void guessSize();
    void setSize(std::size_t size);
    /// How many of the pages begin as those of trees do, as a share of all.
    double soundShare() const;

    std::string file_;
    std::size_t size_ = 0;
    PageNumber count_ = 0;
};

enum class PageKind : std::uint8_t { indexInterior = 2, tableInterior = 5, indexLeaf = 10, tableLeaf = 13 };

/// A b-tree page whose head makes sense.
struct TreePage {
    PageKind kind{};
    Bytes bytes;
    std::vector<std::size_t> cells;  ///< where each starts
    PageNumber lastChild = 0;

    bool isIndex() const { return kind == PageKind::indexInterior || kind == PageKind::indexLeaf; }
    bool isLeaf() const { return kind == PageKind::indexLeaf || kind == PageKind::tableLeaf; }
};
std::optional<TreePage> treePage(const Pages& pages, PageNumber number);

}  // namespace midden::salvage
