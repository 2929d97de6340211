// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/chart_picture.h"

#include <QImage>
#include <QPainter>
#include <algorithm>
#include <functional>
#include <map>

#include "tests/ui/support/made_batch.h"
#include "tests/ui/support/qt_support.h"
#include "ui/chart/pixels.h"

using namespace midden;
using namespace midden::ui;
using namespace midden::testing;

namespace {

struct Drawn {
    QImage image;
    ChartLayout layout;
};

Drawn draw(const BatchRecord& record, const Palette& palette, QSizeF size, double scale = 1) {
    QFont font = QApplication::font();
    font.setPixelSize(13);
    const BatchReview review = reviewOf(record, {});
    ChartView view;
    view.visible = wholeBatch(record);
    view.width = view.columns = plotWidth(size.width(), font);
    view.zone = *TimeZone::named("Europe/London");
    view.textWidth = [metrics = QFontMetricsF{font}](const QString& text) { return metrics.horizontalAdvance(text); };
    const ChartPlan plan = chartPlan(record, review, view);
    Drawn drawn{QImage{(size * scale).toSize(), QImage::Format_RGB32}, layoutOf(plan, font, size)};
    QPainter painter{&drawn.image};
    paintChart(painter, QRectF{drawn.image.rect()}, plan, {palette, font, size});
    // For a person who wants to look: set the variable to a folder.
    if (const auto folder = qEnvironmentVariable("MIDDENBOOK_PICTURES"); !folder.isEmpty()) {
        static int number = 0;
        painter.end();
        drawn.image.save(QStringLiteral("%1/chart-%2.png").arg(folder).arg(++number));
    }
    return drawn;
}

int distance(const QColor& a, const QColor& b) {
    return std::abs(a.red() - b.red()) + std::abs(a.green() - b.green()) + std::abs(a.blue() - b.blue());
}

bool hasColour(const QImage& image, const QRectF& area, const QColor& colour, int tolerance = 0) {
    const QImage part = image.copy(area.toAlignedRect() & image.rect());
    for (int i = 0; i < part.width() * part.height(); ++i) {
        if (distance(part.pixelColor(i % part.width(), i / part.width()), colour) <= tolerance) {
            return true;
        }
    }
    return false;
}

/// Of all pixels, in any channel.
int farthestApart(const QImage& one, const QImage& other) {
    int farthest = 0;
    for (int i = 0; i < one.width() * one.height(); ++i) {
        const QRgb a = one.pixel(i % one.width(), i / one.width());
        const QRgb b = other.pixel(i % one.width(), i / one.width());
        farthest = std::max(
            {farthest, std::abs(qRed(a) - qRed(b)), std::abs(qGreen(a) - qGreen(b)), std::abs(qBlue(a) - qBlue(b))});
    }
    return farthest;
}

/// How many pixels of a column of the plot have the colour that most of them have, and which that is.
std::pair<int, QRgb> commonest(const QImage& image, int x, const QRectF& plot) {
    std::map<QRgb, int> counts;
    for (int y = static_cast<int>(plot.top()) + 1; y < static_cast<int>(plot.bottom()); ++y) {
        ++counts[image.pixel(x, y)];
    }
    const auto most = std::ranges::max_element(counts, {}, [](const auto& count) { return count.second; });
    return {most->second, most->first};
}

}  // namespace

