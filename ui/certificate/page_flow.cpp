// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/certificate/page_flow.h"

#include <algorithm>

namespace midden::ui {

namespace {

constexpr double rounding = 0.01;  ///< page units; sums of the same heights may differ by less
using Iterator = std::vector<PageBlock>::const_iterator;

/// One past the blocks that have to stay with the one at `from`.
Iterator endOfGroup(Iterator from, Iterator end) {
    const bool foot = from->atFoot;
    while (from != end && (foot || from->withNext)) {
        ++from;
    }
    return from == end ? end : from + 1;
}

double heightOf(Iterator from, Iterator to) {
    double height = 0;
    for (auto block = from; block != to; ++block) {
        height += block->height + (block == from ? 0 : block->space);
    }
    return height;
}

/// The pages so far and where the last one is filled to.
class Pages {
  public:
    explicit Pages(const PageFrame& frame) : frame_{frame}, pages_(1), at_{frame.firstTop} {}

    void makeRoomFor(double space, double height) {
        if (!pages_.back().empty() && at_ + space + height > frame_.bottom + rounding) {
            pages_.emplace_back();
            at_ = frame_.laterTop;
        }
    }
    void goToFoot(double space, double height) {
        at_ = std::max(at_, frame_.bottom - height - (pages_.back().empty() ? 0 : space));
    }
    void put(const PageBlock& block) {
        makeRoomFor(block.space, block.height);
        at_ += pages_.back().empty() ? 0 : block.space;
        pages_.back().push_back({&block, at_});
        at_ += block.height;
    }
    std::vector<PlacedPage> take() { return std::move(pages_); }

  private:
    PageFrame frame_;
    std::vector<PlacedPage> pages_;
    double at_ = 0;
};

}  // namespace

double heightOf(const std::vector<PageBlock>& blocks) {
    return heightOf(blocks.begin(), blocks.end());
}

std::vector<PlacedPage> flow(const std::vector<PageBlock>& blocks, const PageFrame& frame) {
    Pages pages{frame};
    for (auto block = blocks.begin(); block != blocks.end();) {
        const auto end = endOfGroup(block, blocks.end());
        pages.makeRoomFor(block->space, heightOf(block, end));
        if (block->atFoot) {
            pages.goToFoot(block->space, heightOf(block, end));
        }
        for (; block != end; ++block) {
            pages.put(*block);
        }
    }
    return pages.take();
}

}  // namespace midden::ui
