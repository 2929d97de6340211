// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/amend_delegate.h"

#include <QApplication>
#include <QLocale>
#include <QPainter>
#include <QPointer>

#include "ui/history/entries_model.h"
#include "ui/shared/palette.h"

namespace midden::ui {

namespace {

constexpr int air = 8;  // pixels at both sides of a cell

/// How wide the part before the decimal mark is: that is where numbers of a column line up.
double beforeMark(const QString& shown, const QFontMetricsF& metrics) {
    const auto mark = shown.indexOf(QLocale{}.decimalPoint());
    const auto space = shown.indexOf(QLatin1Char{' '});
    const auto end = mark >= 0 ? mark : space >= 0 ? space : shown.size();
    return metrics.horizontalAdvance(shown.left(end));
}

void drawStruck(QPainter& painter, const QRectF& area, const QString& was, const QFont& font) {
    QFont struck = font;
    struck.setStrikeOut(true);
    painter.setFont(struck);
    const QString shown = QFontMetricsF{struck}.elidedText(was, Qt::ElideRight, area.width());
    painter.drawText(area, Qt::AlignLeft | Qt::AlignVCenter, shown);
}

}  // namespace

QWidget* AmendDelegate::createEditor(QWidget* parent, const QStyleOptionViewItem& /*option*/,
                                     const QModelIndex& index) const {
    auto* editor = new AmendEditor{parent};
    auto* self = const_cast<AmendDelegate*>(this);  // Qt asks for editors through a const function
    const QPersistentModelIndex cell{index};
    connect(editor, &AmendEditor::done, self, [self, editor, cell] { self->finish(editor, cell); });
    connect(editor, &AmendEditor::givenUp, self, [self, editor] {
        editor->disconnect(self);
        emit self->closeEditor(editor, RevertModelCache);
    });
    return editor;
}

void AmendDelegate::finish(AmendEditor* editor, const QPersistentModelIndex& index) {
    const auto* model = qobject_cast<const EntriesModel*>(index.model());
    if (model == nullptr || !index.isValid()) {
        emit closeEditor(editor, RevertModelCache);
        return;
    }
    if (const QString refusal = model->refusal(index, editor->value()); !refusal.isEmpty()) {
        editor->refuse(refusal);
        return;
    }
    // Closing takes the keyboard away, which would say "done" once more.
    editor->disconnect(this);
    const QPointer<AmendEditor> stillThere{editor};
    emit commitData(editor);
    if (stillThere && index.isValid()) {
        emit closeEditor(editor, NoHint);
    }
}

void AmendDelegate::setEditorData(QWidget* editor, const QModelIndex& index) const {
    static_cast<AmendEditor*>(editor)->setValue(index.data(Qt::EditRole).toString());
}

void AmendDelegate::setModelData(QWidget* editor, QAbstractItemModel* model, const QModelIndex& index) const {
    const auto* amend = static_cast<AmendEditor*>(editor);
    static_cast<EntriesModel*>(model)->amend(index, amend->value(), amend->why());
}

void AmendDelegate::updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                                         const QModelIndex& /*index*/) const {
    const QSize size{qMax(option.rect.width(), option.fontMetrics.averageCharWidth() * 30),
                     editor->sizeHint().height()};
    QRect place{option.rect.topLeft(), size};
    const QRect room = editor->parentWidget()->rect();
    place.moveRight(qMin(place.right(), room.right()));
    place.moveBottom(qMin(place.bottom(), room.bottom()));
    place.moveTop(qMax(place.top(), 0));
    editor->setGeometry(place);
}

void AmendDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const QString was = index.data(EntriesModel::wasRole).toString();
    if (index.column() != EntriesModel::typed) {
        QStyledItemDelegate::paint(painter, option, index);
        return;
    }
    QStyleOptionViewItem cell = option;
    initStyleOption(&cell, index);
    const QString shown = cell.text;
    cell.text.clear();
    QApplication::style()->drawControl(QStyle::CE_ItemViewItem, &cell, painter, cell.widget);
    painter->save();
    const bool selected = option.state.testFlag(QStyle::State_Selected);
    painter->setPen(cell.palette.color(selected ? QPalette::HighlightedText : QPalette::Text));
    const QFontMetricsF metrics{cell.font};
    const double markAt = cell.rect.left() + air + metrics.horizontalAdvance(QStringLiteral("000.0 ° ")) +
                          metrics.horizontalAdvance(QStringLiteral("000"));
    if (!was.isEmpty()) {
        const double end =
            shown.isEmpty() ? cell.rect.right() : markAt - metrics.horizontalAdvance(QStringLiteral("000 "));
        const QRectF room{QPointF{cell.rect.left() + double{air}, double(cell.rect.top())},
                          QPointF{end, double(cell.rect.bottom())}};
        drawStruck(*painter, room, was, cell.font);
    }
    painter->setFont(cell.font);
    const double left = markAt - beforeMark(shown, metrics);
    painter->drawText(QRectF{left, double(cell.rect.top()), cell.rect.right() - left, double(cell.rect.height())},
                      Qt::AlignLeft | Qt::AlignVCenter, shown);
    painter->restore();
}

QSize AmendDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    QSize size = QStyledItemDelegate::sizeHint(option, index);
    if (index.column() == EntriesModel::typed) {
        size.setWidth(option.fontMetrics.horizontalAdvance(QStringLiteral("000.0 ° 000.0000 °F")) + 2 * air);
    }
    return size;
}

}  // namespace midden::ui
