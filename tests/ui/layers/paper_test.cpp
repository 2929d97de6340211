// SPDX-License-Identifier: GPL-3.0-or-later
// The layers and a harvest's record on paper.
#include <QBuffer>
#include <QImage>
#include <QLocale>
#include <QPainter>
#include <QPdfWriter>

#include "core/certificate/harvest_record.h"
#include "tests/ui/layers/invented_bin.h"
#include "tests/ui/support/qt_support.h"
#include "ui/certificate/certificate_sheet.h"
#include "ui/certificate/paper_font.h"
#include "ui/certificate/paper_layers.h"

using namespace midden;
using namespace midden::ui;
using namespace midden::testing;

namespace {

constexpr QSizeF a4{210, 297};

CertificateSheet sheetOf(const MadeBin& bin, const LayersPtr& source) {
    const auto& harvest = source->history.reckoning.harvests.back();
    std::vector<Level> levels;
    for (const Level& level : bin.entries.levels) {
        if (level.at <= harvest.at) {
            levels.push_back(level);
        }
    }
    const HarvestInput input{"Kitchen, fed since November",
                             "North",
                             "Long Lane allotments",
                             harvest,
                             bin.entries.threshold,
                             bin.entries.hold,
                             {{"base", 22}, {"core", 45}, {"top", 72}},
                             levels};
    const DrawChart draw = [source](QPainter& painter, const QRectF& target) {
        drawPaperLayers(painter, target, *source, TimeZone::utc());
    };
    return CertificateSheet{harvestRecordOf(input, {}), draw, a4};
}

QImage pageOf(const CertificateSheet& sheet, int page, double pixelsPerMillimetre) {
    QImage image{(a4 * pixelsPerMillimetre).toSize(), QImage::Format_RGB32};
    image.fill(Qt::white);
    QPainter painter{&image};
    painter.scale(pixelsPerMillimetre / mm, pixelsPerMillimetre / mm);
    sheet.drawPage(painter, page);
    return image;
}

QImage layersOf(const LayersSource& source) {
    QImage image{1'400, 640, QImage::Format_RGB32};
    image.fill(Qt::white);
    QPainter painter{&image};
    painter.scale(0.08, 0.08);
    drawPaperLayers(painter, {0, 0, 172 * mm, 78 * mm}, source, TimeZone::utc());
    return image;
}

}  // namespace

TEST_CASE("a harvest's record stands on one page with its layers") {
    const NoQtWarnings quiet;
    const auto bin = gardenBin();
    const auto source = sourceOf(bin);
    const auto sheet = sheetOf(bin, source);
    CHECK(sheet.pageCount() == 1);
    const QImage page = pageOf(sheet, 0, 6);
    int filled = 0;
    const QColor loam{0x9B, 0x61, 0x3F};
    for (int y = 0; y < page.height(); ++y) {
        for (int x = 0; x < page.width(); ++x) {
            filled += page.pixelColor(x, y) == loam ? 1 : 0;
        }
    }
    CHECK(filled > 2'000);  // layers that have had a week
    if (const auto folder = qEnvironmentVariable("MIDDENBOOK_PICTURES"); !folder.isEmpty()) {
        page.save(folder + QStringLiteral("/harvest-record.png"));
    }
}

TEST_CASE("on paper nothing depends on the desktop's language or font") {
    const auto source = sourceOf(gardenBin());
    const QImage before = layersOf(*source);
    const QLocale kept;
    const QFont keptFont = QApplication::font();
    QLocale::setDefault(QLocale{QLocale::German, QLocale::Germany});
    QApplication::setFont(QFont{keptFont.family(), 17});
    const QImage after = layersOf(*source);
    QLocale::setDefault(kept);
    QApplication::setFont(keptFont);
    CHECK(before == after);
    CHECK(layersOf(*sourceOf(tenLayers())) != before);
}

TEST_CASE("layers in a PDF are opaque and no pictures") {
    const NoQtWarnings quiet;
    const auto source = sourceOf(gardenBin());
    QByteArray bytes;
    QBuffer buffer{&bytes};
    REQUIRE(buffer.open(QIODevice::WriteOnly));
    {
        QPdfWriter writer{&buffer};
        writer.setResolution(600);
        QPainter painter{&writer};
        const double unit = writer.logicalDpiX() / 25.4 / mm;
        painter.scale(unit, unit);
        drawPaperLayers(painter, {19 * mm, 19 * mm, 160 * mm, 78 * mm}, *source, TimeZone::utc());
    }
    CHECK(bytes.size() > 10'000);
    CHECK(bytes.size() < 1'000'000);
    CHECK_FALSE(bytes.contains("/Subtype /Image"));
    CHECK_FALSE(bytes.contains("/ca 0."));
}
