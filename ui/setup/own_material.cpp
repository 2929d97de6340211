// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/own_material.h"

#include <QCoreApplication>
#include <QRegularExpression>
#include <QStringList>

#include "ui/shared/known_words.h"
#include "ui/shared/typed.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("materials", source);
}

/// What a figure may be, and how to say so.
struct Limits {
    double least;
    double most;
    const char* words;
};
constexpr Limits percentage{0, 100, QT_TRANSLATE_NOOP("materials", "0 to 100, like 80 or 80 (62–88)")};
constexpr Limits ratio{0.1, 10'000, QT_TRANSLATE_NOOP("materials", "0.1 to 10000, like 80 or 80 (48–150)")};
constexpr Limits density{1, 3'000, QT_TRANSLATE_NOOP("materials", "1 to 3000, like 135 or 135 (34–224)")};

std::optional<double> numberIn(const QString& typed, const Limits& limits) {
    const auto number = readAmount(typed);
    return number && *number >= limits.least && *number <= limits.most ? std::optional{*number} : std::nullopt;
}

/// "80" or "80 (48–150)"; no value when it is neither.
std::optional<Estimate> estimateIn(const QString& typed, const Limits& limits) {
    static const QRegularExpression form{
        QStringLiteral("^\\s*([0-9.,]+)\\s*(?:\\(\\s*([0-9.,]+)\\s*[-\\x{2013}]\\s*([0-9.,]+)\\s*\\))?\\s*$")};
    const auto match = form.match(typed);
    const auto typical = numberIn(match.captured(1), limits);
    if (!match.hasMatch() || !typical) {
        return std::nullopt;
    }
    if (match.captured(2).isEmpty()) {
        return Estimate::about(*typical);
    }
    const auto low = numberIn(match.captured(2), limits);
    const auto high = numberIn(match.captured(3), limits);
    if (!low || !high || *low > *typical || *typical > *high) {
        return std::nullopt;
    }
    return Estimate{*typical, {*low, *high}, true};
}

void readName(const MaterialDraft& draft, bool isNew, const Materials& all, MaterialReading& reading, Material& into) {
    const QString name = draft.name.simplified();
    if (name.contains(QLatin1Char{';'}) || name.contains(QLatin1Char{'|'})) {
        reading.wrong[MaterialField::name] = tr("A name has no semicolon and no upright stroke.");
    } else if (const Material* known = all.find(words::utf8(name)); isNew && known != nullptr) {
        reading.wrong[MaterialField::name] =
            tr("The list has that as “%1”: choose it and change its figures.").arg(words::text(known->name));
    }
    into.name = words::utf8(name);
    if (isNew) {
        into.id = "own-" + words::utf8(name.toLower().replace(QLatin1Char{' '}, QLatin1Char{'-'}));
    }
}

void readFigures(const MaterialDraft& draft, MaterialReading& reading, Material& into) {
    struct Figure {
        MaterialField field;
        const QString& typed;
        std::optional<Estimate>& into;
        const Limits& limits;
    };
    for (const Figure& figure :
         {Figure{MaterialField::moisture, draft.moisture, into.moisturePercent, percentage},
          Figure{MaterialField::carbonNitrogen, draft.carbonNitrogen, into.carbonNitrogen, ratio},
          Figure{MaterialField::nitrogen, draft.nitrogen, into.nitrogenPercent, percentage},
          Figure{MaterialField::bulk, draft.bulk, into.bulkDensity, density}}) {
        figure.into = estimateIn(figure.typed, figure.limits);
        if (!figure.into && !figure.typed.trimmed().isEmpty()) {
            reading.wrong[figure.field] = tr(figure.limits.words);
        }
    }
    const double carbon =
        into.nitrogenPercent && into.carbonNitrogen ? into.nitrogenPercent->typical * into.carbonNitrogen->typical : 0;
    if (carbon > 100) {
        reading.wrong[MaterialField::nitrogen] =
            tr("With that C:N more than all of the dry mass would be carbon (%1 %).").arg(words::number(carbon, 0));
    }
}

QString figureLine(const QString& name, const std::optional<Estimate>& figure, const QString& unit,
                   const QString& known) {
    const QString shown = figure ? typedFigure(figure) + unit : tr("not known");
    return QStringLiteral(
               "<tr><td style=\"padding-right:24px\">%1</td><td style=\"padding-right:24px\">%2</td>"
               "<td>%3</td></tr>")
        .arg(name, shown.toHtmlEscaped(), known.toHtmlEscaped());
}

QString paragraph(const QString& words) {
    return QStringLiteral("<p>%1</p>").arg(words.toHtmlEscaped());
}

}  // namespace

QString typedFigure(const std::optional<Estimate>& figure) {
    if (!figure) {
        return {};
    }
    const auto number = [](double value) { return words::localised(QString::number(value, 'g', 6).toStdString()); };
    if (!figure->spreadKnown || figure->within.low == figure->within.high) {
        return number(figure->typical);
    }
    return QStringLiteral("%1 (%2%3%4)")
        .arg(number(figure->typical), number(figure->within.low), QString{QChar{0x2013}}, number(figure->within.high));
}

MaterialDraft draftOf(const Material& material) {
    return {words::text(material.name),
            typedFigure(material.moisturePercent),
            typedFigure(material.carbonNitrogen),
            typedFigure(material.nitrogenPercent),
            typedFigure(material.bulkDensity),
            material.raw,
            material.isKitchenWaste(),
            material.ofTheGroup ? words::text(material.source) : QString{}};
}

MaterialReading readMaterial(const MaterialDraft& draft, const std::optional<Material>& changed, const Materials& all) {
    MaterialReading reading;
    Material material = changed.value_or(Material{});
    readName(draft, !changed, all, reading, material);
    readFigures(draft, reading, material);
    material.raw = draft.raw;
    if (draft.kitchen != material.isKitchenWaste() || material.group.empty()) {
        material.group = draft.kitchen ? "kitchen" : "garden";
    }
    QString source = draft.source.simplified();
    source = source.replace(QLatin1Char{';'}, QLatin1Char{','});
    material.source = source.isEmpty() ? "the group's own figures" : words::utf8(source);
    material.checked = "entered by the group";
    material.ofTheGroup = true;
    material.basis = "own";
    material.carbonNote.clear();
    const auto own = [](const auto& figure) { return figure ? std::optional{Known::own} : std::nullopt; };
    material.known = {own(material.nitrogenPercent), own(material.carbonNitrogen), own(material.moisturePercent),
                      own(material.bulkDensity)};
    if (reading.wrong.empty() && !material.name.empty()) {
        reading.material = material;
    }
    return reading;
}

QString materialPage(const Material& material, bool changedFromPrinted) {
    const QString percent = QStringLiteral(" %");
    const QString mark = !material.ofTheGroup ? QString{}
                         : changedFromPrinted ? tr("Changed in this book.")
                                              : tr("The group’s own.");
    const QString raw = material.raw ? tr("Raw: adding it starts the hours of a criterion again.")
                                     : tr("Not raw: a clean bulking agent, a finished heap or water.");
    const auto known = [&](MaterialFigure figure) { return knownWord(material, figure); };
    return QStringLiteral("<table>") +
           figureLine(tr("Moisture, of the wet mass"), material.moisturePercent, percent,
                      known(MaterialFigure::moisture)) +
           figureLine(tr("C:N"), material.carbonNitrogen, {}, known(MaterialFigure::carbonNitrogen)) +
           figureLine(tr("Nitrogen, of the dry mass"), material.nitrogenPercent, percent,
                      known(MaterialFigure::nitrogen)) +
           figureLine(tr("Weight of a cubic metre"), material.bulkDensity, QStringLiteral(" kg"),
                      known(MaterialFigure::bulk)) +
           QStringLiteral("</table>") + (mark.isEmpty() ? QString{} : paragraph(mark)) + paragraph(raw);
}

QString materialSource(const Material& material) {
    const Material* const one[] = {&material};
    const QString carbon = material.carbonNote.empty()
                               ? QString{}
                               : paragraph(tr("Its carbon is unusual: %1.").arg(words::text(material.carbonNote)));
    return paragraph(sourcesInWords(one)) + carbon;
}

}  // namespace midden::ui
