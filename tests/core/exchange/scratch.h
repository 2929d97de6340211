// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>

namespace midden::testing {

/// A folder of its own that goes when the test does.
class Scratch {
  public:
    Scratch() {
        auto pattern = (std::filesystem::temp_directory_path() / "middenbook-test-XXXXXX").string();
        folder_ = ::mkdtemp(pattern.data());
    }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;
    ~Scratch() {
        std::error_code ignored;
        std::filesystem::remove_all(folder_, ignored);
    }

    const std::filesystem::path& folder() const { return folder_; }
    std::filesystem::path path(std::string_view name) const { return folder_ / name; }
    std::filesystem::path write(std::string_view name, std::string_view text) const {
        std::ofstream{path(name), std::ios::binary} << text;
        return path(name);
    }
    static std::string read(const std::filesystem::path& file) {
        std::ifstream in{file, std::ios::binary};
        return {std::istreambuf_iterator<char>{in}, {}};
    }

  private:
    std::filesystem::path folder_;
};

}  // namespace midden::testing
