// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/entries/take_back.h"

#include <sqlite3.h>

#include "core/store/schema/schema.h"
#include "core/store/sqlite/database.h"

namespace midden {

void takeBackCertificate(const std::filesystem::path& book, std::string_view number) {
    DatabaseFile file{book, SQLITE_OPEN_READWRITE};
    setUpConnection(file);
    Transaction transaction{file};
    const RulesPaused meanwhile{file, RulesPaused::Which::triggers};  // they keep what went out
    Query{file, "DELETE FROM certificate WHERE number = ?"}.with(number).run();
    transaction.commit();
}

}  // namespace midden
