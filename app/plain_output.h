// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <ostream>
#include <streambuf>
#include <string>
#include <string_view>

namespace midden::app {

/// While it lives, what is written to `out` reaches it line by line and fit for a terminal: whatever a name in a book
/// or a file holds, no control character but the line break gets through. See `printable`.
class PlainOutput final : public std::streambuf {
  public:
    explicit PlainOutput(std::ostream& out);
    PlainOutput(const PlainOutput&) = delete;
    PlainOutput& operator=(const PlainOutput&) = delete;
    PlainOutput(PlainOutput&&) = delete;
    PlainOutput& operator=(PlainOutput&&) = delete;
    ~PlainOutput() override;

    /// Writes what a program reads, such as JSON, as it is. False when it could not be written.
    bool writeAsIs(std::string_view text);

  protected:
    int_type overflow(int_type character) override;
    std::streamsize xsputn(const char* text, std::streamsize size) override;
    int sync() override;

  private:
    bool take(std::string_view text);
    bool passOn(std::string_view line);

    std::ostream& out_;
    std::streambuf* behind_;
    std::string line_;  ///< what is not yet passed on
};

/// Writes to a stream what a program reads: as it is, also where people's text is made plain.
void writeForPrograms(std::ostream& out, std::string_view text);

}  // namespace midden::app
