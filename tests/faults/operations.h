// SPDX-License-Identifier: GPL-3.0-or-later
// What a person does to a book while something goes wrong. Each is all or nothing.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace midden::faults {

struct Operation {
    std::string name;
    /// Works in a folder made by `lay`: on "plot.midden" there. Throws what the book or the machine refuses.
    void (*run)(const std::filesystem::path& folder);
};

const std::vector<Operation>& operations();

/// A folder to work in: a book, another copy of it with an entry more, a file of readings to import.
class TrialPlace {
  public:
    TrialPlace();
    void layOut(const std::filesystem::path& folder) const;

  private:
    std::string book_;
    std::string other_;
    std::string rows_;
};

/// What the book of the folder holds; "absent" when there is none. Throws LogbookError when it cannot be opened.
std::string stateOf(const std::filesystem::path& folder);

/// Nothing, or what is wrong with anything in the folder: the book unsound, a copy in it that is not whole.
std::string harmIn(const std::filesystem::path& folder);

/// Did it go through? Everything that is refused in a decent way is a no.
bool attempt(const Operation& operation, const std::filesystem::path& folder);

}  // namespace midden::faults
