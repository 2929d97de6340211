// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstdint>
#include <deque>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/exchange/refusal.h"

namespace midden {

/// One field of a row. Unquoted text comes without the blanks around it.
struct CsvCell {
    std::string_view text;
    bool quoted = false;
};

/// One row. Its texts live as long as the reader is not moved to the next one.
struct CsvRow {
    std::uint64_t line = 0;  ///< where it begins
    std::vector<CsvCell> cells;
};

/// Walks over CSV text (RFC 4180; CRLF, LF or CR; blank lines skipped; line breaks within quotes) without copying it.
/// Refused: text that is not UTF-8, control characters, a stray or unclosed quote, a row longer than `longestRow`.
class CsvReader {
  public:
    /// Rows of people and loggers have a few hundred bytes; a megabyte is a file of something else.
    static constexpr std::size_t longestRow = std::size_t{1} << 20U;

    /// `text` without a byte order mark.
    CsvReader(std::string_view text, char separator);

    /// False at the end of the text. The refusal names no file; who opened it knows.
    FileResult<bool> next(CsvRow& row);

  private:
    enum class Kind : std::uint8_t { plain, high, separator, quote, lineEnd, control };
    using Trouble = std::optional<Refusal>;

    Kind kindAt(const char* at) const { return kinds_[static_cast<unsigned char>(*at)]; }
    Trouble readRow(CsvRow& row);
    Trouble readCell(CsvRow& row);
    Trouble readPlain(CsvRow& row);
    Trouble readQuoted(CsvRow& row);
    std::string_view withoutDoubling(std::string_view inner);
    Trouble notUtf8(std::string_view row, std::uint64_t line) const;
    Trouble stoppedAtLimit() const;
    void takeLineEnd();
    void skipBlanks();

    std::array<Kind, 256> kinds_{};
    char separator_;
    const char* at_;
    const char* end_;
    const char* limit_ = nullptr;  ///< where the row must have ended
    std::uint64_t line_ = 1;
    bool sawHigh_ = false;
    std::deque<std::string> unescaped_;  ///< texts of the present row that had doubled quotes
};

/// The separator of a header row: whichever of comma, semicolon and tab stands in it most often outside quotes.
char separatorOf(std::string_view text);

/// `text` without the UTF-8 byte order mark some programs write.
std::string_view withoutByteOrderMark(std::string_view text);

}  // namespace midden
