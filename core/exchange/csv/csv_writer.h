// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <fstream>
#include <initializer_list>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace midden {

/// Writes one CSV file: UTF-8, commas, decimal points, a line feed after each row, whatever the locale.
class CsvWriter {
  public:
    /// Throws std::runtime_error with a sentence when the file cannot be made.
    CsvWriter(const std::filesystem::path& file, std::string_view header);
    /// The fields of one row; those with separators, quotes, line breaks or blanks at their ends are put into quotes.
    void row(std::initializer_list<std::string_view> fields) { row(std::span{fields.begin(), fields.size()}); }
    void row(std::span<const std::string_view> fields);
    /// Throws when anything could not be written. Without it a file is not done.
    void close();

  private:
    std::filesystem::path file_;
    std::ofstream out_;
    std::string line_;
};

/// Digits with a decimal point, as few as give the same number back; nothing for no value.
std::string plainNumber(std::optional<double> value);

}  // namespace midden
