// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

class QWidget;

namespace midden::ui {

class Book;
class Prompts;

/// Asks for a printer, or for a file name, and makes the blank round sheet of the book's bins.
void printRoundSheet(Book& book, Prompts& prompts, QWidget* window);
void saveRoundSheet(Book& book, Prompts& prompts, QWidget* window);

}  // namespace midden::ui
