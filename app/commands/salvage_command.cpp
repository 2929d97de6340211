// SPDX-License-Identifier: GPL-3.0-or-later
#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <memory>

#include "app/commands/commands.h"
#include "core/quantities/sha256.h"
#include "core/quantities/utf8.h"
#include "core/store/care/salvage/salvage.h"

namespace midden::app {

namespace {

struct SalvageOptions {
    std::filesystem::path damaged;
    std::filesystem::path fresh;
};

void tell(const SalvageOptions& options, const SalvageReport& report) {
    for (const auto& sentence : inWords(report)) {
        std::cout << printable(sentence) << '\n';
    }
    for (const auto& fault : report.faults) {
        std::cout << printable(fault) << '\n';
    }
    std::cout << "Wrote " << printable(options.fresh.string()) << "; " << printable(options.damaged.string())
              << " is as it was.\n";
}

ExitStatus salvage(const SalvageOptions& options) {
    const auto report = salvageBook(options.damaged, options.fresh, sha256);
    return doneAndTold("The new file is written", report.isWhole() ? ExitStatus::done : ExitStatus::no,
                       [&] { tell(options, report); });
}

}  // namespace

void addSalvageCommand(CLI::App& program, Action& chosen) {
    auto* command = program.add_subcommand("salvage", "Write what can be read of a damaged logbook to a new file");
    auto options = std::make_shared<SalvageOptions>();
    command->add_option("LOGBOOK", options->damaged, "The damaged logbook, which is only read")->required();
    command->add_option("NEW", options->fresh, "The file to write, which must not exist yet")->required();
    command->footer(
        "Exit status: 0 all came back, 1 something is lost and NEW holds the rest, 3 nothing was written,\n4 NEW is "
        "written, but what there was to say of it could not be.");
    command->callback([options, &chosen] { chosen = [options] { return salvage(*options); }; });
}

}  // namespace midden::app
