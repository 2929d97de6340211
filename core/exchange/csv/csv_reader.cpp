// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/csv/csv_reader.h"

#include <fmt/core.h>

#include <algorithm>

#include "core/quantities/utf8.h"

namespace midden {

namespace {

Refusal atLine(std::uint64_t line, std::string wrong, std::string expected) {
    return {{}, line, {std::move(wrong), std::move(expected)}};
}

/// Line breaks in `text`: CRLF is one.
std::uint64_t lineBreaks(std::string_view text) {
    std::uint64_t count = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool secondHalf = text[i] == '\n' && i > 0 && text[i - 1] == '\r';
        count += (text[i] == '\n' || text[i] == '\r') && !secondHalf ? 1U : 0U;
    }
    return count;
}

bool hasBlankEnd(std::string_view field) {
    const auto isBlank = [](char c) { return c == ' ' || c == '\t'; };
    return !field.empty() && (isBlank(field.front()) || isBlank(field.back()));
}

bool isBlank(const CsvRow& row) {
    return row.cells.size() == 1 && row.cells.front().text.empty() && !row.cells.front().quoted;
}

}  // namespace

CsvReader::CsvReader(std::shared_ptr<TextSource> source, char separator, CsvPlace from, CsvSlices slices)
    : source_{std::move(source)},
      slices_{slices},
      separator_{separator},
      slice_{new char[slices.slice + 1]},  // std::make_unique would write zeros into all of it
      offset_{from.offset},
      at_{slice_.get()},
      end_{slice_.get()},
      line_{from.line} {
    const auto kindOf = [&](unsigned byte) {
        if (byte == static_cast<unsigned char>(separator)) {
            return Kind::separator;
        }
        if (byte == '"') {
            return Kind::quote;
        }
        if (byte == '\n' || byte == '\r') {
            return Kind::lineEnd;
        }
        if (byte >= 0x80) {
            return Kind::high;
        }
        return (byte < ' ' && byte != '\t') || byte == 0x7F ? Kind::control : Kind::plain;
    };
    for (unsigned byte = 0; byte < kinds_.size(); ++byte) {
        kinds_[byte] = kindOf(byte);
    }
}

FileResult<bool> CsvReader::next(CsvRow& row) {
    for (;;) {
        if (auto trouble = refill()) {
            return tl::unexpected{std::move(*trouble)};
        }
        if (at_ == end_) {
            return false;
        }
        row.line = line_;
        row.cells.clear();
        if (!readLoggerRow(row)) {
            if (auto trouble = readRow(row)) {
                return tl::unexpected{std::move(*trouble)};
            }
        }
        if (!isBlank(row)) {
            return true;
        }
    }
}

/// The one place that knows of slices: afterwards the whole next row is at hand, and two bytes for the end of its line,
/// or as much of it as there is, or more of it than a row may have.
CsvReader::Trouble CsvReader::refill() {
    const auto rest = static_cast<std::size_t>(end_ - at_);
    if (isLastSlice_ || rest >= slices_.longestRow + 2) {
        return std::nullopt;
    }
    std::copy(at_, end_, slice_.get());
    auto got = source_->read(offset_, {slice_.get() + rest, slices_.slice - rest});
    if (!got) {
        return std::move(got.error());
    }
    isLastSlice_ = *got < slices_.slice - rest;
    offset_ += *got;
    at_ = slice_.get();
    end_ = at_ + rest + *got;
    slice_[rest + *got] = '\0';  // a control character, at which a logger's row ends at the latest
    return std::nullopt;
}

/// Nearly every row of a logger passes through here at one go: no quotes, plain ASCII, no blanks around a field. False:
/// the row is of another kind, and nothing was read.
bool CsvReader::readLoggerRow(CsvRow& row) {
    const char* at = at_;
    for (const char* field = at;; field = ++at) {
        while (kindAt(at) == Kind::plain) {
            ++at;
        }
        const auto kind = kindAt(at);
        const std::string_view text{field, static_cast<std::size_t>(at - field)};
        if ((kind != Kind::separator && kind != Kind::lineEnd) || hasBlankEnd(text)) {
            return false;
        }
        row.cells.push_back({text});
        if (kind == Kind::lineEnd) {
            break;
        }
    }
    if (static_cast<std::size_t>(at - at_) >= slices_.longestRow) {
        return false;
    }
    at_ = at;
    takeLineEnd();
    return true;
}

CsvReader::Trouble CsvReader::readRow(CsvRow& row) {
    const char* const begin = at_;
    const auto rest = static_cast<std::size_t>(end_ - at_);
    isCutOff_ = rest >= slices_.longestRow;
    limit_ = isCutOff_ ? at_ + slices_.longestRow : end_;
    row.cells.clear();
    if (!unescaped_.empty()) {
        unescaped_.clear();
    }
    sawHigh_ = false;
    bool more = true;
    while (more) {
        if (auto trouble = readCell(row)) {
            return trouble;
        }
        more = at_ < limit_ && kindAt(at_) == Kind::separator;
        at_ += more ? 1 : 0;
    }
    const std::string_view whole{begin, static_cast<std::size_t>(at_ - begin)};
    takeLineEnd();
    return sawHigh_ ? notUtf8(whole, row.line) : std::nullopt;
}

void CsvReader::skipBlanks() {
    while (at_ < limit_ && (*at_ == ' ' || (*at_ == '\t' && separator_ != '\t'))) {
        ++at_;
    }
}

