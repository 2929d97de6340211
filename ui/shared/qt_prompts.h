// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/shared/prompts.h"

namespace midden::ui {

/// The questions as ordinary dialogs.
class QtPrompts : public Prompts {
  public:
    std::optional<QString> fileToOpen(QWidget* parent, const QString& title, const QString& filter) override;
    std::optional<QString> fileToSave(QWidget* parent, const QString& title, const QString& suggested,
                                      const QString& filter) override;
    bool confirm(QWidget* parent, const QString& question, const QString& yes) override;
    bool choosePrinter(QWidget* parent, QPrinter& printer) override;
};

}  // namespace midden::ui
