// SPDX-License-Identifier: GPL-3.0-or-later
// Lines are drawn from a few readings in each pixel column. Here every reading is drawn, and the pictures compared.
#include <rapidcheck.h>

#include <QImage>
#include <QPainter>
#include <sstream>

#include "tests/ui/chart/invented_series.h"
#include "tests/ui/support/qt_support.h"
#include "ui/chart/chart_layers.h"
#include "ui/chart/chart_source.h"
#include "ui/chart/trace_look.h"

using namespace midden;
using namespace midden::ui;
using namespace midden::testing;

namespace {

constexpr QRectF plotOf(double width) {
    return {51, 30, width, 200};  // at uneven scales the left edge lies between pixels
}

using Channels = std::array<int, 3>;

Channels channelsAt(const QImage& image, int x, int y) {
    const QRgb colour = reinterpret_cast<const QRgb*>(image.constScanLine(y))[x];
    return {qRed(colour), qGreen(colour), qBlue(colour)};
}

/// A batch as it is looked at. No font has a say in it.
struct Look {
    Look(const BatchRecord& batch, Interval visible, double width, double pixels)
        : record{batch}, review{reviewOf(batch, {})}, scale{pixels}, size{width + 90, 260} {
        view.visible = visible;
        view.width = width;
        view.columns = width * scale;
        view.textWidth = [](const QString& text) { return 7.0 * static_cast<double>(text.size()); };
        plan = chartPlan(record, review, view);
        plan.thresholdLabel.clear();  // a hairline, which has no place between pixels
        layout.plot = plotOf(width);
        layout.visible = plan.visible;
        layout.lowestCelsius = plan.lowestCelsius;
        layout.highestCelsius = plan.highestCelsius;
    }

    QImage asShown() const {
        return drawn(scale, [&](QPainter& painter) {
            painter.setRenderHint(QPainter::Antialiasing);
            paintLines({painter, plan, layout, {Palette::light(), {}, size}});
        });
    }
    /// With nothing left out, each pixel as dark as the share of it that ink covers: drawn much larger and without
    /// antialiasing, which would count what lies upon each other twice.
    QImage withEveryReading() const {
        QImage large = drawn(scale * finer, [&](QPainter& painter) {
            painter.setClipRect(wholePixels());
            for (std::size_t i = 0; i < record.tracks.size(); ++i) {
                strokeAll(painter, record.tracks[i].samples, plan.traces[i].look);
            }
        });
        large.setDevicePixelRatio(1);
        return large
            .scaled(large.size() / finer, Qt::IgnoreAspectRatio, Qt::SmoothTransformation)  // mean values
            .convertToFormat(QImage::Format_RGB32);
    }

    const BatchRecord& record;
    BatchReview review;
    ChartView view;
    ChartPlan plan;
    ChartLayout layout;
    double scale;  ///< device pixels to one of ours
    QSizeF size;

  private:
    static constexpr int finer = 4;

