// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/tone.h"

#include <QStyle>
#include <QVariant>
#include <QWidget>

namespace midden::ui {

void setTone(QWidget& words, Tone tone) {
    const QString name = tone == Tone::quiet      ? QStringLiteral("quiet")
                         : tone == Tone::question ? QStringLiteral("question")
                                                  : QString{};
    if (words.property("tone").toString() == name) {
        return;
    }
    words.setProperty("tone", name);
    words.style()->unpolish(&words);
    words.style()->polish(&words);
}

}  // namespace midden::ui
