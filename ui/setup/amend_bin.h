// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>

#include "ui/shared/book.h"

namespace midden::ui {

/// The bin as the book has it now. No value: there is none any more.
std::optional<Bin> binOf(const Book& book, BinId id);

/// Changes what the book has of a bin now; false when nothing was saved.
bool amendBin(Book& book, BinId id, const std::function<void(Bin&)>& how);

}  // namespace midden::ui
