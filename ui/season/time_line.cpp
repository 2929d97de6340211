// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/season/time_line.h"

#include <QLocale>
#include <QPainter>
#include <algorithm>
#include <array>

#include "ui/shared/palette.h"

namespace midden::ui {

namespace {

constexpr int sideMargin = 8;    ///< pixels left and right of the line in its cell
constexpr int barShare = 3;      ///< the bar is a third of the row's height
constexpr int labelLetters = 9;  ///< room for one label of the months, in average letters
constexpr std::array strides{1, 3, 6, 12};

Instant firstOf(int months, const TimeZone& zone) {
    const WallTime wall{.year = months / 12, .month = months % 12 + 1};
    const auto meaning = zone.meaningOf(wall);
    const auto* moment = std::get_if<Moment>(&meaning);
    return moment != nullptr ? moment->at : instantOf(wall, {});  // a clock change at midnight: the day is right
}

QString labelOf(int months, int stride) {
    const int month = months % 12 + 1;
    const QString name = QLocale{}.standaloneMonthName(month, QLocale::ShortFormat);
    return month == 1 || stride == 12 ? QStringLiteral("%1 %2").arg(name).arg(months / 12) : name;
}

double along(const QRect& cell, const SeasonScale& scale, Instant at) {
    return cell.left() + sideMargin + scale.shareAt(at) * (cell.width() - 2.0 * sideMargin);
}

int labelsIn(int width, const QFontMetrics& metrics) {
    return std::max(1, width / (labelLetters * metrics.averageCharWidth()));
}

}  // namespace

double SeasonScale::shareAt(Instant at) const {
    return static_cast<double>((at - span.from).count) /
           static_cast<double>(std::max<std::int64_t>(1, span.length().count));
}

std::vector<MonthMark> monthMarks(const SeasonScale& scale, int most) {
    const auto monthsAt = [&](Instant at) {
        const WallTime wall = wallTimeOf(scale.zone.momentAt(at));
        return wall.year * 12 + wall.month - 1;
    };
    const int first = monthsAt(scale.span.from) + 1;
    const int last = monthsAt(scale.span.to);
    const auto* fits =
        std::find_if(strides.begin(), strides.end(), [&](int stride) { return (last - first) / stride < most; });
    const int stride = fits != strides.end() ? *fits : strides.back() * ((last - first) / (strides.back() * most) + 1);
    std::vector<MonthMark> marks;
    for (int month = (first + stride - 1) / stride * stride; month <= last; month += stride) {
        marks.push_back({firstOf(month, scale.zone), labelOf(month, stride)});
    }
    return marks;
}

void TimeLineDelegate::show(const SeasonScale& scale, const std::vector<SeasonBatch>* batches) {
    scale_ = scale;
    batches_ = batches;
}

void TimeLineDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const Palette& look = Palette::of(*option.widget);
    QStyledItemDelegate::paint(painter, option, index);
    const auto row = static_cast<std::size_t>(index.row());
    if (batches_ == nullptr || row >= batches_->size()) {
        return;
    }
    const SeasonBatch& batch = (*batches_)[row];
    const double height = option.rect.height() / static_cast<double>(barShare);
    const double top = option.rect.top() + (option.rect.height() - height) / 2;
    const auto stretch = [&](const Interval& interval) {
        const double from = along(option.rect, scale_, interval.from);
        return QRectF{from, top, std::max(1.0, along(option.rect, scale_, interval.to) - from), height};
    };
    // A chosen row is of the accent, so that its bar is drawn in the colour of text on it.
    const bool chosen = option.state.testFlag(QStyle::State_Selected);
    painter->save();
    painter->setPen(chosen ? look.accent : look.hairline);
    for (const MonthMark& mark : monthMarks(scale_, labelsIn(option.rect.width(), option.fontMetrics))) {
        const double x = along(option.rect, scale_, mark.at);
        painter->drawLine(QPointF{x, static_cast<double>(option.rect.top())}, QPointF{x, option.rect.bottom() + 1.0});
    }
    painter->setPen(QPen{chosen ? look.onAccent : look.edge, 1, batch.finished ? Qt::SolidLine : Qt::DashLine});
    painter->setBrush(chosen ? look.accent : look.ground);
    painter->drawRect(stretch(batch.stood));
    for (const Interval& window : batch.windows) {
        painter->fillRect(stretch(window), chosen ? look.onAccent : look.accent);
    }
    painter->restore();
}

TimeLineHeader::TimeLineHeader(int column, QWidget* parent) : QHeaderView{Qt::Horizontal, parent}, column_{column} {}

void TimeLineHeader::show(const SeasonScale& scale) {
    scale_ = scale;
    viewport()->update();
}

void TimeLineHeader::paintSection(QPainter* painter, const QRect& rect, int section) const {
    if (section != column_) {
        QHeaderView::paintSection(painter, rect, section);
        return;
    }
    const Palette& look = Palette::of(*this);
    painter->save();
    painter->fillRect(rect, look.ground);
    painter->setPen(look.muted);
    for (const MonthMark& mark : monthMarks(scale_, labelsIn(rect.width(), fontMetrics()))) {
        const int x = static_cast<int>(along(rect, scale_, mark.at));
        painter->drawText(QRect{x + 2, rect.top(), rect.right() - x, rect.height()}, Qt::AlignLeft | Qt::AlignVCenter,
                          mark.label);
    }
    painter->restore();
}

}  // namespace midden::ui
