// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/file_troubles.h"

#include <algorithm>
#include <array>
#include <system_error>

namespace midden::app {

namespace {

struct Trouble {
    std::errc reason;
    const char* words;
};

constexpr std::array<Trouble, 11> troubles{
    {{std::errc::too_many_symbolic_link_levels, "leads round in a circle of links; expected a file or a folder"},
     {std::errc::permission_denied, "may not be reached; expected a place whose folders you may look into"},
     {std::errc::operation_not_permitted, "may not be changed; expected a place you may write to"},
     {std::errc::read_only_file_system, "is on a disk that cannot be written to; expected another place"},
     {std::errc::no_such_file_or_directory, "is not there; expected a name whose folder is there"},
     {std::errc::not_a_directory, "is below something that is no folder; expected a name in a folder"},
     {std::errc::filename_too_long, "is too long a name; expected a shorter one"},
     {std::errc::file_exists, "is there already; expected a new name"},
     {std::errc::no_space_on_device, "has no space left on its disk"},
     {std::errc::file_too_large, "would grow beyond the size that is allowed here"},
     {std::errc::directory_not_empty, "is there already; expected a new or an empty folder"}}};

}  // namespace

std::string inWords(const std::filesystem::filesystem_error& trouble) {
    const auto& path = trouble.path2().empty() ? trouble.path1() : trouble.path2();
    const auto name = path.empty() ? std::string{"The file"} : path.string();
    const auto known = std::find_if(troubles.begin(), troubles.end(),
                                    [&](const Trouble& one) { return trouble.code() == one.reason; });
    return name +
           (known == troubles.end() ? " cannot be used: " + trouble.code().message() : std::string{" "} + known->words);
}

}  // namespace midden::app
