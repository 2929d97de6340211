// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <optional>

class QPrinter;
class QWidget;

namespace midden::ui {

/// Every question the program may put in a window of its own. Tests answer from a script.
class Prompts {
  public:
    Prompts() = default;
    Prompts(const Prompts&) = delete;
    Prompts& operator=(const Prompts&) = delete;
    virtual ~Prompts() = default;

    /// No value: the person changed their mind. `filter` as QFileDialog takes it: "Logbooks (*.midden)".
    virtual std::optional<QString> fileToOpen(QWidget* parent, const QString& title, const QString& filter) = 0;
    virtual std::optional<QString> fileToSave(QWidget* parent, const QString& title, const QString& suggested,
                                              const QString& filter) = 0;
    /// `yes` is the wording of the button that goes on, never just "OK".
    virtual bool confirm(QWidget* parent, const QString& question, const QString& yes) = 0;
    /// Lets the person choose and set up a printer; false when they changed their mind.
    virtual bool choosePrinter(QWidget* parent, QPrinter& printer) = 0;
};

}  // namespace midden::ui
