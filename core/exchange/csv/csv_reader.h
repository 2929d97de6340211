// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstdint>
#include <deque>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/exchange/csv/refusal.h"
#include "core/exchange/csv/text_source.h"

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

/// How much of a text is held at once.
struct CsvSlices {
    /// A row has fewer bytes before its line end, or before the end of the text. Rows of people and loggers have a few
    /// hundred bytes; a megabyte is a file of something else.
    std::size_t longestRow = std::size_t{1} << 20U;
    std::size_t slice = std::size_t{4} << 20U;  ///< more than two bytes beyond the longest row
};

/// A place in a text at which a row may begin.
struct CsvPlace {
    std::uint64_t offset = 0;
    std::uint64_t line = 1;
};

/// Walks over CSV text (RFC 4180; CRLF, LF or CR; blank lines skipped; line breaks within quotes), a slice at a time.
/// Refused: text that is not UTF-8, control characters, a stray or unclosed quote, a row longer than the longest. A
/// field or row that is wrong as a whole is refused with the line it begins in, anything else where it stands.
class CsvReader {
  public:
    /// Begins at `from`, behind a byte order mark.
    CsvReader(std::shared_ptr<TextSource> source, char separator, CsvPlace from, CsvSlices slices = {});

    /// False at the end of the text. The refusal names no file; who opened it knows.
    FileResult<bool> next(CsvRow& row);
    /// Where the next row begins.
    CsvPlace place() const { return {offset_ - static_cast<std::size_t>(end_ - at_), line_}; }

  private:
    enum class Kind : std::uint8_t { plain, high, separator, quote, lineEnd, control };
    using Trouble = std::optional<Refusal>;

    Kind kindAt(const char* at) const { return kinds_[static_cast<unsigned char>(*at)]; }
    Trouble refill();
    bool readLoggerRow(CsvRow& row);
    Trouble readRow(CsvRow& row);
    Trouble readCell(CsvRow& row);
    Trouble readPlain(CsvRow& row);
    Trouble readQuoted(CsvRow& row);
    void skipPlainText();
    bool skipQuotedText();
    Trouble controlCharacter() const;
    std::string_view withoutDoubling(std::string_view inner);
    Trouble notUtf8(std::string_view row, std::uint64_t line) const;
    bool isBeyondLimit() const { return isCutOff_ && at_ >= limit_; }
    Trouble tooLong(std::uint64_t line) const;
    Trouble notClosed(std::uint64_t opened) const;
    void takeLineEnd();
    void skipBlanks();

    std::array<Kind, 256> kinds_{};
    std::shared_ptr<TextSource> source_;
    CsvSlices slices_;
    char separator_;
    std::unique_ptr<char[]> slice_;
    std::uint64_t offset_;  ///< of what comes after the slice
    bool isLastSlice_ = false;
    const char* at_ = nullptr;
    const char* end_ = nullptr;
    const char* limit_ = nullptr;  ///< where the row must have ended, or the text ends
    bool isCutOff_ = false;        ///< more text may follow the limit
    std::uint64_t line_;
    bool sawHigh_ = false;
    std::deque<std::string> unescaped_;  ///< texts of the present row that had doubled quotes
};

/// The separator of a header row: whichever of comma, semicolon and tab stands in it most often outside quotes.
char separatorOf(std::string_view head);

}  // namespace midden
