// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/round/typed_level.h"

#include <QCoreApplication>

#include "core/exchange/csv/cells.h"
#include "core/records/level.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("forms", source);
}

/// A heap may stand above the rim, so far.
constexpr double mostOfHeight = 1.5;

}  // namespace

QString levelLabel(const std::optional<Bin>& bin) {
    return bin && bin->heightCentimetres ? tr("Surface below the rim, &cm") : tr("Surface above the floor, &cm");
}

Result<std::optional<double>> readLevel(const QString& typed, const std::optional<Bin>& bin) {
    const QString text = typed.trimmed();
    if (text.isEmpty()) {
        return std::nullopt;
    }
    const auto number = parseDecimal(words::utf8(text));
    if (!number) {
        return refused(words::utf8(tr("“%1” is no distance").arg(text)), words::utf8(tr("centimetres, such as 12")));
    }
    const auto height = bin ? bin->heightCentimetres : std::nullopt;
    const double level = height ? *height - *number : *number;
    const double most = height ? *height * mostOfHeight : levelRange.most;
    if (level < levelRange.least || level > most) {
        return refused(words::utf8(tr("the surface cannot be there")),
                       words::utf8(height ? tr("at most %1 cm below the rim").arg(words::number(*height, 0))
                                          : tr("0 to %1 cm above the floor").arg(words::number(most, 0))));
    }
    return level;
}

Observation levelEntry(BatchId batch, Moment when, double centimetres) {
    return {.batch = batch, .when = when, .kind = ObservationKind::level, .value = levelText(centimetres)};
}

}  // namespace midden::ui
