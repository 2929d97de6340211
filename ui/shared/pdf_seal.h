// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QByteArray>

namespace midden::ui {

/// A PDF written by Qt, with a seal by which it is known again as long as nobody changes a byte of it. The seal is the
/// second of the file's two identifiers, which PDF means for its content (ISO 32000-1, 14.4), and is taken from all
/// other bytes and from `kind`, such as "certificate".
QByteArray sealed(const QByteArray& pdf, const char* kind);
bool isSealed(const QByteArray& pdf, const char* kind);

}  // namespace midden::ui
