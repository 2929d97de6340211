// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/typed_addition.h"

#include <QCoreApplication>
#include <QRegularExpression>
#include <algorithm>

#include "core/exchange/csv/cells.h"
#include "core/store/read/book_rules.h"
#include "ui/shared/book.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("recipe", source);
}

struct Amount {
    double value = 0;
    std::optional<double> litresEach;  ///< none: the value is in kilograms
};

std::optional<Amount> readAmountOf(const QString& typed, const Measures& measures) {
    static const QRegularExpression form{QStringLiteral("^\\s*([0-9]+(?:[.,][0-9]+)?)\\s*([a-zA-Z]*)\\s*$")};
    const auto match = form.match(typed);
    const auto number = parseDecimal(words::utf8(match.captured(1)));
    if (!match.hasMatch() || !number || *number <= 0 || *number > 1e5) {
        return std::nullopt;
    }
    const QString unit = match.captured(2).toLower();
    const auto means = [&](std::initializer_list<const char*> names) {
        return std::ranges::any_of(names, [&](const char* name) { return unit == QLatin1String{name}; });
    };
    if (means({"", "kg", "kilo", "kilos"})) {
        return Amount{*number, {}};
    }
    if (means({"g", "gram", "grams"})) {
        return Amount{*number / 1'000, {}};
    }
    if (means({"l", "litre", "litres", "liter", "liters"})) {
        return Amount{*number, 1};
    }
    if (means({"b", "bucket", "buckets"})) {
        return Amount{*number, measures.bucketLitres};
    }
    if (means({"barrow", "barrows", "wheelbarrow", "wheelbarrows"})) {
        return Amount{*number, measures.barrowLitres};
    }
    if (means({"caddy", "caddies", "pail", "pails"})) {
        return Amount{*number, measures.caddyLitres};
    }
    if (means({"sack", "sacks", "bag", "bags"})) {
        return Amount{*number, measures.sackLitres};
    }
    return std::nullopt;
}

/// What the steward changed in the list goes into the entry, so that the record stands when the list changes again.
void takeOwnFigures(Addition& addition, const Material& material) {
    if (!material.ofTheGroup) {
        return;
    }
    const auto typical = [](const std::optional<Estimate>& e) { return e ? std::optional{e->typical} : std::nullopt; };
    addition.moisturePercent = typical(material.moisturePercent);
    addition.nitrogenPercent = typical(material.nitrogenPercent);
    addition.carbonNitrogen = typical(material.carbonNitrogen);
    addition.raw = material.raw;
}

ReadLine weighed(Addition addition, double litres, const Material* material) {
    if (material == nullptr || !material->bulkDensity) {
        return {std::nullopt, tr("Nobody has said what a litre of it weighs: give kilograms."), true};
    }
    addition.volumeLitres = litres;
    addition.massKilograms = litres * material->bulkDensity->typical / 1'000;
    const QString remark = tr("about %1 kg, as %2 L at %3 kg/m³")
                               .arg(words::number(addition.massKilograms, 1), words::number(litres, 0),
                                    words::number(material->bulkDensity->typical, 0));
    return {addition, remark, false};
}

}  // namespace

Measures measuresOf(const Book& book) {
    return {settingNumber(book.log(), setting::bucket), settingNumber(book.log(), setting::barrow),
            settingNumber(book.log(), setting::caddy), settingNumber(book.log(), setting::sack)};
}

std::optional<double> readLitres(const QString& typed, const Measures& measures) {
    const auto amount = readAmountOf(typed, measures);
    if (!amount || amount->litresEach) {
        return amount ? std::optional{amount->value * *amount->litresEach} : std::nullopt;
    }
    const bool hasUnit = std::ranges::any_of(typed, [](QChar one) { return one.isLetter(); });
    return hasUnit ? std::nullopt : std::optional{amount->value};
}

ReadLine readLine(const TypedLine& line, const Measures& measures, const Materials& materials) {
    const QString name = line.material.trimmed();
    if (name.isEmpty() && line.amount.trimmed().isEmpty()) {
        return {};
    }
    if (name.isEmpty()) {
        return {std::nullopt, tr("Say what it is."), true};
    }
    const Material* material = materials.find(words::utf8(name));
    if (line.amount.trimmed().isEmpty()) {
        return {std::nullopt,
                material != nullptr ? QString{} : tr("Not in the list: it will count by its weight only."), false};
    }
    const auto amount = readAmountOf(line.amount, measures);
    if (!amount) {
        return {std::nullopt, tr("Write an amount like 10 kg, 20 L, 2 buckets, 1 caddy, 1 sack or 1 barrow."), true};
    }
    Addition addition;
    addition.material = words::utf8(name);
    if (material != nullptr) {
        takeOwnFigures(addition, *material);
    }
    if (amount->litresEach) {
        return weighed(addition, amount->value * *amount->litresEach, material);
    }
    addition.massKilograms = amount->value;
    return {addition, material != nullptr ? QString{} : tr("Not in the list: it counts by its weight only."), false};
}

}  // namespace midden::ui
