// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

class QLabel;
class QString;

namespace midden::ui {

/// Says these words in `line`, shown or hidden with them, and has a screen reader read them out wherever the keyboard
/// is. The same words are read out again. Empty: says nothing more.
void speak(QLabel& line, const QString& words);
/// Has a screen reader read out what `line` says already.
void readOut(QLabel& line);

}  // namespace midden::ui
