// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

class QWidget;

namespace midden::ui {

/// Makes the Tab key follow the order in which the layouts of `page` are read. Rows that come later would otherwise
/// stand at the end of the window's order.
void tabAsRead(QWidget& page);

}  // namespace midden::ui
