// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/layers/layers_plan.h"

#include <QFontMetricsF>
#include <algorithm>
#include <set>

#include "tests/ui/layers/invented_bin.h"
#include "tests/ui/support/qt_support.h"
#include "ui/layers/layers_pointing.h"

using namespace midden;
using namespace midden::ui;
using namespace midden::testing;

namespace {

LayersFrame frameOf(QSizeF size) {
    const QFontMetricsF metrics{QApplication::font()};
    LayersFrame frame{size, metrics.height(), {}, *TimeZone::named("Europe/London"), TemperatureUnit::celsius};
    frame.textWidth = [metrics](const QString& text) { return metrics.horizontalAdvance(text); };
    return frame;
}

LayersPlan planOf(const LayersSource& source, QSizeF size = {900, 420}) {
    return layersPlan(source, frameOf(size));
}

/// Of the contours of so many hours, how near the nearest comes to a point.
double nearest(const LayersPlan& plan, int hours, QPointF point) {
    double best = 1e9;
    for (const LayersContour& contour : plan.contours) {
        if (contour.hours != hours) {
            continue;
        }
        for (qsizetype i = 1; i < contour.line.size(); ++i) {
            const QPointF a = contour.line[i - 1];
            const QPointF b = contour.line[i];
            const QPointF way = b - a;
            const double length = QPointF::dotProduct(way, way);
            const double t = length > 0 ? std::clamp(QPointF::dotProduct(point - a, way) / length, 0.0, 1.0) : 0.0;
            const QPointF off = point - (a + t * way);
            best = std::min(best, std::hypot(off.x(), off.y()));
        }
    }
    return best;
}

/// Columns of the history between which nothing happens, and the middle between them.
template <class Visit>
void eachQuietStrip(const LayersSource& source, const LayersPlan& plan, Visit visit) {
    const auto& columns = source.history.columns;
    for (std::size_t i = 0; i + 1 < columns.size(); ++i) {
        if (columns[i + 1].follows) {
            visit(columns[i], columns[i + 1],
                  (plan.layout.xOf(columns[i].at) + plan.layout.xOf(columns[i + 1].at)) / 2);
        }
    }
}

}  // namespace

TEST_CASE("no area lies over another and together they are the heap") {
    for (const auto& bin : {gardenBin(), tenLayers()}) {
        const auto source = sourceOf(bin);
        const auto plan = planOf(*source);
        std::size_t inside = 0;
        std::size_t above = 0;
        std::size_t strip = 0;
        eachQuietStrip(*source, plan, [&](const LayerColumn& column, const LayerColumn& next, double x) {
            if (++strip % 7 != 0) {
                return;
            }
            for (std::size_t layer = 0; layer < column.layers.size(); ++layer) {
                const double from = (column.layers[layer].fromLitres + next.layers[layer].fromLitres) / 2;
                const double to = (column.layers[layer].toLitres + next.layers[layer].toLitres) / 2;
                const QPointF middle{x, plan.layout.yOf((from + to) / 2)};
                std::vector<HeatTone> there;
                for (const LayersArea& area : plan.areas) {
                    if (area.outline.containsPoint(middle, Qt::OddEvenFill)) {
                        there.push_back(area.tone);
                    }
                }
                REQUIRE(there.size() == 1);
                CHECK(there.front() == toneOf(column.layers[layer], source->history.origins[column.layers[layer].id]));
                ++inside;
            }
            const QPointF outside{x, plan.layout.yOf(column.surfaceLitres()) - 3};
            CHECK(std::ranges::none_of(plan.areas, [&](const LayersArea& area) {
                return area.outline.containsPoint(outside, Qt::OddEvenFill);
            }));
            ++above;
        });
        CHECK(inside > 200);
        CHECK(above > 20);
    }
}

TEST_CASE("a contour goes where hours cross and nowhere else") {
    const auto source = sourceOf(gardenBin());
    const auto plan = planOf(*source);
    std::array<std::size_t, 3> crossed{};
    std::array<std::size_t, 3> notCrossed{};
    std::size_t strip = 0;
    eachQuietStrip(*source, plan, [&](const LayerColumn& column, const LayerColumn& next, double x) {
        if (++strip % 4 != 0) {
            return;
        }
        for (std::size_t layer = 1; layer < column.layers.size(); ++layer) {
            const double litres = (column.layers[layer].fromLitres + next.layers[layer].fromLitres) / 2;
            const QPointF edge{x, plan.layout.yOf(litres)};
            for (std::size_t contour = 0; contour < contourHours.size(); ++contour) {
                const auto had = [&](const LayerThen& each) { return each.atLeast >= hours(contourHours.at(contour)); };
                const double near = nearest(plan, contourHours.at(contour), edge);
                if (had(column.layers[layer]) != had(column.layers[layer - 1])) {
                    CHECK(near < 0.2);
                    ++crossed.at(contour);
                } else if (had(next.layers[layer]) == had(next.layers[layer - 1]) && near > 0.2) {
                    ++notCrossed.at(contour);
                }
            }
        }
    });
    for (std::size_t contour = 0; contour < contourHours.size(); ++contour) {
        CHECK(crossed.at(contour) > 100);
        CHECK(notCrossed.at(contour) > 3 * crossed.at(contour));
    }
}

