// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/heights_part.h"

#include <algorithm>

#include "ui/setup/amend_bin.h"
#include "ui/shared/saved_line.h"
#include "ui/shared/typed.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr double lowestRim = 10;
constexpr double highestRim = 1'000;

std::optional<PlaceSetting> placeOf(const Book& book, const Place& place) {
    const auto places = book.log().places(*place.bin);
    const auto found = std::ranges::find(places, place, &PlaceSetting::place);
    return found == places.end() ? std::nullopt : std::optional{*found};
}

QString heightText(const std::optional<double>& height) {
    return height ? words::localised(QString::number(*height, 'g', 6).toStdString()) : QString{};
}

}  // namespace

HeightsPart::HeightsPart(Book& book, QWidget* parent)
    : SetupGrid{tr("Heights inside"),
                tr("Needed for a bin that is fed on top and emptied at the base, to tell which layer a thermometer is "
                   "in. Measure from the floor, inside. Places no more than 20 cm apart tell most, one of them near "
                   "the wall."),
                parent},
      book_{book} {
    connect(&book, &Book::changed, this, &HeightsPart::refresh);
    refresh();
}

void HeightsPart::refresh() {
    QString shape;
    for (const Bin& bin : book_.log().bins()) {
        shape += words::text(bin.name) + (bin.retired ? QStringLiteral("-|") : QStringLiteral("|"));
        for (const PlaceSetting& place : book_.log().places(bin.id)) {
            shape += words::text(place.place.position) + QLatin1Char{','};
        }
    }
    remake(shape, {tr("bin"), tr("what"), tr("cm above the floor")}, [this] { addRows(); });
    for (const auto& fill : fillers_) {
        fill();
    }
}

void HeightsPart::addRows() {
    fillers_.clear();
    for (const Bin& bin : book_.log().bins()) {
        if (bin.retired) {
            continue;
        }
        const QString id = QString::number(static_cast<qlonglong>(bin.id));
        const QString name = words::text(bin.name);
        const auto ofBin = [this, bin](std::optional<double> Bin::*height) {
            return std::pair{[this, id = bin.id, height] {
                                 const auto now = binOf(book_, id);
                                 return now ? (*now).*height : std::nullopt;
                             },
                             [this, id = bin.id, height](std::optional<double> value) {
                                 return amendBin(book_, id, [&](Bin& b) { b.*height = value; });
                             }};
        };
        const auto [rim, storeRim] = ofBin(&Bin::heightCentimetres);
        addHeight(bin,
                  {QStringLiteral("rim_") + id, tr("rim"), tr("Rim of %1, cm above the floor").arg(name), true, rim,
                   storeRim},
                  true);
        const auto [hatch, storeHatch] = ofBin(&Bin::hatchTopCentimetres);
        addHeight(bin,
                  {QStringLiteral("hatch_") + id, tr("top of the hatch at its base"),
                   tr("Top of the hatch of %1, cm above the floor").arg(name), false, hatch, storeHatch},
                  false);
        for (const PlaceSetting& place : book_.log().places(bin.id)) {
            const QString position = words::text(place.place.position);
            addHeight(bin,
                      {QStringLiteral("height_%1_%2").arg(id, position), position,
                       tr("%1 of %2, cm above the floor").arg(position, name), false,
                       [this, at = place.place] {
                           const auto now = placeOf(book_, at);
                           return now ? now->heightCentimetres : std::nullopt;
                       },
                       [this, at = place.place](std::optional<double> value) {
                           auto now = placeOf(book_, at);
                           if (!now) {
                               return false;
                           }
                           now->heightCentimetres = value;
                           return book_.change(Amend<PlaceSetting>{at, *now, {}},
                                               tr("height of %1").arg(words::text(at.position)));
                       }},
                      false);
        }
    }
}

void HeightsPart::addHeight(const Bin& bin, const Height& height, bool first) {
    const int row = nextRow();
    label(row, 0, first ? words::text(bin.name) : QString{});
    label(row, 1, height.what);
    SavedLine* cell = line(row, 2, height.name, height.spoken, 10);
    cell->setAlignment(Qt::AlignRight);
    cell->setReadOnly(book_.isReadOnly());
    connect(cell, &SavedLine::typed, this, [this, cell, height, id = bin.id](const QString& typed) {
        if (typed.trimmed().isEmpty()) {
            say({});
            if (height.store(std::nullopt)) {
                cell->setTaken();
            }
            return;
        }
        const auto amount = readAmount(typed);
        const QString problem =
            amount ? problemWith(id, height.isRim, *amount) : words::text(amount.error().sentence());
        say(problem.isEmpty() ? QString{} : tr("Not saved: %1.").arg(problem));
        if (problem.isEmpty() && height.store(*amount)) {
            cell->setTaken();
        }
    });
    fillers_.emplace_back([cell, stored = height.stored] { cell->setStored(heightText(stored())); });
}

QString HeightsPart::problemWith(BinId id, bool isRim, double centimetres) const {
    const auto bin = binOf(book_, id);
    if (isRim) {
        if (centimetres < lowestRim || centimetres > highestRim) {
            return tr("a bin is 10 to 1000 cm high inside");
        }
        const auto places = book_.log().places(id);
        const bool isTooLow = (bin && bin->hatchTopCentimetres.value_or(0) > centimetres) ||
                              std::ranges::any_of(places, [&](const PlaceSetting& place) {
                                  return place.heightCentimetres.value_or(0) > centimetres;
                              });
        return isTooLow ? tr("something inside is higher than that") : QString{};
    }
    if (centimetres < 0) {
        return tr("heights are measured up from the floor");
    }
    const auto rim = bin ? bin->heightCentimetres : std::nullopt;
    return rim && centimetres > *rim ? tr("that is above the rim, which is at %1 cm").arg(words::number(*rim, 0))
                                     : QString{};
}

}  // namespace midden::ui
