// SPDX-License-Identifier: GPL-3.0-or-later
// Everything the picture of a fed bin's layers says, before anything is drawn: the window and paper share it.
#pragma once

#include <QPolygonF>
#include <array>
#include <vector>

#include "ui/layers/layers_layout.h"

namespace midden::ui {

/// How long a layer has been kept hot, at least: one tone for each of these.
enum class HeatTone : std::uint8_t { none = 0, some = 1, day = 2, threeDays = 3, week = 4, notRaw = 5 };
inline constexpr std::size_t tones = 6;
/// Where one tone ends and the next begins; a line goes along there.
inline constexpr std::array contourHours{24, 72, 168};

HeatTone toneOf(const LayerThen& layer, const LayerOrigin& origin);

/// Layers that lie together and have the same tone, as long as they do.
struct LayersArea {
    HeatTone tone{};
    QPolygonF outline;
};
/// Along edges of layers that have had so many hours and others that have not.
struct LayersContour {
    int hours = 0;
    QPolygonF line;
};
struct LayersReach {
    std::size_t look = 0;
    QPolygonF upper;
    QPolygonF lower;
};
/// A thermometer whose height is known.
struct LayersThermometer {
    std::size_t look = 0;
    double y = 0;
    double labelY = 0;  ///< the middle of its words, which keep clear of one another
    QString name;
    QString temperature;     ///< its latest reading; empty where there is none
    bool isMissing = false;  ///< there is none, and one would help
};
/// Something at an instant: a feed on the surface, a level, a harvest at the floor.
struct LayersMark {
    EventKind kind{};
    QPointF place;
    int count = 1;  ///< those too close to tell apart stand as one
    QString label;  ///< empty where it would run into its neighbour
};
/// Turned or forked: from here down to there all is mixed.
struct LayersFault {
    double x = 0;
    double top = 0;
    double bottom = 0;
    QString label;
};
/// One tone of the legend.
struct LayersKey {
    HeatTone tone{};
    QPointF swatch;  ///< its left upper corner
    QString words;
};
/// Layers of one tone in the cut, and the hours they have had.
struct LayersCut {
    HeatTone tone{};
    QRectF area;
    QString label;
};

/// The swatches of the legend, and what is left free between them.
inline constexpr double swatchWidth = 26;
inline constexpr double besideSwatch = 5;
inline constexpr double betweenKeys = 14;

struct LayersPlan {
    LayersLayout layout;
    QString unitLabel;  ///< of the heights: "cm", or "L" where the bin's height is not known
    std::vector<LayersTick> times;
    std::vector<LayersTick> heights;
    std::vector<LayersArea> areas;
    std::vector<QPolygonF> seams;  ///< between one feed and the next
    std::vector<LayersContour> contours;
    QPolygonF surface;
    std::vector<LayersReach> reaches;
    std::vector<LayersThermometer> thermometers;
    std::vector<LayersMark> marks;
    std::vector<LayersFault> faults;
    std::vector<LayersCut> cut;
    std::vector<double> cutSeams;
    std::optional<double> bucketTop;  ///< y
    std::optional<double> hatchTop;   ///< y
    QString hotAt;                    ///< what the legend is of
    std::vector<LayersKey> legend;
    QString cutTitle;
    QString bucketLabel;
    QString hatchLabel;
};

LayersPlan layersPlan(const LayersSource& source, const LayersFrame& frame);

}  // namespace midden::ui
