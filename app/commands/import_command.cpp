// SPDX-License-Identifier: GPL-3.0-or-later
#include <CLI/CLI.hpp>

#include "app/commands/commands.h"

namespace midden::app {

void addImportCommand(CLI::App& program, Action& chosen) {
    auto* command = program.add_subcommand("import", "Take CSV files into a logbook: all of them or nothing");
    command->callback([&chosen] { chosen = []() -> ExitStatus { throw WrongUsage{"import is not built yet"}; }; });
}

}  // namespace midden::app
