// SPDX-License-Identifier: GPL-3.0-or-later
// The copies this computer keeps by itself: listing them, and getting one back.
#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <memory>
#include <vector>

#include "app/commands/commands.h"
#include "core/quantities/utf8.h"
#include "core/store/care/copies.h"
#include "core/store/logbook.h"
#include "ui/copies/copy_keeper.h"

namespace midden::app {

namespace fs = std::filesystem;

namespace {

struct CopiesOptions {
    fs::path logbook;
    fs::path fresh;
    std::size_t number = 1;
};

std::string kilobytes(std::uintmax_t bytes) {
    return std::to_string((bytes + 1'023) / 1'024) + " KiB";
}

void list(const fs::path& book, const fs::path& folder) {
    std::cout << "Copies of " << printable(book.string()) << ", newest first, times in UTC:\n";
    std::size_t number = 0;
    for (const KeptCopy& copy : keptCopies(folder)) {
        std::cout << ++number << ". " << longDateTime({copy.made, {}}) << ", " << kilobytes(copy.bytes) << ", "
                  << printable(copy.file.string()) << '\n';
    }
}

ExitStatus listCopies(const CopiesOptions& options) {
    const fs::path place = ui::copiesPlace();
    if (options.logbook.empty()) {
        for (const CopiedBook& copied : copiedBooks(place)) {
            list(copied.book, copied.folder);
        }
        return ExitStatus::done;
    }
    const fs::path folder = place / copyFolderName(options.logbook);
    if (keptCopies(folder).empty()) {
        std::cout << "This computer keeps no copies of " << printable(options.logbook.string())
                  << ". The desktop program makes them when it closes a book.\n";
        return ExitStatus::no;
    }
    list(options.logbook, folder);
    return ExitStatus::done;
}

ExitStatus restore(const CopiesOptions& options) {
    const auto copies = keptCopies(ui::copiesPlace() / copyFolderName(options.logbook));
    if (options.number < 1 || options.number > copies.size()) {
        throw BadInput{"There is no copy " + std::to_string(options.number) + " of " + options.logbook.string() +
                       "; \"middenbook copies " + options.logbook.string() + "\" lists those there are."};
    }
    const KeptCopy& copy = copies[options.number - 1];
    Logbook::open(copy.file, Logbook::Mode::readOnly).backUpTo(options.fresh);
    return doneAndTold("The copy is written", ExitStatus::done, [&] {
        std::cout << "Wrote the copy of " << longDateTime({copy.made, {}}) << " UTC to "
                  << printable(options.fresh.string()) << "; " << printable(options.logbook.string())
                  << " is as it was.\n";
    });
}

}  // namespace

void addCopiesCommand(CLI::App& program, Action& chosen) {
    auto* command = program.add_subcommand("copies", "List the copies this computer keeps by itself");
    auto options = std::make_shared<CopiesOptions>();
    command->add_option("LOGBOOK", options->logbook, "The logbook, which may be gone; left out = all there are");
    command->callback([options, &chosen] { chosen = [options] { return listCopies(*options); }; });
}

void addRestoreCommand(CLI::App& program, Action& chosen) {
    auto* command = program.add_subcommand("restore", "Write one of the copies kept of a logbook to a new file");
    auto options = std::make_shared<CopiesOptions>();
    command->add_option("LOGBOOK", options->logbook, "The logbook, which may be damaged or gone")->required();
    command->add_option("NEW", options->fresh, "The file to write, which must not exist yet")->required();
    command->add_option("--copy", options->number, "Its number in the list; 1, the newest, unless said");
    command->callback([options, &chosen] { chosen = [options] { return restore(*options); }; });
}

}  // namespace midden::app
