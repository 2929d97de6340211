// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "ui/history/loaded_batch.h"

class QLabel;

namespace midden::ui {

class RatePicture;

/// What is reckoned from the readings beside the verdicts: the heat made, and figures for teaching. Folded away.
class FiguresPanel : public QWidget {
    Q_OBJECT

  public:
    explicit FiguresPanel(QWidget* parent = nullptr);
    /// Null empties it.
    void show(const LoadedPtr& batch, TemperatureUnit unit);

  private:
    QLabel* line(const char* name, bool quiet);

    QLabel* heat_;
    QLabel* limits_;
    QLabel* teaching_;
    QLabel* sources_;
    RatePicture* picture_;
};

}  // namespace midden::ui
