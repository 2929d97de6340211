// SPDX-License-Identifier: GPL-3.0-or-later
// Printed pages are set in one bundled family and drawn in hundredths of a millimetre, so that preview, printer and
// PDF agree and nothing depends on what is installed.
#pragma once

#include <QColor>
#include <QFont>

namespace midden::ui {

/// One millimetre in the units pages are drawn in.
constexpr double mm = 100.0;

enum class Face { light, regular, bold };

/// Loads the family on first use; needs a QGuiApplication.
QFont paperFont(Face face, double points);

/// The colours of paper: opaque, whatever the desktop looks like.
namespace ink {
inline const QColor text{0x1f, 0x24, 0x26};
inline const QColor quiet{0x5a, 0x63, 0x66};
inline const QColor hairline{0xc9, 0xcf, 0xd0};
inline const QColor accent{0x0b, 0x6e, 0x75};
inline const QColor paper{0xff, 0xff, 0xff};
}  // namespace ink

}  // namespace midden::ui
