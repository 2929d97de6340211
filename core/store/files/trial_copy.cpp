// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/files/trial_copy.h"

#include "core/files/rights.h"
#include "core/store/files/book_copy.h"

namespace midden {

TrialCopy::TrialCopy(const std::filesystem::path& book, const std::filesystem::path& folder)
    : workplace_{asLogbookError([&] { return Workplace{folder / book.filename()}; })} {
    Logbook::open(book, Logbook::Mode::readOnly).copyTo(file());
    asLogbookError([&] { giveRights(file(), rightsOf(book)); });
}

}  // namespace midden
