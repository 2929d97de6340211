// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commands/dry_book.h"

#include <stdlib.h>

#include <string>
#include <system_error>

namespace midden::app {

namespace {

std::filesystem::path newFolder() {
    auto pattern = (std::filesystem::temp_directory_path() / "middenbook-XXXXXX").string();
    if (::mkdtemp(pattern.data()) == nullptr) {
        throw LogbookError{LogbookError::Kind::failed, "There is no room for a trial copy of the logbook."};
    }
    return pattern;
}

bool holdsNothing(const std::filesystem::path& file) {
    std::error_code absent;
    const auto size = std::filesystem::file_size(file, absent);
    return absent || size == 0;
}

/// A book that could not be begun there cannot be tried out there either.
void expectPlace(const std::filesystem::path& logbook) {
    const auto folder = std::filesystem::absolute(logbook).parent_path();
    if (!std::filesystem::is_directory(std::filesystem::status(folder))) {
        const auto reason = std::make_error_code(std::errc::no_such_file_or_directory);
        throw std::filesystem::filesystem_error{"no folder", folder, reason};
    }
}

}  // namespace

DryBook::DryBook(std::filesystem::path logbook) : logbook_{std::move(logbook)} {
    expectPlace(logbook_);
    if (!holdsNothing(logbook_)) {
        folder_ = newFolder();
        Logbook::open(logbook_, Logbook::Mode::readOnly).copyTo(folder_ / "trial.midden");
    }
}

DryBook::~DryBook() {
    if (!folder_.empty()) {
        std::error_code ignored;
        std::filesystem::remove_all(folder_, ignored);
    }
}

Logbook DryBook::open() const {
    return folder_.empty() ? Logbook::inMemory() : Logbook::open(folder_ / "trial.midden", Logbook::Mode::readWrite);
}

}  // namespace midden::app
