// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QRectF>
#include <functional>

#include "core/quantities/temperature.h"
#include "core/quantities/zone.h"
#include "core/thermal/interval.h"
#include "ui/layers/layers_source.h"

namespace midden::ui {

/// A mark on an axis.
struct LayersTick {
    double place = 0;  ///< x or y; of `LayersFrame::dates`, UTC seconds
    QString label;
};

/// How the picture is wanted. Sizes are in pixels, or whatever unit `textWidth` measures in.
struct LayersFrame {
    QSizeF size;
    double line = 16;                                 ///< height of a line of text
    std::function<double(const QString&)> textWidth;  ///< of the font the words are written in
    TimeZone zone = TimeZone::utc();
    TemperatureUnit unit = TemperatureUnit::celsius;
    /// On paper nothing depends on the desktop: numbers have a point and degrees are Celsius. Dates are those given.
    bool onPaper = false;
    std::function<std::vector<LayersTick>(const Interval& visible)> dates;
};

/// Where the parts of the picture lie, and what lies where. Heights are litres below, which is all that is known of
/// every bin.
struct LayersLayout {
    QRectF legend;
    QRectF plot;
    QRectF taken;  ///< under the floor, where harvests leave
    QRectF times;
    QRectF cut;    ///< the bin as it stands now
    QRectF names;  ///< right of it, of thermometers
    Interval visible;
    double topLitres = 1;

    double xOf(Instant at) const;
    double yOf(double litres) const;
    /// Clamped to the visible stretch.
    Instant instantAt(double x) const;
    double litresAt(double y) const;
};

/// A number as it is written on that picture.
QString numberOn(const LayersFrame& frame, double number, int decimals);

struct LayersKey;
/// The keys of the legend in rows no wider than this, from the left upper corner of the first.
std::vector<LayersKey> legendOf(const LayersSource& source, const LayersFrame& frame, double width);

LayersLayout layoutOf(const LayersSource& source, const LayersFrame& frame);

}  // namespace midden::ui
