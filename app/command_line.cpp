// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command_line.h"

#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <memory>
#include <string>
#include <string_view>

#include "app/commands/commands.h"
#include "app/file_troubles.h"
#include "app/plain_output.h"
#include "app/process.h"
#include "core/quantities/utf8.h"
#include "core/store/logbook.h"

namespace midden::app {

namespace {

/// What is left out where nothing was given: a remark, and whose book it is, may be taken away again.
bool mayBeEmpty(const CLI::Option& option) {
    return option.check_lname("note") || option.check_lname("group");
}

/// An empty name of a file or anything else is a slip of the one who asks, most often of a script.
void refuseEmptyAnswers(CLI::App& command) {
    for (auto* option : command.get_options()) {
        if (option->get_items_expected_max() > 0 && !mayBeEmpty(*option)) {
            option->check([](const std::string& text) {
                return text.empty()
                           ? std::string{"there is nothing between the quotation marks; expected a name or a value"}
                           : std::string{};
            });
        }
    }
}

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
        refuseEmptyAnswers(*command);
    }
    program->footer(
        "Exit status: 0 done, 1 the answer is no, 2 wrong usage, 3 bad input (nothing was written),\n"
        "4 something was written, but not all, or what there was to say of it could not be written.\n"
        "\"middenbook COMMAND --help\" says more about a command.");
    return program;
}

int answer(ExitStatus status) {
    return static_cast<int>(status);
}

/// One sentence on one line, whatever the names in it hold.
int complain(ExitStatus status, std::string_view sentence) {
    std::cerr << printable(sentence) << '\n';
    return answer(status);
}

int complainUntold(const Untold& untold) {
    std::cerr << untold.done << ", but what there was to say of it could not be written.\n";
    return answer(ExitStatus::untold);
}

ExitStatus answered(const Action& chosen) {
    const PlainOutput plain{std::cout};
    const auto status = chosen();
    std::cout.flush();
    return status;
}

/// The one place where what went wrong becomes a sentence and an exit status.
int run(const Action& chosen) {
    if (!standardOutputIsOpen()) {
        return complain(ExitStatus::badInput, "The standard output is closed, so nothing was done.");
    }
    try {
        const auto status = answered(chosen);
        return std::cout ? answer(status) : complain(ExitStatus::badInput, "The results could not be written.");
    } catch (const WrongUsage& wrong) {
        return complain(ExitStatus::wrongUsage, wrong.what());
    } catch (const Untold& untold) {
        return complainUntold(untold);
    } catch (const PartlyDone& partly) {
        return complain(ExitStatus::untold, partly.what());
    } catch (const std::bad_alloc&) {
        endWithoutMemory();
    } catch (const std::filesystem::filesystem_error& trouble) {
        return complain(ExitStatus::badInput, inWords(trouble));
    } catch (const std::exception& refusal) {  // BadInput, LogbookError and what the machine refuses
        return complain(ExitStatus::badInput, refusal.what());
    }
}

/// Asked for help or the version, or asked wrongly.
int answerOrExplain(const CLI::App& program, const CLI::ParseError& stop) {
    if (stop.get_exit_code() != 0) {
        complain(ExitStatus::wrongUsage, stop.what());
        std::cerr << "Run with --help for more information.\n";
        return answer(ExitStatus::wrongUsage);
    }
    program.exit(stop, std::cout, std::cerr);
    std::cout.flush();
    return std::cout ? answer(ExitStatus::done) : complain(ExitStatus::badInput, "The answer could not be written.");
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
        complain(ExitStatus::wrongUsage, '"' + first + "\" is no command.");
        std::cerr << "Run with --help for more information.\n";
        return answer(ExitStatus::wrongUsage);
    }
    try {
        program->parse(argc, argv);
    } catch (const CLI::ParseError& stop) {
        return answerOrExplain(*program, stop);
    }
    return run(chosen);
}

}  // namespace midden::app
