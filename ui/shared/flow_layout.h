// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLayout>
#include <memory>
#include <optional>
#include <vector>

namespace midden::ui {

/// Sets widgets side by side and goes on in the next line when there is no room, as words do.
class FlowLayout : public QLayout {
  public:
    explicit FlowLayout(int spacing, QWidget* parent = nullptr);
    /// From now on all items are as wide as the widest, so that they stand in columns.
    void setInColumns() { isInColumns_ = true; }
    /// Between lines; else as between items.
    void setLineSpacing(int spacing) { lineSpacing_ = spacing; }

    void addItem(QLayoutItem* item) override;
    int count() const override;
    QLayoutItem* itemAt(int index) const override;
    QLayoutItem* takeAt(int index) override;
    bool hasHeightForWidth() const override { return true; }
    int heightForWidth(int width) const override;
    void setGeometry(const QRect& rect) override;
    QSize sizeHint() const override;
    QSize minimumSize() const override;
    Qt::Orientations expandingDirections() const override { return {}; }

  private:
    struct Line {
        std::size_t end = 0;  ///< one past its last item
        int height = 0;
    };
    QSize sizeOf(std::size_t index) const;
    int stepAfter(const QSize& size) const;
    Line lineFrom(std::size_t first, int width) const;
    int place(const QRect& rect, bool really) const;

    std::vector<std::unique_ptr<QLayoutItem>> items_;
    bool isInColumns_ = false;
    std::optional<int> lineSpacing_;
};

}  // namespace midden::ui
