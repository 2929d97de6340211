// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shell/card_delegate.h"

#include <QPainter>
#include <QPainterPath>
#include <QStyle>
#include <QWidget>
#include <algorithm>
#include <cmath>

#include "ui/shared/palette.h"
#include "ui/shell/card_model.h"

namespace midden::ui {

namespace {

constexpr int margin = 16;
constexpr int step = 8;
constexpr int sparkHeight = 32;
/// What the spark's height stands for. A fixed range, so that two cards can be compared.
constexpr double coolest = 0.0;
constexpr double warmest = 80.0;

QFont bold(QFont font) {
    font.setWeight(QFont::DemiBold);
    return font;
}

void drawShare(QPainter& painter, const QRect& area, double share, const Palette& look) {
    painter.fillRect(area, look.hairline);
    QRect done = area;
    done.setWidth(static_cast<int>(area.width() * share));
    painter.fillRect(done, look.accent);
}

int wrappedHeight(const QString& words, const QFont& font, int width) {
    return QFontMetrics{font}.boundingRect(QRect{0, 0, width, 10'000}, Qt::TextWordWrap, words).height();
}

class Lines {
  public:
    Lines(QPainter& painter, const QRect& area) : painter_{painter}, area_{area}, top_{area.top()} {}
    void write(const QString& words, const QFont& font, const QColor& colour) {
        if (words.isEmpty()) {
            return;
        }
        painter_.setFont(font);
        painter_.setPen(colour);
        const QFontMetrics metrics{font};
        const QRect line{area_.left(), top_, area_.width(), metrics.height()};
        painter_.drawText(line, Qt::AlignLeft | Qt::AlignVCenter,
                          metrics.elidedText(words, Qt::ElideRight, area_.width()));
        top_ += metrics.height() + 2;
    }
    /// Goes on in the next line rather than cut the words.
    void wrap(const QString& words, const QFont& font, const QColor& colour) {
        painter_.setFont(font);
        painter_.setPen(colour);
        const int height = wrappedHeight(words, font, area_.width());
        painter_.drawText(QRect{area_.left(), top_, area_.width(), height}, Qt::TextWordWrap, words);
        top_ += height + 2;
    }
    QRect next(int height) {
        const QRect rect{area_.left(), top_, area_.width(), height};
        top_ += height;
        return rect;
    }
    void skip(int pixels) { top_ += pixels; }

  private:
    QPainter& painter_;
    QRect area_;
    int top_;
};

const BinSummary& summaryOf(const QModelIndex& index) {
    return static_cast<const CardModel*>(index.model())->summary(index.row());
}

/// What the line reaches in each column of pixels, as thick as a pen: in the whole column, so that a single reading far
/// from the others is seen.
QPolygonF outlineOf(const QPolygonF& line, double thick) {
    QPolygonF above;
    QPolygonF below;
    const auto close = [&](double left, double top, double bottom) {
        above << QPointF{left, top - thick / 2} << QPointF{left + 1, top - thick / 2};
        below << QPointF{left, bottom + thick / 2} << QPointF{left + 1, bottom + thick / 2};
    };
    double column = std::floor(line.front().x());
    double top = line.front().y();
    double bottom = top;
    for (const QPointF& point : line) {
        if (std::floor(point.x()) != column) {
            close(column, top, bottom);
            column = std::floor(point.x());
            top = bottom = point.y();
        }
        top = std::min(top, point.y());
        bottom = std::max(bottom, point.y());
    }
    close(column, top, bottom);
    std::reverse(below.begin(), below.end());
    return above + below;
}

/// More than a few hundred readings in a few columns: a logger has twenty thousand in a spark, and stroking those would
/// take longer than all the cards.
bool isDense(const QPolygonF& line, double thick) {
    const double width = line.isEmpty() ? 0 : line.back().x() - line.front().x();
    return line.size() > 500 && width > thick && static_cast<double>(line.size()) > 2 * width;
}

void drawLine(QPainter& painter, const QPolygonF& line, const QPen& pen) {
    if (isDense(line, pen.widthF())) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(pen.color());
        painter.drawPolygon(outlineOf(line, pen.widthF()));
    } else {
        painter.setPen(pen);
        painter.setBrush(Qt::NoBrush);
        painter.drawPolyline(line);
    }
}

}  // namespace

void drawSpark(QPainter& painter, const QRectF& area, const BinSummary& summary, const Palette& look) {
    const double span = static_cast<double>(summary.sparkSpan.length().count);
    const auto at = [&](const Sample& sample) {
        const double x = static_cast<double>((sample.at - summary.sparkSpan.from).count) / span;
        const double y = (std::clamp(sample.temperature().value(), coolest, warmest) - coolest) / (warmest - coolest);
        return QPointF{area.left() + x * area.width(), area.bottom() - y * area.height()};
    };
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const double target =
        area.bottom() - (summary.target.threshold.value() - coolest) / (warmest - coolest) * area.height();
    painter.setPen(QPen{look.edge, 1, Qt::DotLine});
    painter.drawLine(QPointF{area.left(), target}, QPointF{area.right(), target});
    const QPen pen{look.trace(0).colour, 1.6, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin};
    painter.setPen(pen);
    for (const auto& piece : summary.spark) {
        QPolygonF line;
        for (const Sample& sample : piece) {
            line << at(sample);
        }
        if (line.size() == 1) {
            painter.setBrush(look.trace(0).colour);
            painter.drawEllipse(line.front(), 1, 1);
        }
        drawLine(painter, line, pen);
    }
    painter.setPen(pen);
    if (!summary.spark.empty()) {
        painter.setBrush(look.trace(0).colour);
        painter.drawEllipse(at(summary.spark.back().back()), 2, 2);
    }
    painter.restore();
}

void CardDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const Palette& look = Palette::of(*option.widget);
    const bool chosen = option.state.testFlag(QStyle::State_Selected);
    const bool focused = option.state.testFlag(QStyle::State_HasFocus);
    painter->save();
    painter->fillRect(option.rect, chosen ? look.chosen : look.side);
    if (chosen) {
        painter->fillRect(QRect{option.rect.left(), option.rect.top(), focused ? 5 : 3, option.rect.height()},
                          look.accent);
    }
    painter->fillRect(QRect{option.rect.left(), option.rect.bottom(), option.rect.width(), 1}, look.hairline);
    Lines lines{*painter, option.rect.adjusted(margin, margin, -margin, -margin)};
    lines.write(index.data().toString(), bold(option.font), look.text);
    lines.wrap(index.data(CardModel::phaseRole).toString(), option.font, look.text);
    if (summaryOf(index).batch) {
        lines.skip(step / 2);
        drawSpark(*painter, lines.next(sparkHeight), summaryOf(index), look);
        lines.skip(step);
        drawShare(*painter, lines.next(2), index.data(CardModel::shareRole).toDouble(), look);
        lines.skip(step / 2);
        lines.wrap(index.data(CardModel::creditRole).toString(), option.font, look.text);
        for (const QString& due : index.data(CardModel::dueRole).toStringList()) {
            lines.wrap(due, option.font, look.muted);
        }
    }
    painter->restore();
}

QSize CardDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const int heading = QFontMetrics{bold(option.font)}.height() + 2;
    const int bar = option.widget->style()->pixelMetric(QStyle::PM_ScrollBarExtent);  // whether or not there is one
    const int width = option.widget->width() - bar - 2 * margin;
    QStringList words{index.data(CardModel::phaseRole).toString(), index.data(CardModel::creditRole).toString()};
    words << index.data(CardModel::dueRole).toStringList();
    int wrapped = 0;
    for (const QString& line : words) {
        wrapped += line.isEmpty() ? 0 : wrappedHeight(line, option.font, width) + 2;
    }
    const int drawn = summaryOf(index).batch ? step / 2 + sparkHeight + step + 2 + step / 2 : 0;
    return {100, 2 * margin + heading + wrapped + drawn};
}

}  // namespace midden::ui
