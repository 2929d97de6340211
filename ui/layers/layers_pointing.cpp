// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/layers/layers_pointing.h"

#include <algorithm>
#include <cmath>

namespace midden::ui {

namespace {

std::optional<std::size_t> placeOf(const LayerColumn& column, std::size_t id) {
    const auto found = std::ranges::lower_bound(column.layers, id, {}, &LayerThen::id);
    const bool isThere = found != column.layers.end() && found->id == id;
    return isThere ? std::optional{static_cast<std::size_t>(found - column.layers.begin())} : std::nullopt;
}

std::optional<LayerSpot> layerAt(const LayersSource& source, std::size_t column, double litres) {
    const auto& layers = source.history.columns[column].layers;
    const auto found = std::ranges::find_if(layers, [&](const LayerThen& layer) { return layer.toLitres > litres; });
    return litres < 0 || found == layers.end() ? std::nullopt : std::optional{LayerSpot{column, found->id}};
}

/// The outline of what lies between two heights over time.
class Outline {
  public:
    void add(double x, double lower, double upper) {
        lower_.append({x, lower});
        upper_.append({x, upper});
    }
    void endInto(QPolygonF& outline) {
        std::ranges::reverse_copy(lower_, std::back_inserter(upper_));
        outline = std::move(upper_);
    }

  private:
    QPolygonF lower_;
    QPolygonF upper_;
};

}  // namespace

std::optional<LayerSpot> layerNear(const LayersSource& source, const LayersLayout& layout, QPointF at) {
    if (source.isEmpty()) {
        return {};
    }
    const auto& columns = source.history.columns;
    if (layout.cut.contains(at)) {
        return layerAt(source, columns.size() - 1, layout.litresAt(at.y()));
    }
    if (!layout.plot.contains(at)) {
        return {};
    }
    const Instant then = layout.instantAt(at.x());
    const auto later = std::ranges::upper_bound(columns, then, {}, &LayerColumn::at);
    if (later == columns.begin()) {
        return {};
    }
    return layerAt(source, static_cast<std::size_t>(later - columns.begin()) - 1, layout.litresAt(at.y()));
}

std::optional<LayerSpot> alongTime(const LayersSource& source, LayerSpot spot, bool later) {
    const auto& columns = source.history.columns;
    const auto* layer = layerOf(source, spot);
    if (layer == nullptr || (later ? spot.column + 1 >= columns.size() : spot.column == 0)) {
        return {};
    }
    const auto column = later ? spot.column + 1 : spot.column - 1;
    if (placeOf(columns[column], spot.id)) {
        return LayerSpot{column, spot.id};
    }
    const double surface = columns[column].surfaceLitres();
    const double middle = (layer->fromLitres + layer->toLitres) / 2;
    return layerAt(source, column, std::min(middle, std::nextafter(surface, 0.0)));
}

std::optional<LayerSpot> acrossLayers(const LayersSource& source, LayerSpot spot, bool up) {
    const auto& column = source.history.columns[spot.column];
    const auto place = placeOf(column, spot.id);
    if (!place || (up ? *place + 1 >= column.layers.size() : *place == 0)) {
        return {};
    }
    return LayerSpot{spot.column, column.layers[up ? *place + 1 : *place - 1].id};
}

std::optional<LayerSpot> endOfLayer(const LayersSource& source, LayerSpot spot, bool last) {
    while (true) {
        const LayerSpot next{last ? spot.column + 1 : spot.column - 1, spot.id};
        if ((!last && spot.column == 0) || layerOf(source, next) == nullptr) {
            return spot;
        }
        spot = next;
    }
}

std::optional<LayerSpot> firstSpot(const LayersSource& source) {
    return source.isEmpty() ? std::nullopt : layerAt(source, source.history.columns.size() - 1, 0);
}

const LayerThen* layerOf(const LayersSource& source, LayerSpot spot) {
    if (spot.column >= source.history.columns.size()) {
        return nullptr;
    }
    const auto& column = source.history.columns[spot.column];
    const auto place = placeOf(column, spot.id);
    return place ? &column.layers[*place] : nullptr;
}

LayerBand bandOf(const LayersSource& source, const LayersLayout& layout, std::size_t id) {
    LayerBand band;
    Outline outline;
    Outline uncertain;
    const auto& columns = source.history.columns;
    const auto add = [&](double x, const LayerThen& layer) {
        outline.add(x, layout.yOf(layer.fromLitres), layout.yOf(layer.toLitres));
        uncertain.add(x, layout.yOf(layer.lowestLitres), layout.yOf(layer.highestLitres));
    };
    for (std::size_t i = 0; i < columns.size(); ++i) {
        const auto place = placeOf(columns[i], id);
        if (!place) {
            continue;
        }
        add(layout.xOf(columns[i].at), columns[i].layers[*place]);
        const bool happens = i + 1 < columns.size() && !columns[i + 1].follows;
        if (happens) {  // it stays as it is until then
            add(layout.xOf(columns[i + 1].at), columns[i].layers[*place]);
        }
    }
    outline.endInto(band.outline);
    uncertain.endInto(band.uncertain);
    return band;
}

}  // namespace midden::ui