    QImage drawn(double factor, const std::function<void(QPainter&)>& draw) const {
        QImage image{(size * scale).toSize() * (factor / scale), QImage::Format_RGB32};
        image.setDevicePixelRatio(factor);
        image.fill(Palette::light().ground);
        QPainter painter{&image};
        draw(painter);
        return image;
    }
    /// Those of the picture that lie in the plot for more than a half.
    QRectF wholePixels() const {
        const QRect pixels = QRectF{layout.plot.topLeft() * scale, layout.plot.size() * scale}.toRect();
        return {QPointF{pixels.topLeft()} / scale, QSizeF{pixels.size()} / scale};
    }
    QPointF placeOf(const Sample& sample) const {
        return {layout.xOf(sample.at), layout.yOf(sample.temperature().value())};
    }
    bool isDense(QPointF one, QPointF next) const { return (next.x() - one.x()) * scale < 1; }
    /// Without dashes where it is dense; they go on behind that.
    void strokeRun(QPainter& painter, const QPolygonF& run, QPen pen) const {
        QPen solid{pen.color(), pen.widthF(), Qt::SolidLine, Qt::RoundCap};
        double length = 0;
        for (qsizetype i = 0; i + 1 < run.size(); ++i) {
            if (pen.style() == Qt::SolidLine || isDense(run[i], run[i + 1])) {
                painter.setPen(solid);
                painter.drawLine(run[i], run[i + 1]);
                continue;
            }
            QPolygonF dashed{{run[i]}};
            pen.setDashOffset(length / pen.widthF());
            do {
                length += QLineF{run[i], run[i + 1]}.length();
                dashed << run[++i];
            } while (i + 1 < run.size() && !isDense(run[i], run[i + 1]));
            --i;
            painter.setPen(pen);
            painter.drawPolyline(dashed);
        }
    }
    /// Readings a whole plot's width away are left out: nothing of their lines but one can be seen.
    void strokeAll(QPainter& painter, const std::vector<Sample>& samples, std::size_t look) const {
        const auto at = [](const Sample& sample) { return sample.at; };
        auto first = std::ranges::lower_bound(samples, view.visible.from, {}, at);
        first -= first == samples.begin() ? 0 : 1;
        auto last = std::ranges::upper_bound(samples, view.visible.to, {}, at);
        last += last == samples.end() ? 0 : 1;
        QPolygonF run;
        for (auto sample = first; sample != last; ++sample) {
            if (sample != first && sample->at - (sample - 1)->at > hours(36)) {
                strokeRun(painter, run, tracePen(Palette::light(), look));
                run.clear();
            }
            run << placeOf(*sample);
        }
        if (!run.isEmpty()) {
            strokeRun(painter, run, tracePen(Palette::light(), look));
        }
    }
};

/// Is the pixel no darker and no lighter than those that touch it in the other picture, but for half of the ink?
bool isWithinAntialiasing(const QImage& image, const QImage& other, int x, int y) {
    constexpr int tolerance = 122;  // of 244 between ink and ground
    Channels low{255, 255, 255};
    Channels high{0, 0, 0};
    for (int row = std::max(0, y - 1); row <= std::min(image.height() - 1, y + 1); ++row) {
        for (int column = std::max(0, x - 1); column <= std::min(image.width() - 1, x + 1); ++column) {
            const Channels near = channelsAt(other, column, row);
            for (std::size_t i = 0; i < 3; ++i) {
                low.at(i) = std::min(low.at(i), near.at(i));
                high.at(i) = std::max(high.at(i), near.at(i));
            }
        }
    }
    const Channels own = channelsAt(image, x, y);
    bool isWithin = true;
    for (std::size_t i = 0; i < 3; ++i) {
        isWithin = isWithin && own.at(i) >= low.at(i) - tolerance && own.at(i) <= high.at(i) + tolerance;
    }
    return isWithin;
}

/// Pixels of either that cannot be explained by antialiasing.
int differences(const QImage& one, const QImage& other) {
    int count = 0;
    for (int y = 0; y < one.height(); ++y) {
        for (int x = 0; x < one.width(); ++x) {
            if (channelsAt(one, x, y) != channelsAt(other, x, y)) {
                count += isWithinAntialiasing(one, other, x, y) && isWithinAntialiasing(other, one, x, y) ? 0 : 1;
            }
        }
    }
    return count;
}

/// For a person who wants to look: set the variable to a folder.
void keepForLooking(const QImage& shown, const QImage& all, const QString& name) {
    const auto folder = qEnvironmentVariable("MIDDENBOOK_PICTURES");
    if (folder.isEmpty()) {
        return;
    }
    QImage picture{shown.width(), shown.height() * 2, QImage::Format_RGB32};
    QPainter painter{&picture};
    painter.drawImage(picture.rect().adjusted(0, 0, 0, -shown.height()), shown);
    painter.drawImage(picture.rect().adjusted(0, shown.height(), 0, 0), all);
    painter.end();
    picture.save(QStringLiteral("%1/%2.png").arg(folder, name));
}

int inked(const QImage& image) {
    int count = 0;
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x) {
            count += channelsAt(image, x, y) != Channels{255, 255, 255} ? 1 : 0;
        }
    }
    return count;
}

std::vector<Interval> zoomsOf(const BatchRecord& record) {
    const Interval whole = wholeBatch(record);
    const auto part = [&](double from, double share) {
        const auto length = static_cast<double>(whole.length().count);
        const Instant begin = whole.from + Seconds{std::llround(from * length)};
        return Interval{begin, begin + Seconds{std::max<std::int64_t>(60, std::llround(share * length))}};
    };
    return {whole, part(0.31, 0.4), part(0.02, 0.11), part(0.77, 0.021), part(0.5, 0.003)};
}

std::size_t pointsIn(const ChartTrace& trace) {
    std::size_t points = 0;
    for (const ChartLine& line : trace.lines) {
        points += line.size();
    }
    return points;
}

/// How a batch is drawn. The kind of batch, what it is made from, the plot's width, device pixels to one of ours.
struct Drawn {
    Nasty kind;
    unsigned seed;
    int width;
    double scale;
};