TEST_CASE("what happened stands where it happened") {
    const auto source = sourceOf(gardenBin());
    const auto plan = planOf(*source);
    int feeds = 0;
    int harvests = 0;
    QStringList labels;
    for (const LayersMark& mark : plan.marks) {
        if (mark.kind == EventKind::feed) {
            feeds += mark.count;
            CHECK(mark.place.y() < plan.layout.plot.bottom());
        } else if (mark.kind == EventKind::drawn) {
            harvests += mark.count;
            CHECK(mark.place.y() == plan.layout.plot.bottom());
            labels += plain(mark.label);
        }
    }
    CHECK(feeds == 43);
    CHECK(harvests == 3);
    CHECK(labels == QStringList{"28 L", "28 L", "28 L"});
    REQUIRE(plan.faults.size() == 1);
    CHECK(plan.faults[0].label == "forked 25 cm");
    const double centimetre = plan.layout.plot.height() / plan.layout.topLitres * 2.5;
    CHECK(plan.faults[0].bottom - plan.faults[0].top == Approx(25 * centimetre));
    CHECK(plan.unitLabel == "cm");
}

TEST_CASE("thermometers stand at their heights and their words keep clear of one another") {
    auto bin = gardenBin();
    bin.heightsCm = {44, 45, 46};
    const auto source = sourceOf(bin);
    const auto plan = planOf(*source, {900, 300});
    REQUIRE(plan.thermometers.size() == 3);
    for (std::size_t i = 0; i < 3; ++i) {
        const auto& each = plan.thermometers[i];
        CHECK_FALSE(each.temperature.isEmpty());
        CHECK(each.labelY <= plan.layout.plot.bottom());
        if (i > 0) {
            CHECK(each.labelY - plan.thermometers[i - 1].labelY >= 2 * frameOf({}).line - 1e-9);
        }
    }
    CHECK(plan.thermometers.back().name == "base");
    CHECK(plan.thermometers.back().y == Approx(plan.layout.yOf(44 * 2.5)));
}

TEST_CASE("where no thermometer tells anything one more is asked for") {
    const auto source = sourceOf(gardenBin());
    REQUIRE(source->gap);
    const auto plan = planOf(*source);
    const auto missing = std::ranges::find_if(plan.thermometers, &LayersThermometer::isMissing);
    REQUIRE(missing != plan.thermometers.end());
    CHECK(missing->y == Approx(plan.layout.yOf(source->gap->helpsAtCm * 2.5)));
    auto close = gardenBin();
    close.heightsCm = {22, 42, 60};
    CHECK_FALSE(sourceOf(close)->gap);
}

TEST_CASE("a thermometer's reach is drawn only where it shows hot layers that can be credited") {
    auto bin = gardenBin();
    const auto withLevels = sourceOf(bin);
    CHECK_FALSE(planOf(*withLevels).reaches.empty());
    for (const auto& reach : planOf(*withLevels).reaches) {
        CHECK(reach.upper.size() == reach.lower.size());
        for (qsizetype i = 0; i < reach.upper.size(); ++i) {
            CHECK(reach.upper[i].y() <= reach.lower[i].y());
        }
    }
    bin.entries.levels.clear();
    CHECK(planOf(*sourceOf(bin)).reaches.empty());
}

TEST_CASE("a bin whose height is not known is drawn in litres") {
    auto bin = gardenBin();
    bin.entries.binHeightCm.reset();
    const auto source = sourceOf(bin);
    const auto plan = planOf(*source);
    CHECK(plan.unitLabel == "L");
    CHECK(plan.thermometers.empty());
    CHECK(plan.reaches.empty());
    CHECK_FALSE(plan.areas.empty());
    CHECK(std::ranges::all_of(plan.areas, [](const LayersArea& area) { return area.tone == HeatTone::none; }));
    CHECK(plan.contours.empty());
    CHECK(plan.surface.boundingRect().height() > 100);
}

TEST_CASE("a legend that is wider than the picture goes on below") {
    const auto source = sourceOf(gardenBin());
    for (const double width : {360.0, 520.0, 900.0}) {
        const auto plan = planOf(*source, {width, 400});
        const auto frame = frameOf({});
        for (const LayersKey& key : plan.legend) {
            const double right = key.swatch.x() + swatchWidth + besideSwatch + frame.textWidth(key.words);
            CHECK(right <= std::max(plan.layout.plot.right(), key.swatch.x() == plan.layout.legend.left() ? right : 0));
            CHECK(key.swatch.y() + frame.line <= plan.layout.plot.top());
        }
    }
    CHECK(planOf(*source, {360, 400}).legend.back().swatch.y() > planOf(*source).legend.back().swatch.y());
}

