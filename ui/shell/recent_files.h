// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStringList>

namespace midden::ui::recent {

/// The books opened last on this computer that are still there, newest first, at most six.
QStringList files();
void remember(const QString& path);

}  // namespace midden::ui::recent
