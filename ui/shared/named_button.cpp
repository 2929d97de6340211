// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/named_button.h"

#include <QPushButton>

namespace midden::ui {

QPushButton* namedButton(const QString& words, const char* name, QWidget* parent) {
    auto* made = new QPushButton{words, parent};
    made->setObjectName(QLatin1String{name});
    made->setAccessibleName(QString{words}.remove(QLatin1Char{'&'}));
    made->setAutoDefault(true);
    return made;
}

}  // namespace midden::ui
