// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/common/flow_layout.h"

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

/// Places the items line by line, centred in their line's height; gives the height it takes.
int FlowLayout::place(const QRect& rect, bool really) const {
    int y = rect.top();
    std::size_t next = 0;
    while (next < items_.size()) {
        std::size_t end = next;
        int width = 0;
        int height = 0;
        for (; end < items_.size(); ++end) {
            const QSize size = items_[end]->isEmpty() ? QSize{0, 0} : items_[end]->sizeHint();
            if (end > next && width + size.width() > rect.width()) {
                break;
            }
            width += size.width() + (size.isEmpty() ? 0 : spacing());
            height = qMax(height, size.height());
        }
        int x = rect.left();
        for (; next < end; ++next) {
            const QSize size = items_[next]->isEmpty() ? QSize{0, 0} : items_[next]->sizeHint();
            if (really && !size.isEmpty()) {
                items_[next]->setGeometry({{x, y + (height - size.height()) / 2}, size});
            }
            x += size.width() + (size.isEmpty() ? 0 : spacing());
        }
        y += height + spacing();
    }
    return items_.empty() ? 0 : y - spacing() - rect.top();
}

}  // namespace midden::ui
