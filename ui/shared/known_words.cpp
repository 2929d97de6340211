// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/known_words.h"

#include <QCoreApplication>
#include <QStringList>
#include <algorithm>
#include <array>
#include <utility>

#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("known", source);
}

constexpr std::array<std::pair<const char*, const char*>, 8> basisWords{{
    {"food-table", QT_TRANSLATE_NOOP("known", "measured food table")},
    {"handbook", QT_TRANSLATE_NOOP("known", "handbook")},
    {"manual", QT_TRANSLATE_NOOP("known", "farm manual")},
    {"mixture", QT_TRANSLATE_NOOP("known", "mixed from a measured food table")},
    {"estimate", QT_TRANSLATE_NOOP("known", "our estimate")},
    {"definition", QT_TRANSLATE_NOOP("known", "by definition")},
    {"none", QT_TRANSLATE_NOOP("known", "no figures")},
    {"own", QT_TRANSLATE_NOOP("known", "your own")},
}};

std::optional<Known> codeOf(const Material& material, MaterialFigure figure) {
    switch (figure) {
        case MaterialFigure::nitrogen:
            return material.known.nitrogen;
        case MaterialFigure::carbonNitrogen:
            return material.known.carbonNitrogen;
        case MaterialFigure::moisture:
            return material.known.moisture;
        case MaterialFigure::bulk:
            return material.known.bulk;
    }
    return {};
}

/// A figure of this material that was read somewhere, or worked out from such.
QString readWord(const Material& material, MaterialFigure figure, Known known) {
    const bool isHandbook = material.basis == "handbook";
    if (figure == MaterialFigure::bulk && material.basis != "definition" && !(isHandbook && known != Known::opened)) {
        return tr("table of weights");
    }
    if (isHandbook && known == Known::derived) {
        return tr("handbook, made to add up");
    }
    return material.basis == "estimate" ? tr("read elsewhere") : knownWord(material);
}

template <class Words>
QStringList each(std::span<const Material* const> materials, const Words& words) {
    QStringList all;
    for (const Material* material : materials) {
        all += words(*material);
    }
    all.removeDuplicates();
    return all;
}

}  // namespace

QString knownWord(const Material& material) {
    const auto found = std::ranges::find_if(basisWords, [&](const auto& one) { return material.basis == one.first; });
    return found == basisWords.end() ? tr("source as given") : tr(found->second);
}

QString knownWord(const Material& material, MaterialFigure figure) {
    const auto known = codeOf(material, figure);
    if (!known) {
        return {};
    }
    switch (*known) {
        case Known::estimate:
            return tr("our estimate");
        case Known::memory:
            return tr("from memory");
        case Known::own:
            return tr("your own");
        case Known::opened:
        case Known::quoted:
        case Known::derived:
            return readWord(material, figure, *known);
    }
    return {};
}

QString knownInWords(std::span<const Material* const> materials) {
    const auto all = each(
        materials, [](const Material& m) { return tr("%1, %2").arg(words::text(m.name).toLower(), knownWord(m)); });
    return all.isEmpty() ? QString{} : tr("Where the figures are from: %1.").arg(all.join(tr("; ")));
}

QString sourcesInWords(std::span<const Material* const> materials) {
    return each(materials,
                [](const Material& m) {
                    return tr("%1: %2. How checked: %3.")
                        .arg(words::text(m.name), words::text(m.source), words::text(m.checked));
                })
        .join(QLatin1Char{'\n'});
}

}  // namespace midden::ui
