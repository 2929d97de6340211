// SPDX-License-Identifier: GPL-3.0-or-later
// Pointing at a layer at an instant, with the mouse and with keys.
#pragma once

#include "ui/layers/layers_plan.h"

namespace midden::ui {

/// A layer in a column of the history.
struct LayerSpot {
    std::size_t column = 0;
    std::size_t id = 0;

    auto operator<=>(const LayerSpot&) const = default;
};

/// The layer that lies there. In the cut: as it stands now. No value: none does.
std::optional<LayerSpot> layerNear(const LayersSource& source, const LayersLayout& layout, QPointF at);
/// One column later or earlier: the same layer, or, where it is not there any more or yet, the one in its place.
std::optional<LayerSpot> alongTime(const LayersSource& source, LayerSpot spot, bool later);
/// The layer above or below in the same column.
std::optional<LayerSpot> acrossLayers(const LayersSource& source, LayerSpot spot, bool up);
/// The same layer in the first or the last column it is in.
std::optional<LayerSpot> endOfLayer(const LayersSource& source, LayerSpot spot, bool last);
/// Where keys begin: the oldest layer, now.
std::optional<LayerSpot> firstSpot(const LayersSource& source);
/// Null: it is not in that column.
const LayerThen* layerOf(const LayersSource& source, LayerSpot spot);

/// A layer over all its time.
struct LayerBand {
    QPolygonF outline;
    QPolygonF uncertain;  ///< where it may have stood
};
LayerBand bandOf(const LayersSource& source, const LayersLayout& layout, std::size_t id);

}  // namespace midden::ui
