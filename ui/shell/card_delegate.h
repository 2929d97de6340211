// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStyledItemDelegate>

namespace midden::ui {

struct BinSummary;
struct Palette;

/// Draws a bin card: name, spark of the last fourteen days, and three lines in words.
class CardDelegate : public QStyledItemDelegate {
    Q_OBJECT

  public:
    using QStyledItemDelegate::QStyledItemDelegate;
    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
};

/// The spark of a bin in `area`: its line, broken at gaps, over the line of the target.
void drawSpark(QPainter& painter, const QRectF& area, const BinSummary& summary, const Palette& look);

}  // namespace midden::ui
