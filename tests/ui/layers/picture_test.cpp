// SPDX-License-Identifier: GPL-3.0-or-later
#include <QImage>
#include <QPainter>
#include <QTableView>
#include <QToolButton>
#include <algorithm>

#include "tests/ui/layers/invented_bin.h"
#include "tests/ui/support/qt_support.h"
#include "ui/layers/layers_painter.h"
#include "ui/layers/layers_panel.h"
#include "ui/layers/layers_view.h"

#include <QAccessible>

using namespace midden;
using namespace midden::ui;
using namespace midden::testing;

namespace {

QFont pictureFont() {
    QFont font = QApplication::font();
    font.setPixelSize(13);
    return font;
}

struct Drawn {
    QImage image;
    LayersPlan plan;
    double scale = 1;

    QColor at(QPointF place) const { return image.pixelColor((place * scale).toPoint()); }
};

Drawn draw(const LayersSource& source, const Palette& palette, QSizeF size = {1'000, 460}, double scale = 1) {
    const QFontMetricsF metrics{pictureFont()};
    LayersFrame frame{size, metrics.height(), {}, *TimeZone::named("Europe/London"), TemperatureUnit::celsius};
    frame.textWidth = [metrics](const QString& text) { return metrics.horizontalAdvance(text); };
    Drawn drawn{QImage{(size * scale).toSize(), QImage::Format_RGB32}, layersPlan(source, frame), scale};
    drawn.image.fill(palette.ground);
    QPainter painter{&drawn.image};
    const auto& layout = drawn.plan.layout;
    paintLayers(painter, {0, 0, layout.names.right() * scale, layout.times.bottom() * scale}, drawn.plan,
                layersDress(palette, pictureFont()));
    painter.end();
    // For a person who wants to look: set the variable to a folder.
    if (const auto folder = qEnvironmentVariable("MIDDENBOOK_PICTURES"); !folder.isEmpty()) {
        static int number = 0;
        drawn.image.save(QStringLiteral("%1/layers-%2.png").arg(folder).arg(++number));
    }
    return drawn;
}

double luminanceStep(const QColor& a, const QColor& b) {
    return contrast(a, b);
}

void look(QWidget& widget, const char* name) {
    if (const auto folder = qEnvironmentVariable("MIDDENBOOK_PICTURES"); !folder.isEmpty()) {
        widget.grab().save(QStringLiteral("%1/%2.png").arg(folder, QLatin1String{name}));
    }
}

struct ShownPanel {
    explicit ShownPanel(const MadeBin& bin, QSize size = {1'100, 620}) : source{sourceOf(bin)} {
        panel.resize(size);
        panel.setPalette(Palette::light().forWidgets());
        panel.show(source, {*TimeZone::named("Europe/London"), TemperatureUnit::celsius});
        panel.QWidget::show();
        REQUIRE(QTest::qWaitForWindowExposed(&panel, aMinute));
    }
    QString text(const char* name) const { return plain(panel.findChild<QLabel*>(QLatin1String{name})->text()); }

    LayersPtr source;
    LayersPanel panel;
};

}  // namespace

TEST_CASE("tones can be told apart in grey and every line stands out from each of them") {
    for (const Palette& palette : {Palette::light(), Palette::dark()}) {
        const auto dress = layersDress(palette, pictureFont());
        for (std::size_t tone = 0; tone < tones; ++tone) {
            CHECK(contrast(dress.fill.at(tone), palette.text) >= 3);
        }
        for (std::size_t tone = 1; tone <= static_cast<std::size_t>(HeatTone::week); ++tone) {
            CHECK(luminanceStep(dress.fill.at(tone - 1), dress.fill.at(tone)) >= 1.3);
            const bool isDarker = dress.fill.at(tone).lightness() < dress.fill.at(tone - 1).lightness();
            CHECK(isDarker != palette.isDark());
        }
        for (const TraceLook& trace : palette.traces) {  // thermometers have a seam of the ground
            CHECK(contrast(trace.colour, palette.ground) >= 3);
        }
    }
}

TEST_CASE("layers have the tone of their hours in every dress and size") {
    const auto source = sourceOf(tenLayers());
    for (const Palette& palette : {Palette::light(), Palette::dark()}) {
        for (const double scale : {1.0, 2.0}) {
            const auto drawn = draw(*source, palette, {1'000, 460}, scale);
            const auto dress = layersDress(palette, pictureFont());
            std::size_t right = 0;
            std::size_t looked = 0;
            for (const LayerColumn& column : source->history.columns) {
                for (const auto& layer : column.layers) {
                    const auto& layout = drawn.plan.layout;
                    const double top = layout.yOf(layer.toLitres);
                    const double bottom = layout.yOf(layer.fromLitres);
                    if (bottom - top < 12) {
                        continue;
                    }
                    const auto tone = toneOf(layer, source->history.origins[layer.id]);
                    const QPointF middle{layout.xOf(column.at) + 0.5, (top + bottom) / 2};
                    ++looked;
                    right += drawn.at(middle) == dress.fill.at(static_cast<std::size_t>(tone)) ? 1U : 0U;
                }
            }
            CHECK(looked > 500);
            CHECK(right > looked * 8 / 10);  // lines and marks lie over the rest
        }
    }
}

TEST_CASE("where hours cross 168 there is a line of the text colour") {
    const auto source = sourceOf(gardenBin());
    const auto drawn = draw(*source, Palette::light());
    std::size_t dark = 0;
    std::size_t looked = 0;
    for (const LayersContour& contour : drawn.plan.contours) {
        if (contour.hours != 168 || contour.line.size() < 6) {
            continue;
        }
        for (qsizetype i = 1; i < contour.line.size(); ++i) {
            const QPointF middle = (contour.line[i - 1] + contour.line[i]) / 2;
            ++looked;
            bool found = false;
            for (const double off : {-1.0, 0.0, 1.0}) {
                found = found || contrast(drawn.at(middle + QPointF{0, off}), QColor{Qt::white}) > 5;
            }
            dark += found ? 1U : 0U;
        }
    }
    CHECK(looked > 100);
    CHECK(dark > looked * 9 / 10);
}

TEST_CASE("the picture of a thousand layers is drawn") {
    const auto source = sourceOf(thousandLayers());
    const auto light = draw(*source, Palette::light(), {1'000, 460}, 2);
    const auto dress = layersDress(Palette::light(), pictureFont());
    std::size_t filled = 0;
    const auto plot = light.plan.layout.plot;
    for (int x = static_cast<int>(plot.left()); x < static_cast<int>(plot.right()); ++x) {
        for (int y = static_cast<int>(plot.top()); y < static_cast<int>(plot.bottom()); ++y) {
            filled += std::ranges::count(dress.fill, light.at(QPointF(x, y))) > 0 ? 1U : 0U;
        }
    }
    CHECK(static_cast<double>(filled) > plot.width() * plot.height() / 3);
    // No row of pixels between one area and the next is left out.
    const auto ground = Palette::light().ground;
    const int top = static_cast<int>(2 * light.plan.layout.yOf(14 * 2.5));
    const int bottom = static_cast<int>(2 * plot.bottom()) - 4;
    for (int x = static_cast<int>(2 * plot.center().x()); x < static_cast<int>(2 * plot.right()) - 2; ++x) {
        int bare = 0;
        for (int y = top; y < bottom; ++y) {
            bare += light.image.pixelColor(x, y) == ground ? 1 : 0;
        }
        CHECK(bare < (bottom - top) / 4);  // a seam around a line
    }
    draw(*source, Palette::dark());
}

TEST_CASE("all made bins can be drawn at any size without a complaint") {
    const NoQtWarnings quiet;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        const auto bin = someBin(seed);
        std::vector<QString> names(bin.samples.size(), QStringLiteral("place"));
        const auto source = layersSource(bin.record(), names);
        for (const QSizeF size : {QSizeF{120, 80}, QSizeF{360, 220}, QSizeF{1'400, 700}}) {
            CAPTURE(seed, size.width());
            const auto drawn = draw(*source, seed % 2 == 0 ? Palette::light() : Palette::dark(), size);
            for (const LayersArea& area : drawn.plan.areas) {
                CHECK(drawn.plan.layout.plot.adjusted(-1, -1, 1, 1).contains(area.outline.boundingRect()));
            }
        }
    }
}

TEST_CASE("keys go from layer to layer and through time, Enter tells the story and Escape forgets it") {
    const NoQtWarnings quiet;
    ShownPanel shown{gardenBin()};
    LayersView& view = shown.panel.view();
    CHECK(shown.text("layerStory") == "Point at a layer, or step from one to the next with the arrow keys.");
    QTest::keyClick(&view, Qt::Key_Up);
    REQUIRE(view.spot());
    CHECK(*view.spot() == *firstSpot(*shown.source));
    const auto oldest = view.spot()->id;
    QTest::keyClick(&view, Qt::Key_Up);
    CHECK(view.spot()->id > oldest);
    QTest::keyClick(&view, Qt::Key_Down);
    CHECK(view.spot()->id == oldest);
    QTest::keyClick(&view, Qt::Key_Down);
    CHECK(view.spot()->id == oldest);  // there is none below
    const auto last = view.spot()->column;
    QTest::keyClick(&view, Qt::Key_Left);
    CHECK(view.spot()->column == last - 1);
    QTest::keyClick(&view, Qt::Key_Right);
    QTest::keyClick(&view, Qt::Key_Right);
    CHECK(view.spot()->column == last);
    QTest::keyClick(&view, Qt::Key_Home);
    CHECK(shown.source->history.columns[view.spot()->column].at <=
          shown.source->history.origins[oldest].since + days(1));
    QTest::keyClick(&view, Qt::Key_End);
    QTest::keyClick(&view, Qt::Key_Return);
    const QString story = shown.text("layerStory");
    CHECK(story.contains("thrown in"));
    CHECK(story.contains("at 55 °C or more, at the thermometer"));
    CHECK(story.contains("the longest run at least"));
    CHECK(view.accessibleDescription() == shown.panel.findChild<QLabel*>("layerStory")->text());
    QTest::keyClick(&view, Qt::Key_Escape);
    CHECK_FALSE(view.spot());
    CHECK(shown.text("layerStory").startsWith("Point at a layer"));
}

TEST_CASE("pointing shows where a layer may have stood and leaving takes it away") {
    const NoQtWarnings quiet;
    ShownPanel shown{gardenBin()};
    LayersView& view = shown.panel.view();
    QTest::mouseClick(&view, Qt::LeftButton, {}, QPoint{3, 3});  // the keyboard is there from now on
    const QImage before = view.grab().toImage();
    const auto& layout = view.plan().layout;
    const QPoint place{static_cast<int>(layout.plot.right()) - 100, static_cast<int>(layout.plot.bottom()) - 60};
    QTest::mouseMove(&view, place);
    REQUIRE(waitUntil([&] { return view.spot().has_value(); }));
    CHECK(shown.text("layerStory").startsWith("Fed "));
    CHECK(view.grab().toImage() != before);
    look(view, "layers-pointed");
    QTest::mouseClick(&view, Qt::LeftButton, {}, place);
    CHECK(shown.text("layerStory").contains("thrown in"));
    look(shown.panel, "layers-panel");
    QTest::mouseClick(&view, Qt::LeftButton, {}, QPoint{3, 3});
    CHECK_FALSE(view.spot());
    CHECK(view.grab().toImage() == before);
}

TEST_CASE("the same is there as a table and everything has a name") {
    const NoQtWarnings quiet;
    ShownPanel shown{gardenBin()};
    CHECK(unnamed(shown.panel) == QStringList{});
    auto* table = shown.panel.findChild<QTableView*>("layersTable");
    auto* asTable = shown.panel.findChild<QToolButton*>("layersAsTable");
    REQUIRE(table->model()->rowCount() == static_cast<int>(shown.source->now().layers.size()));
    CHECK_FALSE(table->isVisible());
    QTest::keyClick(asTable, Qt::Key_Space);
    CHECK(table->isVisible());
    const int last = table->model()->rowCount() - 1;
    CHECK(table->model()->index(last, 2).data().toString() == "0");  // the lowest begins at the floor
    CHECK(table->model()->index(0, 0).data(Qt::AccessibleTextRole).toString().startsWith("Layer: Fed "));
    auto* spoken = QAccessible::queryAccessibleInterface(&shown.panel.view());
    REQUIRE(spoken != nullptr);
    CHECK(spoken->role() == QAccessible::Chart);
    CHECK(spoken->text(QAccessible::Name) == "Picture of the layers");
    CHECK(spoken->text(QAccessible::Description).contains("layers"));
}

TEST_CASE("what is lacking is asked for in plain words") {
    auto bin = gardenBin();
    bin.entries.binHeightCm.reset();
    CHECK(ShownPanel{bin}.text("layersLacking").startsWith("Enter the inner height of the bin in Setup."));
    bin = gardenBin();
    bin.entries.levels.clear();
    CHECK(ShownPanel{bin}.text("layersLacking").startsWith("Measure how far the surface is below the rim"));
    bin = gardenBin();
    bin.heightsCm[1].reset();
    const ShownPanel noHeight{bin};
    CHECK(noHeight.text("layersLacking") == "Enter in Setup how high above the floor these are read: core.");
    const ShownPanel nothing{emptyBin()};
    CHECK(nothing.text("layersLacking").startsWith("Nothing was added yet."));
}

TEST_CASE("beside it stands what a bucket would be and where one more thermometer would help") {
    const ShownPanel shown{gardenBin()};
    const QString now = shown.text("layersNow");
    CHECK(plain(now).startsWith("A bucket from the hatch now. Half of these 10 L had at least "));
    CHECK(now.contains("If younger material slipped down, at least "));
    CHECK(now.contains("no thermometer tells anything: one more at about "));
}

TEST_CASE("pictures to look at", "[.]") {
    for (const auto& bin : {gardenBin(), tenLayers(), thousandLayers()}) {
        const auto source = sourceOf(bin);
        for (const Palette& palette : {Palette::light(), Palette::dark()}) {
            draw(*source, palette);
            draw(*source, palette, {1'000, 460}, 2);
        }
    }
    auto bin = gardenBin();
    bin.entries.binHeightCm.reset();
    draw(*sourceOf(bin), Palette::light());
    draw(*sourceOf(gardenBin()), Palette::light(), {520, 300});
}