CsvReader::Trouble CsvReader::readCell(CsvRow& row) {
    skipBlanks();
    return at_ < limit_ && *at_ == '"' ? readQuoted(row) : readPlain(row);
}

CsvReader::Trouble CsvReader::readPlain(CsvRow& row) {
    const char* const begin = at_;
    skipPlainText();
    if (isBeyondLimit()) {
        return tooLong(row.line);
    }
    if (at_ < limit_ && kindAt(at_) == Kind::quote) {
        return atLine(line_, "a quotation mark stands inside a field",
                      "fields with quotation marks in quotes, and each mark doubled");
    }
    if (at_ < limit_ && kindAt(at_) == Kind::control) {
        return controlCharacter();
    }
    const char* last = at_;
    while (last != begin && (last[-1] == ' ' || last[-1] == '\t')) {
        --last;
    }
    row.cells.emplace_back().text = {begin, static_cast<std::size_t>(last - begin)};
    return std::nullopt;
}

/// To the first character that is not a field's own.
void CsvReader::skipPlainText() {
    while (at_ != limit_ && (kindAt(at_) == Kind::plain || kindAt(at_) == Kind::high)) {
        sawHigh_ = sawHigh_ || kindAt(at_) == Kind::high;
        ++at_;
    }
}

CsvReader::Trouble CsvReader::readQuoted(CsvRow& row) {
    const auto opened = line_;
    const char* const inner = ++at_;
    const bool doubled = skipQuotedText();
    if (isBeyondLimit()) {
        return tooLong(row.line);
    }
    if (at_ == end_) {
        return notClosed(opened);
    }
    if (kindAt(at_) == Kind::control) {
        return controlCharacter();
    }
    const std::string_view text{inner, static_cast<std::size_t>(at_ - inner)};
    row.cells.push_back({doubled ? withoutDoubling(text) : text, true});
    ++at_;
    skipBlanks();
    if (isBeyondLimit()) {
        return tooLong(row.line);
    }
    const bool isFieldEnd = at_ == end_ || kindAt(at_) == Kind::separator || kindAt(at_) == Kind::lineEnd;
    return isFieldEnd ? std::nullopt : notClosed(opened);
}

/// To the closing quote, a control character or the limit. Says whether there were doubled quotes on the way.
bool CsvReader::skipQuotedText() {
    bool doubled = false;
    const auto closes = [&] { return *at_ == '"' && (at_ + 1 == limit_ || at_[1] != '"'); };
    while (at_ < limit_ && !closes() && kindAt(at_) != Kind::control) {
        const auto kind = kindAt(at_);
        sawHigh_ = sawHigh_ || kind == Kind::high;
        doubled = doubled || kind == Kind::quote;
        if (kind == Kind::lineEnd) {
            takeLineEnd();
        } else {
            at_ += kind == Kind::quote ? 2 : 1;
        }
    }
    return doubled;
}

CsvReader::Trouble CsvReader::controlCharacter() const {
    return atLine(line_, fmt::format("there is a control character (byte {}) in the text", int{*at_}),
                  "plain text in UTF-8");
}

std::string_view CsvReader::withoutDoubling(std::string_view inner) {
    auto& plain = unescaped_.emplace_back();
    plain.reserve(inner.size());
    for (std::size_t i = 0; i < inner.size(); ++i) {
        plain += inner[i];
        i += inner[i] == '"' ? 1U : 0U;
    }
    return plain;
}

/// One reason for both: the next field's quote, or the first one of another row, may seem to close a field that was
/// never closed, and then text follows it.
CsvReader::Trouble CsvReader::notClosed(std::uint64_t opened) const {
    return atLine(opened, "a field begins with a quotation mark and does not end with one",
                  "one at its end, and each mark inside doubled");
}

CsvReader::Trouble CsvReader::tooLong(std::uint64_t line) const {
    return atLine(line, "the row is longer than 1 MB", "rows of a time, a temperature and a few words");
}

CsvReader::Trouble CsvReader::notUtf8(std::string_view row, std::uint64_t line) const {
    const auto wrong = firstNotUtf8(row);
    if (!wrong) {
        return std::nullopt;
    }
    return atLine(line + lineBreaks(row.substr(0, *wrong)), "the text is not UTF-8", "a file saved as UTF-8");
}

void CsvReader::takeLineEnd() {
    if (at_ == end_) {
        return;
    }
    const bool carriageReturn = *at_ == '\r';
    ++at_;
    if (carriageReturn && at_ != end_ && *at_ == '\n') {
        ++at_;
    }
    ++line_;
}

char separatorOf(std::string_view head) {
    constexpr std::string_view candidates = "\t;,";
    std::array<std::size_t, candidates.size()> counts{};
    bool inQuotes = false;
    bool begun = false;  // the header may come after blank lines
    for (const char c : head) {
        inQuotes = inQuotes != (c == '"');
        if (!inQuotes && (c == '\n' || c == '\r')) {
            if (begun) {
                break;
            }
            counts = {};
        }
        begun = begun || (c != ' ' && c != '\t' && c != '\n' && c != '\r');
        const auto candidate = candidates.find(c);
        if (!inQuotes && candidate != std::string_view::npos) {
            ++counts.at(candidate);
        }
    }
    return candidates[static_cast<std::size_t>(std::max_element(counts.begin(), counts.end()) - counts.begin())];
}

}  // namespace midden
