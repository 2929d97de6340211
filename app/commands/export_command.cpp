// SPDX-License-Identifier: GPL-3.0-or-later
#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <memory>

#include "app/commands/commands.h"
#include "app/commands/damage_note.h"
#include "core/exchange/export/export.h"
#include "core/quantities/utf8.h"

namespace midden::app {

namespace {

struct ExportOptions {
    std::filesystem::path logbook;
    std::filesystem::path directory;
};

ExitStatus exportFiles(const ExportOptions& options) {
    const auto logbook = Logbook::open(options.logbook, Logbook::Mode::readOnly);
    const auto outcome = exportLogbook(logbook, options.directory);
    nameUnreadable(logbook);
    return doneAndTold("The files are written", ExitStatus::done, [&] {
        std::cout << outcome.readings << (outcome.readings == 1 ? " reading" : " readings") << " of " << outcome.batches
                  << (outcome.batches == 1 ? " batch" : " batches") << " written to " << outcome.files
                  << (outcome.files == 1 ? " file" : " files") << " in " << printable(options.directory.string())
                  << ".\n";
    });
}

}  // namespace

void addExportCommand(CLI::App& program, Action& chosen) {
    auto* command = program.add_subcommand("export", "Write everything a logbook holds as CSV that import reads back");
    auto options = std::make_shared<ExportOptions>();
    command->add_option("LOGBOOK", options->logbook, "The logbook")->required();
    command->add_option("--directory", options->directory, "A new or empty folder for the files")
        ->required()
        ->option_text("FOLDER");
    command->footer(
        "It holds people's names. The files are made to be passed on: whoever may read your new files may read them\n"
        "(see umask).");
    command->callback([options, &chosen] { chosen = [options] { return exportFiles(*options); }; });
}

}  // namespace midden::app
