// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QCoreApplication>
#include <Qt>
#include <span>

class QWidget;

namespace midden::ui {

class Book;
class Prompts;

/// A screen as the window knows it.
struct ScreenEntry {
    const char* id;     ///< object name of its page
    const char* title;  ///< translated in the context "screens"
    Qt::Key key;        ///< with Ctrl
    QWidget* (*make)(Book&, Prompts&, QWidget* parent);
};

/// All of them, in the order of their tabs. Adding a screen is one line in screens.cpp.
std::span<const ScreenEntry> screens();

}  // namespace midden::ui
