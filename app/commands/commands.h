// SPDX-License-Identifier: GPL-3.0-or-later
// One function per command: it describes its options to `program` and sets `chosen` when its command was given.
#pragma once

#include "app/command_line.h"

namespace CLI {
class App;
}

namespace midden::app {

void addBackupCommand(CLI::App& program, Action& chosen);
void addCheckCommand(CLI::App& program, Action& chosen);
void addMergeCommand(CLI::App& program, Action& chosen);
void addCopiesCommand(CLI::App& program, Action& chosen);
void addRestoreCommand(CLI::App& program, Action& chosen);
void addSalvageCommand(CLI::App& program, Action& chosen);
void addImportCommand(CLI::App& program, Action& chosen);
void addExportCommand(CLI::App& program, Action& chosen);
void addRecipeCommand(CLI::App& program, Action& chosen);
void addReviewCommand(CLI::App& program, Action& chosen);
void addCertificateCommand(CLI::App& program, Action& chosen);
void addVerifyCommand(CLI::App& program, Action& chosen);

}  // namespace midden::app
