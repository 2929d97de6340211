// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/care/copies.h"
#include "tests/ui/shell/desk.h"

namespace midden::testing {

/// A desk whose window keeps copies in its own folder.
struct CopyDesk : Desk {
    CopyDesk() {
        window->keepCopiesIn(path("copies").toStdString(), [this] { return now; });
    }
    std::vector<KeptCopy> kept(const QString& book) const {
        const std::filesystem::path file = path(book).toStdString();
        return keptCopies(std::filesystem::path{path("copies").toStdString()} / copyFolderName(file));
    }
    /// A book of one bin with a copy of it, and then a second bin.
    void growBook() {
        window->startBook(path("plot.midden"));
        settle();
        addBin("North", {"core"});
        window->copies()->copyAndWait();
        now = now + days(1);
        addBin("Shed", {"core"});
    }
    bool inside(const QString& words) const {
        return waitUntil([&] { return this->words("copiesInside").contains(words); });
    }
};

inline std::size_t binsIn(const std::filesystem::path& file) {
    return Logbook::open(file, Logbook::Mode::readOnly).bins().size();
}

}  // namespace midden::testing
