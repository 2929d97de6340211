// SPDX-License-Identifier: GPL-3.0-or-later
// Lines are drawn from a few readings in each pixel column. Here every reading is drawn, and the pictures compared.
#include <QImage>
#include <QPainter>
#include <QPainterPath>

#include "tests/ui/chart/invented_series.h"
#include "tests/ui/support/qt_support.h"
#include "ui/chart/chart_layers.h"
#include "ui/chart/chart_source.h"
#include "ui/chart/trace_look.h"

using namespace midden;
using namespace midden::ui;
using namespace midden::testing;

namespace {

constexpr QSizeF pictureSize{420, 260};

using Channels = std::array<int, 3>;

Channels channelsAt(const QImage& image, int x, int y) {
    const QRgb colour = reinterpret_cast<const QRgb*>(image.constScanLine(y))[x];
    return {qRed(colour), qGreen(colour), qBlue(colour)};
}

/// A batch as it is looked at.
struct Look {
    Look(const BatchRecord& batch, Interval visible, double pixels)
        : record{batch}, review{reviewOf(batch, {})}, scale{pixels} {
        font.setPixelSize(13);
        view.visible = visible;
        view.width = plotWidth(pictureSize.width(), font);
        view.columns = view.width * scale;
        view.textWidth = [](const QString& text) { return 7.0 * static_cast<double>(text.size()); };
        plan = chartPlan(record, review, view);
        plan.thresholdLabel.clear();  // a hairline, which has no place between pixels
        layout = layoutOf(plan, font, pictureSize);
    }

    QImage asShown() const {
        return drawn(scale, [&](QPainter& painter) {
            painter.setRenderHint(QPainter::Antialiasing);
            paintLines({painter, plan, layout, {Palette::light(), font, pictureSize}});
        });
    }
    /// With nothing left out, each pixel as dark as the share of it that ink covers: crowded ones drawn much larger and
    /// without antialiasing, which would count what lies upon each other twice.
    QImage withEveryReading() const {
        const auto draw = [&](QPainter& painter) {
            painter.setRenderHint(QPainter::Antialiasing, !isCrowded());
            painter.setClipRect(layout.plot);
            for (std::size_t i = 0; i < record.tracks.size(); ++i) {
                strokeAll(painter, record.tracks[i].samples, plan.traces[i].look);
            }
        };
        return isCrowded() ? reduced(drawn(scale * finer, draw), (pictureSize * scale).toSize()) : drawn(scale, draw);
    }

    const BatchRecord& record;
    BatchReview review;
    ChartView view;
    QFont font = QApplication::font();
    ChartPlan plan;
    ChartLayout layout;
    double scale;  ///< device pixels to one of ours

  private:
    static constexpr int finer = 8;

    static QImage drawn(double factor, const std::function<void(QPainter&)>& draw) {
        QImage image{(pictureSize * factor).toSize(), QImage::Format_RGB32};
        image.setDevicePixelRatio(factor);
        image.fill(Palette::light().ground);
        QPainter painter{&image};
        draw(painter);
        return image;
    }
    /// More readings than pixel columns.
    bool isCrowded() const {
        return std::ranges::any_of(record.tracks, [&](const Track& track) {
            const auto count = std::ranges::count_if(track.samples, [&](const Sample& sample) {
                return sample.at >= view.visible.from && sample.at <= view.visible.to;
            });
            return static_cast<double>(count) > view.width * scale;
        });
    }
    static QImage reduced(const QImage& large, QSize size) {
        QImage image{size, QImage::Format_RGB32};
        for (int y = 0; y < size.height(); ++y) {
            for (int x = 0; x < size.width(); ++x) {
                Channels sum{};
                for (int i = 0; i < finer * finer; ++i) {
                    const Channels one = channelsAt(large, x * finer + i % finer, y * finer + i / finer);
                    std::ranges::transform(sum, one, sum.begin(), std::plus{});
                }
                const auto mean = [&](std::size_t channel) { return sum.at(channel) / (finer * finer); };
                image.setPixel(x, y, qRgb(mean(0), mean(1), mean(2)));
            }
        }
        return image;
    }

    QPointF placeOf(const Sample& sample) const {
        return {layout.xOf(sample.at), layout.yOf(sample.temperature().value())};
    }
    /// Crowded lines have no dashes.
    void strokeRun(QPainter& painter, const QPolygonF& run, QPen pen) const {
        const bool isCrowded = static_cast<double>(run.size()) > (run.back().x() - run.front().x()) * scale;
        if (!isCrowded) {
            painter.setPen(pen);
            painter.drawPolyline(run);
            return;
        }
        pen.setStyle(Qt::SolidLine);
        pen.setCapStyle(Qt::RoundCap);
        painter.setPen(pen);
        for (qsizetype i = 1; i < run.size(); ++i) {
            painter.drawLine(run[i - 1], run[i]);
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

}  // namespace

TEST_CASE("a picture of a few readings a pixel column is the picture of every reading") {
    const auto [seed, scale] = GENERATE(table<unsigned, double>({{1U, 1.0}, {2U, 1.5}, {3U, 2.0}}));
    for (const Nasty kind : allNasty) {
        const BatchRecord record = nastyRecord(kind, seed);
        int drawn = 0;
        for (const Interval& visible : zoomsOf(record)) {
            const Look look{record, visible, scale};
            const QImage shown = look.asShown();
            const QImage all = look.withEveryReading();
            CAPTURE(seed, scale, static_cast<int>(kind), visible.length().hours());
            const int different = differences(shown, all);
            if (different > 0) {
                keepForLooking(
                    shown, all,
                    QStringLiteral("%1-%2-%3").arg(static_cast<int>(kind)).arg(scale).arg(visible.length().hours()));
            }
            CHECK(different == 0);
            drawn += inked(all);
        }
        CHECK(drawn > 0);
    }
}

TEST_CASE("the picture is drawn from far fewer readings than there are") {
    const BatchRecord record = nastyRecord(Nasty::noise, 1);
    const Look look{record, wholeBatch(record), 1};
    CHECK(pointsIn(look.plan.traces[0]) <= 4 * slicesAColumn * static_cast<std::size_t>(look.view.columns) + 2);
    CHECK(pointsIn(look.plan.traces[0]) < nastyReadings * 3 / 4);
}

TEST_CASE("the warmest and the coldest reading of each pixel column can be seen") {
    const auto seed = GENERATE(range(1U, 4U));
    for (const Nasty kind : {Nasty::spikes, Nasty::noise, Nasty::sawtooth, Nasty::steps, Nasty::pauses}) {
        const BatchRecord record = nastyRecord(kind, seed);
        const Look look{record, wholeBatch(record), 1};
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
