// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/flow_layout.h"

#include <QWidget>

namespace midden::ui {

FlowLayout::FlowLayout(int spacing, QWidget* parent) : QLayout{parent} {
    setContentsMargins(0, 0, 0, 0);
    setSpacing(spacing);
}

void FlowLayout::addItem(QLayoutItem* item) {
    items_.emplace_back(item);
}

int FlowLayout::count() const {
    return static_cast<int>(items_.size());
}

QLayoutItem* FlowLayout::itemAt(int index) const {
    return index >= 0 && index < count() ? items_.at(static_cast<std::size_t>(index)).get() : nullptr;
}

QLayoutItem* FlowLayout::takeAt(int index) {
    if (itemAt(index) == nullptr) {
        return nullptr;
    }
    const auto taken = items_.begin() + index;
    QLayoutItem* item = taken->release();
    items_.erase(taken);
    return item;
}

int FlowLayout::heightForWidth(int width) const {
    return place({0, 0, width, 0}, false);
}

void FlowLayout::setGeometry(const QRect& rect) {
    QLayout::setGeometry(rect);
    place(rect, true);
}

QSize FlowLayout::sizeHint() const {
    int width = 0;
    for (const auto& item : items_) {
        width += item->sizeHint().width() + spacing();
    }
    return {width, minimumSize().height()};
}

QSize FlowLayout::minimumSize() const {
    QSize widest;
    for (const auto& item : items_) {
        widest = widest.expandedTo(item->minimumSize());
    }
    return widest;
}

/// What an item takes up: nothing while its widget is hidden.
QSize FlowLayout::sizeOf(std::size_t index) const {
    if (items_[index]->isEmpty()) {
        return {0, 0};
    }
    QSize size = items_[index]->sizeHint();
    for (const auto& item : items_) {
        if (isInColumns_ && !item->isEmpty()) {
            size.setWidth(qMax(size.width(), item->sizeHint().width()));
        }
    }
    return size;
}

int FlowLayout::stepAfter(const QSize& size) const {
    return size.isEmpty() ? 0 : size.width() + spacing();
}

/// The line that begins with item `first` in that much width.
FlowLayout::Line FlowLayout::lineFrom(std::size_t first, int width) const {
    Line line{.end = first, .height = 0};
    int used = 0;
    while (line.end < items_.size()) {
        const QSize size = sizeOf(line.end);
        if (line.end > first && used + size.width() > width) {
            break;
        }
        used += stepAfter(size);
        line.height = qMax(line.height, size.height());
        ++line.end;
    }
    return line;
}

/// Places the items line by line, centred in their line's height; gives the height it takes.
int FlowLayout::place(const QRect& rect, bool really) const {
    int y = rect.top();
    for (std::size_t next = 0; next < items_.size();) {
        const Line line = lineFrom(next, rect.width());
        int x = rect.left();
        for (; next < line.end; ++next) {
            const QSize size = sizeOf(next).boundedTo({rect.width(), QWIDGETSIZE_MAX});
            if (really && !size.isEmpty()) {
                items_[next]->setGeometry({{x, y + (line.height - size.height()) / 2}, size});
            }
            x += stepAfter(size);
        }
        y += line.height + lineSpacing_.value_or(spacing());
    }
    return items_.empty() ? 0 : y - lineSpacing_.value_or(spacing()) - rect.top();
}

}  // namespace midden::ui
