// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/logbook.h"

#include <sqlite3.h>

#include <system_error>

#include "core/store/state.h"

namespace midden {

Logbook::Logbook(std::unique_ptr<State> state) : state_{std::move(state)} {}
Logbook::Logbook(Logbook&&) noexcept = default;
Logbook& Logbook::operator=(Logbook&&) noexcept = default;
Logbook::~Logbook() = default;

const std::filesystem::path& Logbook::file() const {
    return state_->file.path();
}

bool Logbook::isReadOnly() const {
    return state_->readOnly;
}

void Logbook::setHand(std::string who, std::function<Instant()> now) {
    state_->who = std::move(who);
    state_->now = std::move(now);
}

Logbook::FileState Logbook::fileState() const {
    int moved = 0;
    sqlite3_file_control(state_->file.handle(), "main", SQLITE_FCNTL_HAS_MOVED, &moved);
    std::error_code none;
    return moved == 0                                           ? FileState::inPlace
           : std::filesystem::exists(state_->file.path(), none) ? FileState::replaced
                                                                : FileState::gone;
}

std::int64_t Logbook::dataVersion() const {
    return state_->file.number("PRAGMA data_version");
}

void Logbook::inOneTransaction(const std::function<void()>& work) {
    if (state_->file.inTransaction()) {
        throw std::logic_error{"Logbook::inOneTransaction may not be nested"};
    }
    Transaction transaction{state_->file};
    work();
    transaction.commit();
}

std::optional<Instant> Logbook::State::clock() const {
    return now ? std::optional{now()} : std::nullopt;
}

void refuse(const std::string& sentence) {
    throw LogbookError{LogbookError::Kind::refused, sentence};
}

}  // namespace midden
