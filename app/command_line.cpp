// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command_line.h"

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>
#include <string>
#include <string_view>

#include "app/commands/commands.h"
#include "core/logbook/logbook.h"

namespace midden::app {

namespace {

std::unique_ptr<CLI::App> describeProgram(Action& chosen) {
    auto program = std::make_unique<CLI::App>(
        "Middenbook keeps the temperature logbook of hot compost bins.\n"
        "Without a command it opens the desktop program: middenbook [LOGBOOK]",
        "middenbook");
    program->set_version_flag("--version", "middenbook " MIDDENBOOK_VERSION, "Say which version this is");
    program->require_subcommand(1);
    program->get_formatter()->column_width(34);
    program->get_formatter()->label("SUBCOMMAND", "COMMAND");
    program->set_help_flag("-h,--help", "Say what there is to ask for");
    addImportCommand(*program, chosen);
    addExportCommand(*program, chosen);
    addReviewCommand(*program, chosen);
    addCertificateCommand(*program, chosen);
    addVerifyCommand(*program, chosen);
    addCheckCommand(*program, chosen);
    addBackupCommand(*program, chosen);
    addMergeCommand(*program, chosen);
    addCopiesCommand(*program, chosen);
    addRestoreCommand(*program, chosen);
    addSalvageCommand(*program, chosen);
    addRecipeCommand(*program, chosen);
    for (auto* command : program->get_subcommands({})) {
        command->group("Commands");
    }
    program->footer(
        "Exit status: 0 done, 1 the answer is no, 2 wrong usage, 3 bad input (nothing was written).\n"
        "\"middenbook COMMAND --help\" says more about a command.");
    return program;
}

int answer(ExitStatus status) {
    return static_cast<int>(status);
}

int complain(ExitStatus status, std::string_view sentence) {
    std::cerr << sentence << '\n';
    return answer(status);
}

/// The one place where what went wrong becomes a sentence and an exit status.
int run(const Action& chosen) {
    try {
        const auto status = chosen();
        std::cout.flush();
        return std::cout ? answer(status) : complain(ExitStatus::badInput, "The results could not be written.");
    } catch (const WrongUsage& wrong) {
        return complain(ExitStatus::wrongUsage, wrong.what());
    } catch (const std::bad_alloc&) {
        return complain(ExitStatus::badInput, "This computer has not enough memory for that; nothing was written.");
    } catch (const std::exception& refusal) {  // BadInput, LogbookError and what the machine refuses
        return complain(ExitStatus::badInput, refusal.what());
    }
}

bool namesCommand(const CLI::App& program, const std::string& word) {
    return !program.get_subcommands([&](const CLI::App* command) { return command->check_name(word); }).empty();
}

bool looksLikeQtOption(std::string_view word) {
    return word.size() > 2 && word[0] == '-' && word[1] != '-';
}

}  // namespace

bool asksForCommand(int argc, char** argv) {
    if (argc < 2) {
        return false;
    }
    const std::string first = argv[1];
    if (first == "--as-of") {
        return false;  // the desktop's own option
    }
    if (first == "-h" || first.starts_with("--")) {
        return true;
    }
    Action unused;
    const auto program = describeProgram(unused);
    if (namesCommand(*program, first)) {
        return true;
    }
    // Several words that name no command are a mistake to be explained, unless Qt is meant ("-platform offscreen").
    return argc > 2 && !looksLikeQtOption(first) && !looksLikeQtOption(argv[2]);
}

int runCommandLine(int argc, char** argv) {
    Action chosen;
    const auto program = describeProgram(chosen);
    const std::string first = argc > 1 ? argv[1] : "";
    if (!first.starts_with('-') && !namesCommand(*program, first)) {
        return complain(ExitStatus::wrongUsage,
                        '"' + first + "\" is no command.\nRun with --help for more information.");
    }
    try {
        program->parse(argc, argv);
    } catch (const CLI::ParseError& stop) {
        const bool asked = program->exit(stop, std::cout, std::cerr) == 0;  // --help and --version
        return answer(asked ? ExitStatus::done : ExitStatus::wrongUsage);
    }
    return run(chosen);
}

}  // namespace midden::app