std::ostream& operator<<(std::ostream& out, const Drawn& how) {
    return out << "kind " << static_cast<int>(how.kind) << ", seed " << how.seed << ", width " << how.width
               << ", scale " << how.scale;
}

/// Pixels that differ, of the whole batch and of parts of it.
int differences(const Drawn& how) {
    const BatchRecord record = nastyRecord(how.kind, how.seed);
    int drawn = 0;
    int different = 0;
    for (const Interval& visible : zoomsOf(record)) {
        const Look look{record, visible, static_cast<double>(how.width), how.scale};
        const QImage shown = look.asShown();
        const QImage all = look.withEveryReading();
        drawn += inked(all);
        if (const int here = differences(shown, all); here > 0) {
            different += here;
            std::ostringstream name;
            name << how << ", " << visible.length().hours() << " h";
            keepForLooking(shown, all, QString::fromStdString(name.str()));
        }
    }
    CHECK(drawn > 0);
    return different;
}

}  // namespace

TEST_CASE("a picture of a few readings a pixel column is the picture of every reading") {
    const auto [seed, width, scale] =
        GENERATE(table<unsigned, int, double>({{1U, 327, 1.0}, {2U, 336, 1.5}, {3U, 342, 2.0}}));
    for (const Nasty kind : allNasty) {
        const Drawn how{kind, seed, width, scale};
        CAPTURE(how);
        CHECK(differences(how) == 0);
    }
}

// Each of these once differed.
TEST_CASE("a picture of a few readings is that of every reading where pixels are uneven parts of the plot") {
    const auto how = GENERATE(Drawn{Nasty::noise, 198'953, 307, 1.75}, Drawn{Nasty::mixed, 51'215, 264, 1.75},
                              Drawn{Nasty::mixed, 92'420, 303, 1.75}, Drawn{Nasty::mixed, 2, 336, 1.5});
    CAPTURE(how);
    CHECK(differences(how) == 0);
}

TEST_CASE("at any width and scale a picture of a few readings is the picture of every reading", "[.][random]") {
    CHECK(rc::check([] {
        const Drawn how{*rc::gen::elementOf(allNasty), *rc::gen::inRange(1U, 1'000'000U), *rc::gen::inRange(250, 420),
                        *rc::gen::element(1.0, 1.25, 1.5, 1.75, 2.0)};
        RC_LOG() << how << "\n";
        RC_ASSERT(differences(how) == 0);
    }));
}

TEST_CASE("the picture is drawn from far fewer readings than there are") {
    const BatchRecord record = nastyRecord(Nasty::noise, 1);
    const Look look{record, wholeBatch(record), 336, 1};
    CHECK(pointsIn(look.plan.traces[0]) <= 4 * slicesAColumn * static_cast<std::size_t>(look.view.columns) + 2);
    CHECK(pointsIn(look.plan.traces[0]) < nastyReadings * 3 / 4);
}

TEST_CASE("the warmest and the coldest reading of each pixel column can be seen") {
    const auto seed = GENERATE(range(1U, 4U));
    for (const Nasty kind : {Nasty::spikes, Nasty::noise, Nasty::sawtooth, Nasty::steps, Nasty::pauses}) {
        const BatchRecord record = nastyRecord(kind, seed);
        const Look look{record, wholeBatch(record), 336, 1};
        const QImage shown = look.asShown();
        const QColor ink = Palette::light().trace(0).colour;
        const auto isInked = [&](const Sample& sample) {
            const QPointF place{look.layout.xOf(sample.at), look.layout.yOf(sample.temperature().value())};
            const QColor colour = shown.pixelColor(static_cast<int>(place.x()), static_cast<int>(place.y()));
            return std::abs(colour.red() - ink.red()) < 128;  // of 244 between ink and ground
        };
        std::map<int, std::pair<Sample, Sample>> extremes;
        for (const Sample& sample : record.tracks[0].samples) {
            const auto column = static_cast<int>(look.layout.xOf(sample.at));
            auto& [coldest, warmest] = extremes.try_emplace(column, sample, sample).first->second;
            coldest = sample.temperature() < coldest.temperature() ? sample : coldest;
            warmest = sample.temperature() > warmest.temperature() ? sample : warmest;
        }
        int unseen = 0;
        for (const auto& [column, pair] : extremes) {
            unseen += isInked(pair.first) && isInked(pair.second) ? 0 : 1;
        }
        CAPTURE(seed, static_cast<int>(kind));
        CHECK(extremes.size() > 30);
        CHECK(unseen == 0);
    }
}
