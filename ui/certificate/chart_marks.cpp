// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/certificate/chart_marks.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <array>

#include "ui/certificate/paper_font.h"
#include "ui/certificate/paper_text.h"

namespace midden::ui {

namespace {

constexpr double markSize = 1.3 * mm;
constexpr double legendLine = 4 * mm;
constexpr double laneTop = 5.4 * mm;  ///< under the axis, below the dates
constexpr double laneLine = 3.4 * mm;
enum class Glyph { addition, turned, otherAir };

QPainterPath shapeOf(PaperMark mark, QPointF centre, double size) {
    const double r = size / 2;
    QPainterPath path;
    switch (mark) {
        case PaperMark::dot:
            path.addEllipse(centre, r, r);
            break;
        case PaperMark::square:
            path.addRect({centre.x() - r * 0.9, centre.y() - r * 0.9, 1.8 * r, 1.8 * r});
            break;
        case PaperMark::triangle:
            path.addPolygon(QPolygonF{centre + QPointF{0, -r * 1.15}, centre + QPointF{r * 1.1, r * 0.85},
                                      centre + QPointF{-r * 1.1, r * 0.85}});
            path.closeSubpath();
            break;
        case PaperMark::diamond:
            path.addPolygon(QPolygonF{centre + QPointF{0, -r * 1.25}, centre + QPointF{r * 1.25, 0},
                                      centre + QPointF{0, r * 1.25}, centre + QPointF{-r * 1.25, 0}});
            path.closeSubpath();
            break;
        case PaperMark::none:
            break;
    }
    return path;
}

void drawGlyph(QPainter& painter, QPointF centre, Glyph glyph) {
    static constexpr std::array marks{PaperMark::triangle, PaperMark::diamond, PaperMark::dot};
    const auto mark = marks.at(static_cast<std::size_t>(glyph));
    painter.setPen(QPen{ink::text, 0.2 * mm});
    painter.setBrush(glyph == Glyph::turned ? ink::text : ink::paper);
    painter.drawPath(shapeOf(mark, centre, 1.9 * mm));
}

/// Writes items of the legend from left to right, over several lines when they do not fit.
class Legend {
  public:
    Legend(QPainter& painter, const QRectF& target)
        : painter_{painter}, target_{target}, at_{target.topLeft() + QPointF{9 * mm, 0}} {}

    template <class Sample>
    void item(const QString& name, double sampleWidth, Sample sample) {
        const QFontMetricsF metrics{paperFont(Face::regular, 7.5)};
        const auto words = metrics.elidedText(name, Qt::ElideRight, 60 * mm);
        const double width = sampleWidth + 1.2 * mm + metrics.horizontalAdvance(words);
        if (at_.x() + width > target_.right() && at_.x() > target_.left() + 10 * mm) {
            at_ = {target_.left() + 9 * mm, at_.y() + legendLine};
        }
        sample(QPointF{at_.x(), at_.y() + legendLine / 2});
        painter_.setFont(paperFont(Face::regular, 7.5));
        painter_.setPen(ink::text);
        painter_.drawText(QRectF{at_.x() + sampleWidth + 1.2 * mm, at_.y(), width, legendLine},
                          Qt::AlignLeft | Qt::AlignVCenter | Qt::TextSingleLine, words);
        at_.rx() += width + 5 * mm;
    }
    double height() const { return at_.y() + legendLine - target_.top(); }

