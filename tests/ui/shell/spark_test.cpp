// SPDX-License-Identifier: GPL-3.0-or-later
#include <QImage>
#include <QPainter>
#include <catch2/catch.hpp>
#include <cmath>

#include "ui/shared/bin_summary.h"
#include "ui/shared/palette.h"
#include "ui/shell/card_delegate.h"

using namespace midden;
using namespace midden::ui;

namespace {

constexpr int width = 200;
constexpr int height = 160;  // two pixels a degree
constexpr Instant begin{1'700'000'000};

/// Fourteen days, a reading every so often: a slow wave, and one minute of 70 °C in the middle.
BinSummary waved(std::int64_t readings) {
    BinSummary summary;
    summary.sparkSpan = {begin, begin + sparkLength};
    auto& piece = summary.spark.emplace_back();
    for (std::int64_t i = 0; i < readings; ++i) {
        const double share = static_cast<double>(i) / static_cast<double>(readings - 1);
        const double celsius = i == readings / 2 ? 70 : 40 + 15 * std::sin(share * 9);
        piece.push_back({begin + Seconds{sparkLength.count * i / (readings - 1)},
                         Celsius::ofTenThousandths(static_cast<std::int32_t>(std::lround(celsius * 100) * 100))});
    }
    return summary;
}

QImage drawn(const BinSummary& summary) {
    QImage image{width, height, QImage::Format_RGB32};
    image.fill(Qt::white);
    QPainter painter{&image};
    drawSpark(painter, QRectF{0, 0, width, height}, summary, Palette::light());
    return image;
}

struct Reach {
    int top = height;
    int bottom = -1;
};

/// The rows of pixels in this column in which the trace covers more than half.
Reach reachIn(const QImage& image, int column) {
    const int trace = qGray(Palette::light().trace(0).colour.rgb());
    Reach reach;
    for (int y = 0; y < height; ++y) {
        if (qGray(image.pixel(column, y)) < (trace + 255) / 2) {
            reach.top = std::min(reach.top, y);
            reach.bottom = std::max(reach.bottom, y);
        }
    }
    return reach;
}

}  // namespace

TEST_CASE("the spark of a logger lies where that of a few readings lies") {
    const QImage few = drawn(waved(300));
    const QImage many = drawn(waved(20'160));
    for (int column = 2; column < width - 6; ++column) {
        if (std::abs(column - width / 2) > 3) {
            INFO(column);
            CHECK(std::abs(reachIn(few, column).top - reachIn(many, column).top) <= 1);
            CHECK(std::abs(reachIn(few, column).bottom - reachIn(many, column).bottom) <= 1);
        }
    }
}

TEST_CASE("a single warm minute of a logger is seen in its spark") {
    const QImage many = drawn(waved(20'160));
    int top = height;
    for (int column = width / 2 - 2; column <= width / 2 + 2; ++column) {
        top = std::min(top, reachIn(many, column).top);
    }
    CHECK(std::abs(top - (height - 2 * 70)) <= 2);
}
