// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/amend_bin.h"

#include <QCoreApplication>
#include <algorithm>

#include "ui/shared/words.h"

namespace midden::ui {

std::optional<Bin> binOf(const Book& book, BinId id) {
    const auto bins = book.log().bins();
    const auto found = std::ranges::find(bins, id, &Bin::id);
    return found == bins.end() ? std::nullopt : std::optional{*found};
}

bool amendBin(Book& book, BinId id, const std::function<void(Bin&)>& how) {
    auto bin = binOf(book, id);
    if (!bin) {
        return false;
    }
    how(*bin);
    return book.change(Amend<Bin>{id, *bin, {}},
                       QCoreApplication::translate("setup", "bin %1").arg(words::text(bin->name)));
}

}  // namespace midden::ui