TEST_CASE("stretches filled at once look like as many rectangles, at any scale") {
    const double scale = GENERATE(1.0, 1.5, 2.0);
    const QColor colour{20, 90, 70};
    const QRectF area{10, 20, 200, 40};
    const auto drawn = [&](const std::function<void(QPainter&)>& fill) {
        QImage image{(QSizeF{240, 100} * scale).toSize(), QImage::Format_RGB32};
        image.setDevicePixelRatio(scale);
        image.fill(Qt::white);
        QPainter painter{&image};
        painter.setRenderHint(QPainter::Antialiasing);
        painter.translate(4, 2);
        fill(painter);
        painter.fillRect(QRectF{0, 80, 10, 10}, Qt::red);  // where it always is
        return image;
    };
    const std::vector<Stretch> stretches{{10, 11.25},  {14, 14.25},  {17.5, 40},
                                         {41.7, 43.1}, {44.9, 46.2}, {150.6, 210}};
    const QImage atOnce = drawn([&](QPainter& painter) { fillStretches(painter, area, stretches, colour); });
    const QImage oneByOne = drawn([&](QPainter& painter) {
        for (const Stretch& one : stretches) {
            painter.fillRect(QRectF{one.left, area.top(), one.right - one.left, area.height()}, colour);
        }
    });
    CHECK(farthestApart(atOnce, oneByOne) <= 3);
    CHECK(hasColour(atOnce, QRectF{QPointF{0, 0}, QSizeF{atOnce.size()}}, colour));
}

TEST_CASE("a gap too narrow for a hatching is one tone from top to bottom") {
    NoQtWarnings quiet;
    BatchRecord record = madeRecord();
    std::vector<Sample> samples;
    for (int hour = 0; hour < 10'000; hour += 5) {
        if (hour <= 5'000 || hour >= 5'060) {
            samples.push_back(sampleAt(hour, 30));
        }
    }
    record.tracks.push_back({"core", false, samples});
    const auto [image, layout] = draw(record, Palette::light(), {1'100, 520});
    const auto [count, tone] = commonest(image, static_cast<int>(layout.xOf(afterHours(5'030))), layout.plot);
    CHECK(count > layout.plot.height() * 0.9);
    CHECK(QColor{tone} != Palette::light().ground);
    const auto beside = commonest(image, static_cast<int>(layout.xOf(afterHours(4'900))), layout.plot);
    CHECK(QColor{beside.second} == Palette::light().ground);
}

TEST_CASE("the picture of sixty days holds every trace and the windows in both palettes") {
    NoQtWarnings quiet;
    const Palette& palette = GENERATE(Palette::light(), Palette::dark());
    const auto [image, layout] = draw(sixtyDays(), palette, {1'100, 520});
    CHECK(image.pixelColor(1, 1) == palette.ground);
    CHECK(hasColour(image, layout.plot, palette.band));
    CHECK(hasColour(image, layout.plot, palette.gap, 40));
    CHECK(hasColour(image, layout.plot, palette.trace(0).colour));
    CHECK(hasColour(image, layout.plot, palette.trace(1).colour));
    CHECK(hasColour(image, layout.plot, palette.trace(2).colour));
}

TEST_CASE("a point is drawn where the layout says it is") {
    NoQtWarnings quiet;
    BatchRecord record = madeRecord();
    record.tracks.push_back({"core", false, {sampleAt(0, 20), sampleAt(10, 70), sampleAt(20, 20)}});
    const auto [image, layout] = draw(record, Palette::light(), {900, 400});
    const QPointF top{layout.xOf(afterHours(10)), layout.yOf(70)};
    CHECK(image.pixelColor(top.toPoint()) == Palette::light().trace(0).colour);
    const QPointF halfWay{layout.xOf(afterHours(5)), layout.yOf(45)};
    CHECK(hasColour(image, QRectF{halfWay - QPointF{1, 1}, QSizeF{3, 3}}, Palette::light().trace(0).colour));
}

TEST_CASE("a single reading and an empty batch are drawn without complaint") {
    NoQtWarnings quiet;
    BatchRecord record = madeRecord();
    draw(record, Palette::light(), {700, 360});
    record.tracks.push_back({"core", false, {sampleAt(0, 21.5)}});
    const auto [image, layout] = draw(record, Palette::light(), {700, 360});
    CHECK(hasColour(image, layout.plot, Palette::light().trace(0).colour));
}

TEST_CASE("at twice the scale the picture stays the same picture") {
    NoQtWarnings quiet;
    const auto [image, layout] = draw(sixtyDays(), Palette::light(), {1'100, 520}, 2);
    CHECK(image.width() == 2'200);
    CHECK(
        hasColour(image, QRectF{layout.plot.topLeft() * 2, layout.plot.size() * 2}, Palette::light().trace(0).colour));
}
