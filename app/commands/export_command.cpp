// SPDX-License-Identifier: GPL-3.0-or-later
#include <CLI/CLI.hpp>

#include "app/commands/commands.h"

namespace midden::app {

void addExportCommand(CLI::App& program, Action& chosen) {
    auto* command = program.add_subcommand("export", "Write everything a logbook holds as CSV files");
    command->callback([&chosen] { chosen = []() -> ExitStatus { throw WrongUsage{"export is not built yet"}; }; });
}

}  // namespace midden::app
