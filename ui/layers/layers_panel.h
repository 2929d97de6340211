// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "ui/layers/layers_words.h"

class QLabel;
class QStackedWidget;
class QTableView;
class QToolButton;

namespace midden::ui {

class LayersTable;
class LayersView;

/// The layers of a fed bin: the picture, the same as a table, and in words what it says.
class LayersPanel : public QWidget {
    Q_OBJECT

  public:
    explicit LayersPanel(QWidget* parent = nullptr);

    /// Null empties it.
    void show(const LayersPtr& source, const LayersTongue& tongue);
    LayersView& view() { return *view_; }

  private:
    void tell(std::optional<LayerSpot> spot, bool wholeStory);

    LayersPtr source_;
    LayersTongue tongue_;
    QLabel* lacking_;
    QLabel* story_;
    QLabel* now_;
    QToolButton* asTable_;
    LayersView* view_;
    LayersTable* layers_;
    QTableView* table_;
    QStackedWidget* faces_;
};

}  // namespace midden::ui
