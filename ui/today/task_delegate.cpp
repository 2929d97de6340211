// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/today/task_delegate.h"

#include <QListView>
#include <QPainter>

#include "ui/shared/palette.h"
#include "ui/today/task_model.h"

namespace midden::ui {

namespace {

constexpr int margin = 12;
constexpr int gap = 16;
constexpr int whereCharacters = 20;

QFont bold(QFont font) {
    font.setWeight(QFont::DemiBold);
    return font;
}

/// Where the words of a row lie; the row is as tall as what wraps in it.
struct Places {
    QRect where;
    QRect what;
    QRect until;
    QRect why;
    int bottom = 0;
};

int heightOf(const QString& words, const QFont& font, int width) {
    return QFontMetrics{font}.boundingRect(QRect{0, 0, width, 10'000}, Qt::TextWordWrap, words).height();
}

Places placesOf(const QStyleOptionViewItem& option, const QModelIndex& index, int width, int top) {
    const QFontMetrics metrics{option.font};
    const QFontMetrics heading{bold(option.font)};
    const int left = option.rect.left() + margin;
    const int where = metrics.averageCharWidth() * whereCharacters;
    const QString until = index.data(TaskModel::untilRole).toString();
    const int untilWidth = until.isEmpty() ? 0 : metrics.horizontalAdvance(until) + 2;
    const int middle = width - 2 * margin - where - gap;
    const int room = std::max(60, middle - (untilWidth > 0 ? untilWidth + gap : 0));
    const int line =
        std::max(heading.height(), heightOf(index.data(TaskModel::whatRole).toString(), bold(option.font), room));
    const int why = heightOf(index.data(TaskModel::whyRole).toString(), option.font, middle);
    Places places;
    top += margin;
    places.where = {left, top, where, heading.height()};
    places.what = {left + where + gap, top, room, line};
    places.until = {left + where + gap + middle - untilWidth, top, untilWidth, heading.height()};
    places.why = {left + where + gap, top + line + 2, middle, why};
    places.bottom = top + line + 2 + why + margin;
    return places;
}

}  // namespace

void TaskDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const Palette& look = Palette::of(*option.widget);
    const bool chosen = option.state.testFlag(QStyle::State_Selected);
    const bool focused = option.state.testFlag(QStyle::State_HasFocus);
    const QRect& row = option.rect;
    painter->save();
    painter->fillRect(row, chosen ? look.chosen : look.ground);
    if (chosen) {
        painter->fillRect(QRect{row.left(), row.top(), focused ? 5 : 3, row.height()}, look.accent);
    }
    painter->fillRect(QRect{row.left(), row.bottom(), row.width(), 1}, look.hairline);
    const Places places = placesOf(option, index, row.width(), row.top());
    const QFontMetrics heading{bold(option.font)};
    painter->setPen(look.text);
    painter->setFont(bold(option.font));
    painter->drawText(places.where, Qt::AlignLeft | Qt::AlignTop,
                      heading.elidedText(index.data().toString(), Qt::ElideRight, places.where.width()));
    painter->drawText(places.what, Qt::TextWordWrap, index.data(TaskModel::whatRole).toString());
    painter->setFont(option.font);
    painter->drawText(places.until, Qt::AlignRight | Qt::AlignTop, index.data(TaskModel::untilRole).toString());
    painter->setPen(look.muted);
    painter->drawText(places.why, Qt::TextWordWrap, index.data(TaskModel::whyRole).toString());
    painter->restore();
}

QSize TaskDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const auto* list = qobject_cast<const QListView*>(option.widget);
    const int width = list != nullptr ? list->viewport()->width() : 600;
    return {100, placesOf(option, index, width, 0).bottom};
}

}  // namespace midden::ui
