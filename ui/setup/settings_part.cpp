// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/settings_part.h"

#include <QComboBox>
#include <QLabel>

#include "core/quantities/zone.h"
#include "ui/shared/saved_line.h"
#include "ui/shared/typed.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString nameOf(const Setting& setting) {
    return QStringLiteral("setting_") + QString::fromUtf8(setting.name.data(), qsizetype(setting.name.size()));
}

QString unitName(SettingUnit unit) {
    switch (unit) {
        case SettingUnit::none:
            return {};
        case SettingUnit::celsius:
        case SettingUnit::kelvins:
            return QStringLiteral("°C");
        case SettingUnit::litres:
            return QStringLiteral("L");
        case SettingUnit::minutes:
            return SettingsPart::tr("min");
        case SettingUnit::hours:
            return QStringLiteral("h");
        case SettingUnit::days:
            return SettingsPart::tr("days");
    }
    return {};
}

Result<QString> zoneRead(const QString& typed) {
    const auto zone = TimeZone::named(typed.trimmed().toStdString());
    return zone ? Result<QString>{typed.trimmed()} : tl::unexpected{zone.error()};
}

/// Kept with a decimal point.
Result<QString> numberRead(const Setting& setting, const QString& typed) {
    const auto amount = readAmount(typed);
    if (!amount) {
        return tl::unexpected{amount.error()};
    }
    if (*amount < setting.least || *amount > setting.most) {
        const QString range =
            SettingsPart::tr("%1 to %2 %3").arg(setting.least).arg(setting.most).arg(unitName(setting.unit));
        return refused(SettingsPart::tr("“%1” is out of range").arg(typed).toStdString(), range.toStdString());
    }
    return QString::number(*amount, 'g', 8);
}

/// The text to keep, or what is wrong with what was typed.
Result<QString> readSetting(const Setting& setting, const QString& typed) {
    switch (setting.kind) {
        case SettingKind::zone:
            return zoneRead(typed);
        case SettingKind::number:
            return numberRead(setting, typed);
        default:
            return typed.trimmed();
    }
}

}  // namespace

SettingsPart::SettingsPart(Book& book, const QString& title, const QString& explanation, QWidget* parent)
    : SetupGrid{title, explanation, parent}, book_{book} {
    clear({});
    connect(&book, &Book::changed, this, &SettingsPart::refresh);
}

void SettingsPart::refresh() {
    for (const auto& fill : fillers_) {
        fill();
    }
}

void SettingsPart::add(const SettingLine& wanted) {
    const int row = nextRow();
    const Setting& setting = wanted.setting;
    const bool isNumber = setting.kind == SettingKind::number;
    QLabel* name = label(row, 0, wanted.label);
    const QString spoken = QString{wanted.label}.remove(QLatin1Char{'&'});
    SavedLine* value = line(row, 1, nameOf(setting), spoken, isNumber ? 8 : 40);
    name->setBuddy(value);
    label(row, 2, unitName(setting.unit));
    value->setReadOnly(book_.isReadOnly());
    connect(value, &SavedLine::typed, this, [this, value, spoken, &setting](const QString& typed) {
        const auto kept = readSetting(setting, typed);
        say(kept ? QString{} : tr("Not saved: %1.").arg(words::text(kept.error().sentence())));
        if (kept && book_.changeSetting(setting, *kept, spoken)) {
            value->setTaken();
            refresh();
        }
    });
    const QString otherwise =
        wanted.otherwise.isEmpty() ? words::text(std::string{setting.otherwise}) : wanted.otherwise;
    fillers_.emplace_back([this, value, isNumber, &setting, otherwise] {
        const QString kept = book_.setting(setting);
        const QString shown = kept.isEmpty() ? otherwise : kept;  // emptied by undo, or never set
        value->setStored(isNumber ? words::localised(shown.toStdString()) : shown);
    });
    fillers_.back()();
}

