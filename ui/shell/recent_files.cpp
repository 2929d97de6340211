// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shell/recent_files.h"

#include <QFileInfo>
#include <QSettings>
#include <algorithm>

namespace midden::ui::recent {

namespace {

constexpr auto key = "recentFiles";
constexpr qsizetype most = 6;

}  // namespace

QStringList files() {
    QStringList there = QSettings{}.value(QLatin1String{key}).toStringList();
    there.removeIf([](const QString& path) { return !QFileInfo::exists(path); });
    return there.mid(0, most);
}

void remember(const QString& path) {
    const QString whole = QFileInfo{path}.absoluteFilePath();
    QStringList list = files();
    list.removeAll(whole);
    list.prepend(whole);
    QSettings{}.setValue(QLatin1String{key}, list.mid(0, most));
}

}  // namespace midden::ui::recent
