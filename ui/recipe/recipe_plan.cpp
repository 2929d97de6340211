// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipe/recipe_plan.h"

#include <QCoreApplication>
#include <algorithm>

#include "core/recipe/caution.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString tr(const char* source, int n = -1) {
    return QCoreApplication::translate("recipe", source, nullptr, n);
}

/// The acceptable bands less a little, so that weighing to the nearest 10 g does not end outside.
constexpr Goals wellInside{Bounds{acceptableMoisture.low + 2, acceptableMoisture.high - 2},
                           Bounds{acceptableCarbonNitrogen.low + 2, acceptableCarbonNitrogen.high - 2}};

QString bounds(const Bounds& b, int decimals) {
    return words::number(b.low, decimals) + QChar{0x2013} + words::number(b.high, decimals);
}

QString list(const std::vector<std::string>& names) {
    QStringList all;
    for (const auto& name : names) {
        all += words::text(name);
    }
    all.removeDuplicates();
    return all.join(tr(", "));
}

QString additionsInWords(const Mend& mend) {
    QStringList parts;
    for (std::size_t i = 0; i < mend.toHand.size(); ++i) {
        if (mend.balance.kilograms[i] >= 0.005) {
            parts += tr("%1 kg %2")
                         .arg(words::number(mend.balance.kilograms[i], mend.balance.kilograms[i] < 1 ? 2 : 1),
                              words::text(mend.toHand[i].material.material).toLower());
        }
    }
    return parts.join(tr(", "));
}

}  // namespace

QString figureInWords(const QString& name, std::optional<double> figure, const std::optional<Bounds>& range,
                      const Bounds& preferred) {
    if (!figure) {
        return tr("%1 is not known.").arg(name);
    }
    const QString band = bounds(preferred, 0);
    const QString shown = words::number(*figure, 1);
    const QString verdict = *figure < preferred.low    ? tr("%1 %2 is below %3.").arg(name, shown, band)
                            : *figure > preferred.high ? tr("%1 %2 is above %3.").arg(name, shown, band)
                                                       : tr("%1 %2 is within %3.").arg(name, shown, band);
    if (!range || range->high - range->low < 0.5) {
        return verdict;
    }
    return verdict + QLatin1Char{' '} +
           tr("With these materials it may be anything from %1 to %2.")
               .arg(words::number(range->low, 0), words::number(range->high, 0));
}

QString doubtsInWords(const Mixture& mixture) {
    if (!mixture.withoutFigures.empty()) {
        return tr("No figures for %1, so the mixture cannot be worked out. Choose a material from the list, or leave "
                  "it out.")
            .arg(list(mixture.withoutFigures));
    }
    if (!mixture.withoutSpread.empty()) {
        return tr("The usual range is not published in full, and what is missing is taken as exact: %1.")
            .arg(list(mixture.withoutSpread));
    }
    return {};
}

QString roomInWords(const Mixture& mixture, std::optional<double> binLitres) {
    if (!mixture.volumeLitres) {
        return {};
    }
    const QString side = tr("About %1 L as thrown in; it will settle.").arg(words::number(*mixture.volumeLitres, 0));
    const QString air =
        mixture.freeAirSpacePercent
            ? QLatin1Char{' '} + tr("Air in it, our estimate: about %1 % of the volume; more than 20 % is wanted.")
                                     .arg(words::number(*mixture.freeAirSpacePercent, 0))
            : QString{};
    if (!binLitres || *binLitres <= 0) {
        return side + air;
    }
    const double part = *mixture.volumeLitres / *binLitres;
    const QString fit =
        part > 1
            ? tr("More than the bin's %1 L: fill, let it settle, and add the rest.").arg(words::number(*binLitres, 0))
        : part < 0.5
            ? tr("Less than half of the bin's %1 L: a small heap gives off its heat fast (common practice, no source).")
                  .arg(words::number(*binLitres, 0))
            : tr("It fits the bin's %1 L.").arg(words::number(*binLitres, 0));
    return side + QLatin1Char{' '} + fit + air;
}

QString airSourceInWords() {
    return tr(
        "Air in it: what is left of a litre when water and solids have taken their room. What burns is taken as 1.0 "
        "kg/L, the cautious choice, what does not as 2.5: our own. What burns is 1.8 times the carbon: Adams and "
        "others 1951, Cornell (compost.css.cornell.edu/calc/carbon.html). More than 20 %: Technical Note 24, "
        "Composting Basics, as stored at online.documentine.com.");
}

Mend mendFor(std::span<const Portion> given, std::vector<ToHand> toHand, Aim aim) {
    Mend mend{balance(given, toHand, {preferredMoisture, preferredCarbonNitrogen}, aim), std::move(toHand), {}, true};
    const bool preferred = mend.balance.feasible;
    if (!preferred) {
        const bool acceptableAlready = balance(given, {}, {acceptableMoisture, acceptableCarbonNitrogen}).feasible;
        mend.balance =
            acceptableAlready ? balance(given, mend.toHand, {}) : balance(given, mend.toHand, wellInside, aim);
    }
    mend.reached = mend.balance.feasible;
    const QString additions = additionsInWords(mend);
    if (!mend.reached) {
        mend.words = words::localised(mend.balance.why);
        return mend;
    }
    if (additions.isEmpty()) {
        mend.words =
            preferred
                ? tr("It needs nothing.")
                : tr("It will do as it is: C:N within 20–40, moisture within 40–65 %. What is ticked cannot bring it "
                     "into the preferred bands.");
        return mend;
    }
    const QString figures = tr("moisture %1 %, C:N %2")
                                .arg(words::number(*mend.balance.mixture.moisturePercent, 1),
                                     words::number(*mend.balance.mixture.carbonNitrogen, 1));
    mend.words =
        preferred ? tr("Add %1. That makes %2.").arg(additions, figures)
                  : tr("Add %1. That makes %2, which will do; what is ticked cannot bring it into the preferred bands.")
                        .arg(additions, figures);
    return mend;
}

std::vector<CautionLine> cautionLines(const QStringList& names, const Materials& materials) {
    std::vector<CautionLine> lines;
    QStringList seen;
    for (const QString& name : names) {
        for (const Caution& caution : cautionsFor(words::utf8(name), materials)) {
            if (!seen.contains(words::text(caution.id))) {
                seen += words::text(caution.id);
                lines.push_back(
                    {name + QStringLiteral(": ") + words::text(caution.words), words::text(caution.source)});
            }
        }
    }
    return lines;
}

}  // namespace midden::ui
