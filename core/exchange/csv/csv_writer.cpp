// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/csv/csv_writer.h"

#include <array>
#include <charconv>
#include <stdexcept>

namespace midden {

namespace {

[[noreturn]] void throwUnwritable(const std::filesystem::path& file) {
    throw std::runtime_error{file.string() + " cannot be written"};
}

bool needsQuotes(std::string_view field) {
    const auto isBlank = [](char c) { return c == ' ' || c == '\t'; };
    return field.find_first_of(",;\t\"\r\n") != std::string_view::npos ||
           (!field.empty() && (isBlank(field.front()) || isBlank(field.back())));
}

/// Control characters have no place in a file of text and would be refused on the way back.
bool isStray(char c) {
    return (c >= 0 && c < ' ' && c != '\t' && c != '\n' && c != '\r') || c == 0x7F;
}

void appendField(std::string& line, std::string_view field) {
    const bool quoted = needsQuotes(field);
    line += quoted ? "\"" : "";
    for (const char c : field) {
        if (!isStray(c)) {
            line += c;
            line += c == '"' ? "\"" : "";
        }
    }
    line += quoted ? "\"" : "";
}

}  // namespace

CsvWriter::CsvWriter(const std::filesystem::path& file, std::string_view header)
    : file_{file}, out_{file, std::ios::binary | std::ios::trunc} {
    if (!out_) {
        throwUnwritable(file_);
    }
    out_ << header << '\n';
}

void CsvWriter::row(std::span<const std::string_view> fields) {
    line_.clear();
    bool first = true;
    for (const auto field : fields) {
        line_ += first ? "" : ",";
        appendField(line_, field);
        first = false;
    }
    line_ += '\n';
    out_.write(line_.data(), static_cast<std::streamsize>(line_.size()));
}

void CsvWriter::close() {
    out_.close();
    if (!out_) {
        throwUnwritable(file_);
    }
}

std::string plainNumber(std::optional<double> value) {
    if (!value) {
        return {};
    }
    std::array<char, 64> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), *value, std::chars_format::fixed);
    return {text.data(), end.ptr};
}

}  // namespace midden
