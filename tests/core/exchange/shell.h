// SPDX-License-Identifier: GPL-3.0-or-later
// The program itself, as a script would call it.
#pragma once

#include <sys/wait.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <string>

#include "tests/core/exchange/scratch.h"

namespace midden::testing {

struct Ran {
    int status = -1;
    std::string out;
    std::string err;
};

class Shell {
  public:
    /// Runs the program in the scratch folder, without a display.
    Ran run(const std::string& arguments) const {
        const auto line = "cd '" + scratch.folder().string() + "' && env -u DISPLAY -u QT_QPA_PLATFORM '" +
                          MIDDENBOOK_BINARY + "' " + arguments + " >out.txt 2>err.txt";
        const int status = std::system(line.c_str());
        return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, Scratch::read(scratch.path("out.txt")),
                Scratch::read(scratch.path("err.txt"))};
    }
    bool exists(const char* name) const { return std::filesystem::exists(scratch.path(name)); }

    Scratch scratch;
};

/// Do the lines of an export's README make a book that exports the same bytes?
inline bool comesBackFrom(const Shell& shell, const std::string& folder) {
    const auto from = shell.scratch.path(folder.c_str());
    auto readme = Scratch::read(from / "README.txt");
    std::string lines;
    for (auto at = readme.find("\nmiddenbook "); at != std::string::npos; at = readme.find("\nmiddenbook ", at + 1)) {
        lines += " && '" MIDDENBOOK_BINARY "' " + readme.substr(at + 12, readme.find('\n', at + 1) - at - 12);
    }
    const auto again = folder + " again";
    const auto ran = shell.run(
        "--version && cd '" + folder + "'" + lines + " && cd '" + shell.scratch.folder().string() + "' && mv '" +
        folder + "/NEW.midden' . && '" MIDDENBOOK_BINARY "' export NEW.midden " + "--directory '" + again + "'");
    INFO(ran.err);
    CHECK(ran.status == 0);
    const auto differ = "diff -r '" + from.string() + "' '" + shell.scratch.path(again.c_str()).string() + "' >&2";
    return std::system(differ.c_str()) == 0;
}

}  // namespace midden::testing
