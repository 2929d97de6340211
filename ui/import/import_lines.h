// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/import/import_words.h"

class QWidget;

namespace midden::ui {

class Book;

/// What would come of a file, and what it would take from the hold of the batch it comes to.
QList<words::ImportLine> linesOf(const Book& book, const ImportFindings& findings, const std::filesystem::path& file);

/// The lines one under the other, those that take something away in the colour of questions.
QWidget* makeLines(const QList<words::ImportLine>& lines, QWidget* parent);

}  // namespace midden::ui
