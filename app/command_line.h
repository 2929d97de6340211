// SPDX-License-Identifier: GPL-3.0-or-later
// The command line: what every command shares. It needs no display and starts no Qt application.
#pragma once

#include <exception>
#include <functional>
#include <iostream>
#include <stdexcept>

namespace midden::app {

/// What the program answers its caller with. Scripts rely on these numbers.
enum class ExitStatus {
    done = 0,
    no = 1,          ///< the answer is no (verify, check)
    wrongUsage = 2,  ///< the command was not given what it needs
    badInput = 3,    ///< a file cannot be used; nothing was written
    untold = 4       ///< something was written, but not all of it, or what there was to say could not be written
};

/// The command was asked for in a way that cannot be answered. `what()` is a sentence. Exit status 2.
struct WrongUsage : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// A file was refused. `what()` is "file:line: what is wrong; expected …". Exit status 3.
struct BadInput : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// A command did its work and could not say so. Exit status 4. Takes no memory of its own.
struct Untold : std::exception {
    explicit Untold(const char* sentence) : done{sentence} {}
    const char* what() const noexcept override { return done; }
    const char* done;  ///< what was done, without a full stop; a literal
};

/// A command wrote a part of what it was to write. `what()` is a sentence that says which. Exit status 4.
struct PartlyDone : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// For a command that has written something: lets `tell` say so. Throws Untold when that could not be said.
template <class Tell>
ExitStatus doneAndTold(const char* done, ExitStatus status, Tell tell) {
    try {
        tell();
        std::cout.flush();
    } catch (const std::exception&) {
        throw Untold{done};
    }
    return std::cout ? status : throw Untold{done};
}

/// What a command does once its options are read. Throws WrongUsage, BadInput or LogbookError.
using Action = std::function<ExitStatus()>;

/// Do the arguments name a command or ask for help? Otherwise they are for the desktop.
/// A logbook called like a command can be opened as "./import".
bool asksForCommand(int argc, char** argv);

/// Runs the command the arguments name. Results go to standard output, problems to standard error.
int runCommandLine(int argc, char** argv);

}  // namespace midden::app
