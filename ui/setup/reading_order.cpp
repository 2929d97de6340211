// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/reading_order.h"

#include <QGridLayout>
#include <QSet>
#include <QWidget>

namespace midden::ui {

namespace {

class Reading {
  public:
    void read(QWidget& widget) {
        if ((widget.focusPolicy() & Qt::TabFocus) != 0) {
            order_.append(&widget);
        }
        if (widget.layout() != nullptr) {
            read(*widget.layout());
        }
    }
    const QList<QWidget*>& order() const { return order_; }

  private:
    void read(QLayout& layout) {
        if (const auto* grid = qobject_cast<QGridLayout*>(&layout)) {
            readRows(*grid);
            return;
        }
        for (int i = 0; i < layout.count(); ++i) {
            read(layout.itemAt(i));
        }
    }
    void readRows(const QGridLayout& grid) {
        for (int row = 0; row < grid.rowCount(); ++row) {
            for (int column = 0; column < grid.columnCount(); ++column) {
                read(grid.itemAtPosition(row, column));
            }
        }
    }
    void read(QLayoutItem* item) {
        if (item == nullptr || seen_.contains(item)) {
            return;  // an item of several cells is met in each of them
        }
        seen_.insert(item);
        if (item->widget() != nullptr) {
            read(*item->widget());
        } else if (item->layout() != nullptr) {
            read(*item->layout());
        }
    }

    QList<QWidget*> order_;
    QSet<QLayoutItem*> seen_;
};

}  // namespace

void tabAsRead(QWidget& page) {
    Reading reading;
    reading.read(page);
    for (qsizetype i = 1; i < reading.order().size(); ++i) {
        QWidget::setTabOrder(reading.order().at(i - 1), reading.order().at(i));
    }
}

}  // namespace midden::ui
