// SPDX-License-Identifier: GPL-3.0-or-later
// Everything the picture of a batch says, before anything is drawn: the window and the certificate share it.
#pragma once

#include <QString>
#include <functional>
#include <vector>

#include "core/quantities/zone.h"
#include "core/records/batch_record.h"
#include "core/review/batch_review.h"
#include "core/review/outlook.h"
#include "ui/chart/chart_heat.h"

namespace midden::ui {

struct ChartPoint {
    Instant at;
    double celsius = 0;
};
/// Consecutive readings without a gap: one unbroken line.
using ChartLine = std::vector<ChartPoint>;

/// One position. `look` is the n of Palette::trace.
struct ChartTrace {
    QString position;
    std::size_t look = 0;
    bool spotCheck = false;
    std::vector<ChartLine> lines;
    /// False: decimated to the extremes of each pixel column, and only readings now and then carry the trace's mark.
    bool everyReadingDrawn = true;
    std::vector<ChartPoint> marked;  ///< those readings
};

/// Where words stand: inside what they belong to, inside but running upwards, or beside it.
enum class Stand { lying, upright, after, before };

/// A run of the whole batch at or above the threshold.
struct ChartBand {
    Interval interval;
    QString words;  ///< "52 h"; empty where the band is too narrow to write in
    Stand stand = Stand::lying;
};

/// Too long between readings. An empty position: nothing was read at all, the hatching is as high as the plot.
struct ChartGap {
    Interval interval;
    QString position;
    QString words;  ///< "no reading 41 h"
    Stand stand = Stand::lying;
    int row = 0;  ///< of a single position's gap: ribbons that overlap in time lie in different rows
};

struct ChartTick {
    double value = 0;  ///< UTC seconds on the time axis, °C on the other
    QString label;     ///< unique along its axis
};

enum class LaneKind { addition, rawAddition, aeration, watering, observation };

/// An addition, aeration or observation under the axis; those too close to tell apart stand as one.
struct ChartMark {
    Instant at;
    LaneKind kind{};
    int count = 1;
    QString label;         ///< empty where it would run into its neighbour
    QString words;         ///< the whole entry, or entries, line by line
    double labelLeft = 0;  ///< of the label, from the plot's left edge, in the view's pixels
    int row = 0;           ///< of the label
};

struct ChartStall {
    Interval interval;
    QString word;  ///< "stalled", "never hot", "after handling"
    bool open = false;
};

/// A criterion's line below the lane: filled where time is credited.
struct ChartStrip {
    QString id;
    QString title;
    QString figures;  ///< "52 of 72 h, not shown"
    IntervalSet credited;
    IntervalSet refused;
};

struct ChartPlan {
    Interval visible;
    double lowestCelsius = 0;   ///< bottom of the plot
    double highestCelsius = 0;  ///< top of the plot
    double thresholdCelsius = 0;
    QString thresholdLabel;  ///< "55 °C"
    QString unitLabel;       ///< "°C"
    std::vector<ChartTick> timeTicks;
    std::vector<ChartTick> temperatureTicks;
    std::vector<ChartTrace> traces;
    std::vector<ChartLine> outside;
    std::vector<ChartBand> bands;
    std::vector<ChartGap> gaps;
    std::vector<ChartMark> marks;
    std::vector<ChartStall> stalls;
    std::vector<ChartStrip> strips;
    ChartHeat heat;
    std::optional<ChartForecast> forecast;
    int laneRows = 0;    ///< rows of labels in use under the glyphs
    int ribbonRows = 0;  ///< rows of single positions' gaps in use
};

/// Lines are decimated to four points in each slice: with one slice a column, ink would move by up to a pixel.
constexpr std::size_t slicesAColumn = 3;

/// How the picture is wanted.
struct ChartView {
    Interval visible;      ///< the stretch of time across the plot
    double width = 800;    ///< of the plot, in pixels or whatever unit `textWidth` measures in
    double columns = 800;  ///< how many pixel columns the plot has
    TimeZone zone = TimeZone::utc();
    TemperatureUnit unit = TemperatureUnit::celsius;
    std::vector<std::string> criteria;                ///< ids of those that get a strip, in this order
    std::function<double(const QString&)> textWidth;  ///< of the font the labels are written in
    bool withHeat = false;                            ///< the heat it made, under the temperatures
    std::optional<Projection> projection;
};

/// The batch from its first entry to its last, with a little air at both ends; never empty.
Interval wholeBatch(const BatchRecord& record);

class ChartSource;
ChartPlan chartPlan(const ChartSource& source, const ChartView& view);
/// For a picture that is drawn once.
ChartPlan chartPlan(const BatchRecord& record, const BatchReview& review, const ChartView& view);

}  // namespace midden::ui
