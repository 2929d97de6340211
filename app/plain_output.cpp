// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/plain_output.h"

#include "core/quantities/utf8.h"

namespace midden::app {

PlainOutput::PlainOutput(std::ostream& out) : out_{out}, behind_{out.rdbuf(this)} {}

PlainOutput::~PlainOutput() {
    out_.flush();
    const auto state = out_.rdstate();
    out_.rdbuf(behind_);  // which forgets what went wrong
    out_.clear(state);
}

bool PlainOutput::passOn(std::string_view line) {
    const auto shown = printable(line);
    return behind_->sputn(shown.data(), std::ssize(shown)) == std::ssize(shown);
}

bool PlainOutput::take(std::string_view text) {
    for (auto end = text.find('\n'); end != std::string_view::npos; end = text.find('\n')) {
        line_ += text.substr(0, end);
        if (!passOn(line_) || behind_->sputc('\n') == traits_type::eof()) {
            return false;
        }
        line_.clear();
        text.remove_prefix(end + 1);
    }
    line_ += text;
    return true;
}

PlainOutput::int_type PlainOutput::overflow(int_type character) {
    if (character == traits_type::eof()) {
        return traits_type::not_eof(character);
    }
    const char c = traits_type::to_char_type(character);
    return take({&c, 1}) ? character : traits_type::eof();
}

std::streamsize PlainOutput::xsputn(const char* text, std::streamsize size) {
    return take({text, static_cast<std::size_t>(size)}) ? size : 0;
}

int PlainOutput::sync() {
    const bool passed = passOn(line_);
    line_.clear();
    return passed ? behind_->pubsync() : -1;
}

bool PlainOutput::writeAsIs(std::string_view text) {
    return sync() == 0 && behind_->sputn(text.data(), std::ssize(text)) == std::ssize(text);
}

void writeForPrograms(std::ostream& out, std::string_view text) {
    if (auto* plain = dynamic_cast<PlainOutput*>(out.rdbuf())) {
        if (!plain->writeAsIs(text)) {
            out.setstate(std::ios::badbit);
        }
        return;
    }
    out << text;
}

}  // namespace midden::app
