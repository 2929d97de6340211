// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <functional>

class QMainWindow;
class QMenuBar;

namespace midden::ui {

class Book;
class Prompts;
class Workspace;

/// What the menus act on. `book` and `workspace` are null while no book is open.
struct MenuTargets {
    QMainWindow& window;
    Book* book = nullptr;
    Workspace* workspace = nullptr;
    Prompts& prompts;
    std::function<void()> startNew;
    std::function<void()> open;
    std::function<void()> copies;  ///< empty where no copies are kept
    std::function<void(const QString&)> openFile;
    std::function<void()> bringIn;
    std::function<void()> bringInTable;
};

/// Fills the menu bar anew.
void fillMenus(QMenuBar& bar, const MenuTargets& targets);

}  // namespace midden::ui
