// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <vector>

class QPainter;

namespace midden::ui {

/// A piece of a page that is not broken over two.
struct PageBlock {
    double space = 0;  ///< above it, unless it comes first on a page
    double height = 0;
    std::function<void(QPainter& painter, double top)> draw;
    bool withNext = false;  ///< not to be left alone at the foot of a page
    bool atFoot = false;    ///< the last blocks of a certificate stand at the foot of its last page
};

/// A block and where it stands.
struct PlacedBlock {
    const PageBlock* block = nullptr;
    double top = 0;
};
using PlacedPage = std::vector<PlacedBlock>;

/// What all blocks take on one endless page.
double heightOf(const std::vector<PageBlock>& blocks);

/// Between which edges pages are filled.
struct PageFrame {
    double firstTop = 0;
    double laterTop = 0;  ///< of all but the first page
    double bottom = 0;
};

/// Puts blocks one below the other over as many pages as it takes. The result points into `blocks`. A block higher
/// than a page stands alone on one.
std::vector<PlacedPage> flow(const std::vector<PageBlock>& blocks, const PageFrame& frame);

}  // namespace midden::ui