void SettingsPart::addChoice(const Setting& setting, const QString& label, const QStringList& kept,
                             const QStringList& shown) {
    const int row = nextRow();
    auto* choice = new QComboBox{this};
    choice->setObjectName(nameOf(setting));
    choice->setAccessibleName(QString{label}.remove(QLatin1Char{'&'}));
    choice->addItems(shown);
    choice->setEnabled(!book_.isReadOnly());
    this->label(row, 0, label)->setBuddy(choice);
    put(choice, row, 1);
    connect(choice, &QComboBox::activated, this, [this, choice, kept, &setting](int index) {
        book_.changeSetting(setting, kept.at(index), choice->accessibleName());
    });
    fillers_.emplace_back([this, choice, kept, &setting] {
        choice->setCurrentIndex(static_cast<int>(qMax(qsizetype{0}, kept.indexOf(book_.setting(setting)))));
    });
    fillers_.back()();
}

SettingsPart* makeBookPart(Book& book, QWidget* parent) {
    auto* part = new SettingsPart{book, SettingsPart::tr("This book"), {}, parent};
    part->add({setting::group, SettingsPart::tr("Name of the garden or group")});
    part->add({setting::who, SettingsPart::tr("Who types")});
    part->addChoice(setting::unit, SettingsPart::tr("Numbers typed without a unit are"),
                    {QStringLiteral("c"), QStringLiteral("f")}, {QStringLiteral("°C"), QStringLiteral("°F")});
    part->add({setting::zone, SettingsPart::tr("Time zone, such as Europe/London"), words::text(book.zone().name())});
    part->addChoice(
        setting::paper, SettingsPart::tr("Certificates are printed on"),
        {QString{}, QStringLiteral("a4"), QStringLiteral("letter")},
        {SettingsPart::tr("the paper usual in this country"), QStringLiteral("A4"), QStringLiteral("Letter")});
    return part;
}

SettingsPart* makeTargetPart(Book& book, QWidget* parent) {
    auto* part = new SettingsPart{
        book, SettingsPart::tr("Target of a batch"),
        SettingsPart::tr("55 °C kept for 72 h at every position is common practice, no source. With one reading a "
                         "day, 72 h take four: the time from one to the next is what counts."),
        parent};
    part->add({setting::targetTemperature, SettingsPart::tr("Kept at or above")});
    part->add({setting::targetHours, SettingsPart::tr("for, without a break")});
    return part;
}

SettingsPart* makeMeasuresPart(Book& book, QWidget* parent) {
    auto* part =
        new SettingsPart{book, SettingsPart::tr("Buckets and barrows"),
                         SettingsPart::tr("What yours hold when filled level, for amounts such as “2 buckets”. "
                                          "Bucket and barrow are common sizes, no source. Caddy and sack are those of "
                                          "Merseyside’s waste authority (merseysidewda.gov.uk/volume-to-kgs)."),
                         parent};
    part->add({setting::bucket, SettingsPart::tr("A bucket holds")});
    part->add({setting::barrow, SettingsPart::tr("A barrow holds")});
    part->add({setting::caddy, SettingsPart::tr("A kitchen caddy holds")});
    part->add({setting::sack, SettingsPart::tr("A sack holds")});
    return part;
}

SettingsPart* makeUnlikelyPart(Book& book, QWidget* parent) {
    auto* part = new SettingsPart{
        book, SettingsPart::tr("What the Round asks about"),
        SettingsPart::tr("Beyond these a number is saved all the same, and a question stands beside it. "
                         "Common practice, no source."),
        parent};
    part->add({setting::unlikelyJump, SettingsPart::tr("A jump since last time of more than")});
    part->add({setting::unlikelyBelowOutside, SettingsPart::tr("Colder than the air outside by more than")});
    part->add({setting::unlikelyAbove, SettingsPart::tr("Hotter than")});
    return part;
}

}  // namespace midden::ui
