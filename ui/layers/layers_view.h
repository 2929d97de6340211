// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPixmap>
#include <QWidget>

#include "ui/layers/layers_dress.h"
#include "ui/layers/layers_words.h"

namespace midden::ui {

/// The picture to point around in, with the mouse and with keys.
class LayersView : public QWidget {
    Q_OBJECT

  public:
    explicit LayersView(QWidget* parent = nullptr);

    /// Null empties it. What is pointed at goes.
    void show(LayersPtr source, const LayersTongue& tongue);
    const LayersPlan& plan();
    /// What was pointed at last, or clicked on.
    std::optional<LayerSpot> spot() const { return pointed_ ? pointed_ : chosen_; }
    void choose(std::optional<LayerSpot> spot);
    QSize sizeHint() const override { return {900, 420}; }
    QSize minimumSizeHint() const override { return {360, 220}; }

  signals:
    void pointedAt(std::optional<midden::ui::LayerSpot> spot);
    void chosen(std::optional<midden::ui::LayerSpot> spot);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    void outdate();
    void point(std::optional<LayerSpot> spot);
    void step(int key);
    std::optional<LayerSpot> stepped(int key) const;
    LayersDress dress() const;

    LayersPtr source_;
    LayersTongue tongue_;
    std::optional<LayersPlan> plan_;
    QPixmap picture_;
    std::optional<LayerSpot> pointed_;
    std::optional<LayerSpot> chosen_;
};

}  // namespace midden::ui
