// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commands/shown_zone.h"

#include <iostream>

#include "core/quantities/utf8.h"
#include "core/store/read/book_rules.h"

namespace midden::app {

TimeZone shownZone(const Logbook& book) {
    const auto name = book.storedSetting(setting::zone).value_or("UTC");
    const auto zone = TimeZone::named(name);
    if (!zone) {
        std::cerr << "This computer does not know the book's time zone " << printable(name)
                  << "; times are shown in UTC.\n";
    }
    return zone.value_or(TimeZone::utc());
}

}  // namespace midden::app
