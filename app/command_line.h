// SPDX-License-Identifier: GPL-3.0-or-later
// The command line: what every command shares. It needs no display and starts no Qt application.
#pragma once

#include <functional>
#include <stdexcept>

namespace midden::app {

/// What the program answers its caller with. Scripts rely on these numbers.
enum class ExitStatus {
    done = 0,
    no = 1,          ///< the answer is no (verify, check)
    wrongUsage = 2,  ///< the command was not given what it needs
    badInput = 3     ///< a file cannot be used; nothing was written
};

/// The command was asked for in a way that cannot be answered. `what()` is a sentence. Exit status 2.
struct WrongUsage : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// A file was refused. `what()` is "file:line: what is wrong; expected …". Exit status 3.
struct BadInput : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// What a command does once its options are read. Throws WrongUsage, BadInput or LogbookError.
using Action = std::function<ExitStatus()>;

/// Do the arguments name a command or ask for help? Otherwise they are for the desktop.
/// A logbook called like a command can be opened as "./import".
bool asksForCommand(int argc, char** argv);

/// Runs the command the arguments name. Results go to standard output, problems to standard error.
int runCommandLine(int argc, char** argv);

}  // namespace midden::app