  private:
    QPainter& painter_;
    QRectF target_;
    QPointF at_;
};

void traceItem(Legend& legend, QPainter& painter, const QString& name, const PaperTrace& look) {
    legend.item(name, 8 * mm, [&](QPointF left) {
        painter.setPen(look.pen());
        painter.drawLine(left, left + QPointF{8 * mm, 0});
        drawMark(painter, left + QPointF{4 * mm, 0}, look);
    });
}

void glyphItem(Legend& legend, QPainter& painter, const char* name, Glyph glyph) {
    legend.item(QString::fromLatin1(name), 2 * mm, [&](QPointF left) {
        drawGlyph(painter, left + QPointF{1 * mm, 0}, glyph);
    });
}

bool hasOtherAir(const BatchRecord& record) {
    return std::any_of(record.aerations.begin(), record.aerations.end(),
                       [](const Aeration& aeration) { return aeration.kind != AerationKind::turned; });
}
bool hasTurning(const BatchRecord& record) {
    return std::any_of(record.aerations.begin(), record.aerations.end(),
                       [](const Aeration& aeration) { return aeration.kind == AerationKind::turned; });
}

QString stallWord(StallKind kind) {
    switch (kind) {
        case StallKind::neverHeated:
            return QStringLiteral("never hot");
        case StallKind::earlyCooling:
            return QStringLiteral("stalled");
        case StallKind::handlingDip:
            break;
    }
    return QStringLiteral("after handling");
}

/// A bracket from the stall's beginning to its end; an open one runs to the edge and stays open there.
void drawStall(QPainter& painter, const ChartFrame& frame, const Stall& stall) {
    const double y = frame.plot().bottom() + laneTop + laneLine;
    const double from = frame.x(stall.from);
    const double to = stall.to ? frame.x(*stall.to) : frame.plot().right();
    painter.setPen(QPen{ink::text, 0.2 * mm});
    painter.drawLine(QPointF{from, y}, QPointF{to, y});
    painter.drawLine(QPointF{from, y}, QPointF{from, y - 1 * mm});
    if (stall.to) {
        painter.drawLine(QPointF{to, y}, QPointF{to, y - 1 * mm});
    }
    painter.setFont(paperFont(Face::regular, 7));
    const auto word = stallWord(stall.kind);
    const double half = QFontMetricsF{painter.font()}.horizontalAdvance(word) / 2 + 0.5 * mm;
    const double centre = std::clamp((from + to) / 2, frame.plot().left() + half, frame.plot().right() - half);
    painter.drawText(QRectF{centre - half, y + 0.2 * mm, 2 * half, 3.4 * mm},
                     Qt::AlignCenter | Qt::TextSingleLine | Qt::TextDontClip, word);
}

}  // namespace

QPen PaperTrace::pen() const {
    QPen pen{colour, width};
    if (dash != Qt::SolidLine) {
        pen.setStyle(dash);
        pen.setCapStyle(Qt::FlatCap);
    }
    pen.setJoinStyle(Qt::RoundJoin);
    return pen;
}

std::vector<const Track*> tracksInOrder(const BatchRecord& record) {
    std::vector<const Track*> tracks;
    for (const auto& track : record.tracks) {
        tracks.push_back(&track);
    }
    std::stable_partition(tracks.begin(), tracks.end(), [](const Track* track) { return track->position == "core"; });
    return tracks;
}

PaperTrace paperTrace(std::size_t n) {
    constexpr double width = 0.35 * mm;
    static const std::array<PaperTrace, 4> looks{{{{0x0b, 0x6e, 0x75}, Qt::SolidLine, PaperMark::dot, width},
                                                  {{0xb5, 0x50, 0x2a}, Qt::DashLine, PaperMark::square, width},
                                                  {{0x6b, 0x3f, 0xa0}, Qt::DotLine, PaperMark::triangle, width},
                                                  {{0x6e, 0x7a, 0x1e}, Qt::DashDotLine, PaperMark::diamond, width}}};
    auto look = looks.at(n % looks.size());
    look.dash = looks.at((n + n / looks.size()) % looks.size()).dash;
    return look;
}

void drawMark(QPainter& painter, QPointF centre, const PaperTrace& look) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(look.colour);
    painter.drawPath(shapeOf(look.mark, centre, markSize));
}

double drawChartLegend(QPainter& painter, const QRectF& target, const BatchRecord& record) {
    Legend legend{painter, target};
    const auto tracks = tracksInOrder(record);
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        traceItem(legend, painter, onOneLine(tracks[i]->position), paperTrace(i));
    }
    if (!record.outside.empty()) {
        traceItem(legend, painter, QStringLiteral("outside air"),
                  {{0x8a, 0x93, 0x96}, Qt::SolidLine, PaperMark::none, 0.2 * mm});
    }
    if (!record.additions.empty()) {
        glyphItem(legend, painter, "addition", Glyph::addition);
    }
    if (hasTurning(record)) {
        glyphItem(legend, painter, "turned", Glyph::turned);
    }
    if (hasOtherAir(record)) {
        glyphItem(legend, painter, "other air or water", Glyph::otherAir);
    }
    return legend.height();
}

double laneHeight(const BatchReview& review) {
    return (review.stalls.empty() ? 1 : 2.2) * laneLine;
}

void drawLanes(QPainter& painter, const ChartFrame& frame, const PaperChart& chart) {
    const double y = frame.plot().bottom() + laneTop + laneLine / 2 - 0.6 * mm;
    for (const auto& addition : chart.record.additions) {
        drawGlyph(painter, {frame.x(addition.when.at), y}, Glyph::addition);
    }
    for (const auto& aeration : chart.record.aerations) {
        const auto glyph = aeration.kind == AerationKind::turned ? Glyph::turned : Glyph::otherAir;
        drawGlyph(painter, {frame.x(aeration.when.at), y}, glyph);
    }
    for (const auto& stall : chart.review.stalls) {
        drawStall(painter, frame, stall);
    }
}

}  // namespace midden::ui
