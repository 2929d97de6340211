// SPDX-License-Identifier: GPL-3.0-or-later
#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <memory>

#include "app/commands/commands.h"
#include "core/logbook/salvage.h"
#include "core/quantities/sha256.h"

namespace midden::app {

namespace {

struct SalvageOptions {
    std::filesystem::path damaged;
    std::filesystem::path fresh;
};

ExitStatus salvage(const SalvageOptions& options) {
    const auto report = salvageBook(options.damaged, options.fresh, sha256);
    for (const auto& sentence : inWords(report)) {
        std::cout << sentence << '\n';
    }
    for (const auto& fault : report.faults) {
        std::cout << fault << '\n';
    }
    std::cout << "Wrote " << options.fresh.string() << "; " << options.damaged.string() << " is as it was.\n";
    return report.isWhole() ? ExitStatus::done : ExitStatus::no;
}

}  // namespace

void addSalvageCommand(CLI::App& program, Action& chosen) {
    auto* command = program.add_subcommand("salvage", "Write what can be read of a damaged logbook to a new file");
    auto options = std::make_shared<SalvageOptions>();
    command->add_option("LOGBOOK", options->damaged, "The damaged logbook, which is only read")->required();
    command->add_option("NEW", options->fresh, "The file to write, which must not exist yet")->required();
    command->footer("Exit status: 0 all came back, 1 something is lost and NEW holds the rest, 3 nothing was written.");
    command->callback([options, &chosen] { chosen = [options] { return salvage(*options); }; });
}

}  // namespace midden::app
