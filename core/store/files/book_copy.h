// SPDX-License-Identifier: GPL-3.0-or-later
// Making a copy of a book under a passing name, and giving it its own once it is good.
#pragma once

#include "core/files/destination.h"
#include "core/files/rights.h"
#include "core/files/workplace.h"
#include "core/store/sqlite/database.h"

namespace midden {

/// A book of our own making under a passing name, gone again when this goes, unless it was given its name.
class TemporaryBook {
  public:
    /// To be called `wanted`; may be read and written by its owner alone, until it gets other rights. Throws
    /// LogbookError.
    explicit TemporaryBook(const std::filesystem::path& wanted);

    const std::filesystem::path& path() const { return workplace_.making(); }
    /// Never replaces a file: false when one stands there by now. Throws LogbookError for what the machine refuses.
    bool takeName(const std::filesystem::path& name);

  private:
    Workplace workplace_;
};

/// Throws LogbookError where side files of another book lie beside the name: SQLite would take them for this one's.
/// False: they are those of a book that has come there since.
bool hasNoSideFiles(const Destination& place);

LogbookError logbookErrorOf(const FileTrouble& trouble);
/// What `work` gives. A FileTrouble becomes the LogbookError that says the same.
template <class Work>
auto asLogbookError(Work work) -> decltype(work()) {
    try {
        return work();
    } catch (const FileTrouble& trouble) {
        throw logbookErrorOf(trouble);
    }
}

/// Every page of `from` as of one moment, in the place of all that `to` held. `schema` is where in `to`: "main", or a
/// name it was attached by.
void copyPages(DatabaseFile& from, DatabaseFile& to, const char* schema = "main");

/// Copies every page as of one moment, whatever others write meanwhile, and looks the copy through. Throws
/// LogbookError; a book that does not come out sound is damaged.
void copyWhole(DatabaseFile& from, const std::filesystem::path& to);

/// Writes all that `from` holds into the book `to` as one transaction of that file.
void copyInto(DatabaseFile& from, const std::filesystem::path& to);

}  // namespace midden
