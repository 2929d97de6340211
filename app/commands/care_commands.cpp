// SPDX-License-Identifier: GPL-3.0-or-later
// Looking after a logbook: check and backup.
#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <memory>

#include "app/commands/commands.h"
#include "core/quantities/sha256.h"
#include "core/quantities/utf8.h"
#include "core/store/logbook.h"

namespace midden::app {

namespace {

struct CareOptions {
    std::filesystem::path logbook;
    std::filesystem::path copy;
};

std::string counted(std::int64_t count, const char* one, const char* many) {
    return std::to_string(count) + ' ' + (count == 1 ? one : many);
}

ExitStatus tell(const CareOptions& options, const CheckReport& report) {
    for (const auto& fault : report.faults) {
        std::cout << printable(fault) << '\n';
    }
    if (!report.faults.empty()) {
        return ExitStatus::no;
    }
    std::cout << printable(options.logbook.filename().string())
              << " is sound: " << counted(report.batches, "batch", "batches") << ", "
              << counted(report.readings, "reading", "readings") << ", "
              << counted(report.certificates, "certificate", "certificates") << ".\n";
    return ExitStatus::done;
}

/// A damaged file is an answer here, not a failure.
ExitStatus checkBook(const CareOptions& options) {
    try {
        const auto logbook = Logbook::open(options.logbook, Logbook::Mode::readOnly);
        return tell(options, logbook.check(sha256));
    } catch (const LogbookError& error) {
        if (error.kind != LogbookError::Kind::damaged) {
            throw;
        }
        std::cout << printable(error.what()) << ".\n";
        return ExitStatus::no;
    }
}

ExitStatus backUp(const CareOptions& options) {
    Logbook::open(options.logbook, Logbook::Mode::readOnly).backUpTo(options.copy);
    return doneAndTold("The copy is written", ExitStatus::done,
                       [&] { std::cout << "Copied to " << printable(options.copy.string()) << ".\n"; });
}

}  // namespace

void addCheckCommand(CLI::App& program, Action& chosen) {
    auto* command = program.add_subcommand("check", "Look through a logbook for damage and contradictions");
    auto options = std::make_shared<CareOptions>();
    command->add_option("LOGBOOK", options->logbook, "The logbook")->required();
    command->callback([options, &chosen] { chosen = [options] { return checkBook(*options); }; });
}

void addBackupCommand(CLI::App& program, Action& chosen) {
    auto* command = program.add_subcommand("backup", "Copy a logbook to a new file, even while it is being written to");
    auto options = std::make_shared<CareOptions>();
    command->add_option("LOGBOOK", options->logbook, "The logbook")->required();
    command->add_option("FILE", options->copy, "The copy, which must not exist yet")->required();
    command->footer("Whoever may read and write the logbook may read and write the copy.");
    command->callback([options, &chosen] { chosen = [options] { return backUp(*options); }; });
}

}  // namespace midden::app