TEST_CASE("marks that would lie over one another stand as one") {
    const auto source = sourceOf(thousandLayers());
    const auto plan = planOf(*source);
    int feeds = 0;
    double before = -100;
    for (const LayersMark& mark : plan.marks) {
        if (mark.kind == EventKind::feed) {
            feeds += mark.count;
            CHECK(mark.place.x() - before > 7);
            before = mark.place.x();
        }
    }
    CHECK(feeds == 1'000);
    CHECK(plan.marks.size() > 50);
}

TEST_CASE("nothing fed is a picture with nothing in it") {
    auto bin = emptyBin();
    bin.entries.asOf = dayNumber(3);
    const auto plan = planOf(*sourceOf(bin));
    CHECK(plan.areas.empty());
    CHECK(plan.marks.empty());
    CHECK_FALSE(plan.heights.empty());
}

TEST_CASE("material that is not raw has a tone of its own") {
    const auto source = sourceOf(tenLayers());
    const auto plan = planOf(*source);
    CHECK(plan.legend.size() == tones);
    CHECK(std::ranges::count(plan.areas, HeatTone::notRaw, &LayersArea::tone) > 0);
    CHECK(planOf(*sourceOf(gardenBin())).legend.size() == tones - 1);
    const auto raw = std::ranges::count(source->history.origins, true, &LayerOrigin::raw);
    CHECK(raw == 9);
}

TEST_CASE("what is pointed at is the layer that lies there") {
    const auto source = sourceOf(gardenBin());
    const auto plan = planOf(*source);
    const auto& layout = plan.layout;
    const auto& columns = source->history.columns;
    for (std::size_t column = 0; column < columns.size(); column += 25) {
        if (column + 1 < columns.size() && !columns[column + 1].follows) {
            continue;
        }
        for (const auto& layer : columns[column].layers) {
            const QPointF middle{layout.xOf(columns[column].at) + 0.01,
                                 layout.yOf((layer.fromLitres + layer.toLitres) / 2)};
            const auto spot = layerNear(*source, layout, middle);
            REQUIRE(spot);
            CHECK(spot->id == layer.id);
        }
    }
    CHECK_FALSE(layerNear(*source, layout, {layout.plot.right() - 5, layout.plot.top() + 1}));
    CHECK_FALSE(layerNear(*source, layout, {2, 2}));
    const auto inCut = layerNear(*source, layout, {layout.cut.center().x(), layout.cut.bottom() - 1});
    REQUIRE(inCut);
    CHECK(*inCut == *firstSpot(*source));
}

TEST_CASE("the band of a layer lies within where it may have stood") {
    const auto source = sourceOf(gardenBin());
    const auto plan = planOf(*source);
    std::set<std::size_t> ids;
    for (const auto& layer : source->now().layers) {
        ids.insert(layer.id);
    }
    REQUIRE(ids.size() > 10);
    for (const auto id : ids) {
        const auto band = bandOf(*source, plan.layout, id);
        REQUIRE(band.outline.size() == band.uncertain.size());
        REQUIRE_FALSE(band.outline.isEmpty());
        for (qsizetype i = 0; i < band.outline.size(); ++i) {
            const bool isUpper = i < band.outline.size() / 2;
            CHECK(band.outline[i].x() == band.uncertain[i].x());
            CHECK((isUpper ? 1 : -1) * (band.outline[i].y() - band.uncertain[i].y()) >= -1e-6);
        }
    }
}

TEST_CASE("a layer sinks and thins as it shrinks") {
    const auto source = sourceOf(tenLayers());
    const auto& columns = source->history.columns;
    std::size_t compared = 0;
    for (std::size_t i = 1; i < columns.size(); ++i) {
        if (columns[i].follows) {
            for (std::size_t layer = 0; layer < columns[i].layers.size(); ++layer) {
                const auto& before = columns[i - 1].layers[layer];
                const auto& after = columns[i].layers[layer];
                CHECK(after.toLitres <= before.toLitres);
                CHECK(after.toLitres - after.fromLitres <= before.toLitres - before.fromLitres + 1e-9);
                ++compared;
            }
        }
    }
    CHECK(compared > 1'000);
}

TEST_CASE("a thousand layers are planned within bounds") {
    const auto source = sourceOf(thousandLayers());
    CHECK(source->now().layers.size() == 1'000);
    std::size_t seen = 0;
    for (const LayerColumn& column : source->history.columns) {
        seen += column.layers.size();
    }
    CHECK(seen <= 480'000 + 1'000);
    const auto plan = planOf(*source);
    CHECK(plan.seams.empty());  // they would be nothing but grey
    std::size_t points = 0;
    for (const LayersArea& area : plan.areas) {
        points += static_cast<std::size_t>(area.outline.size());
    }
    CHECK(points < 200'000);
}
