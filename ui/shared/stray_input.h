// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>

namespace midden::ui {

/// Keeps from fields what was not meant for them: the wheel, which would change a closed list, a spin box or a slider
/// that lies under the pointer, scrolls the page instead; a file dropped on a line goes to the window.
class StrayInput : public QObject {
  public:
    /// For every window of the program, as long as `owner` lives.
    explicit StrayInput(QObject* owner);

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
};

}  // namespace midden::ui
