// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/shared/saved_line.h"

namespace midden::ui {

/// A line for one temperature. Up and Down hand over what was typed, as Enter does, and ask to move.
/// Numbers stand aligned on the decimal mark.
class ReadingCell : public SavedLine {
    Q_OBJECT

  public:
    explicit ReadingCell(QWidget* parent = nullptr);

  signals:
    void moveOn(int rows);  ///< +1 or -1, by the arrow keys

  protected:
    void keyPressEvent(QKeyEvent* event) override;

  private:
    void align();
};

}  // namespace midden::ui
