// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/certificate/paper_font.h"

#include <QFontDatabase>

/// The library is a static one: its resources have to be asked for, from outside any namespace.
static void takeFontResources() {
    Q_INIT_RESOURCE(fonts);
}

namespace midden::ui {

namespace {

void loadFamilyOnce() {
    static const bool loaded = [] {
        takeFontResources();
        bool all = true;
        for (const auto* file : {":/fonts/Lato-Light.ttf", ":/fonts/Lato-Regular.ttf", ":/fonts/Lato-Bold.ttf"}) {
            all = QFontDatabase::addApplicationFont(QString::fromLatin1(file)) >= 0 && all;
        }
        return all;
    }();
    if (!loaded) {
        qWarning("The bundled font could not be loaded.");
    }
}

QFont::Weight weightOf(Face face) {
    switch (face) {
        case Face::light:
            return QFont::Light;
        case Face::bold:
            return QFont::Bold;
        case Face::regular:
            break;
    }
    return QFont::Normal;
}

}  // namespace

QFont paperFont(Face face, double points) {
    loadFamilyOnce();
    constexpr double millimetresPerPoint = 25.4 / 72;
    QFont font{QStringLiteral("Lato")};
    font.setWeight(weightOf(face));
    font.setPixelSize(qRound(points * millimetresPerPoint * mm));
    font.setHintingPreference(QFont::PreferNoHinting);
    // A hair of spacing, far below what can be seen, keeps letters from being joined: text copied or searched in the
    // PDF then consists of plain letters.
    font.setLetterSpacing(QFont::AbsoluteSpacing, 0.1);
    return font;
}

}  // namespace midden::ui
