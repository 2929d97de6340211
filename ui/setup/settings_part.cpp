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

Result<QString> anyText(const QString& typed) {
    return typed.trimmed();
}

Result<QString> zoneName(const QString& typed) {
    const auto zone = TimeZone::named(typed.trimmed().toStdString());
    return zone ? Result<QString>{typed.trimmed()} : tl::unexpected{zone.error()};
}

}  // namespace

/// Kept with a decimal point.
std::function<Result<QString>(const QString&)> numberBetween(double least, double most, const QString& range) {
    return [=](const QString& typed) -> Result<QString> {
        const auto amount = readAmount(typed);
        if (!amount) {
            return tl::unexpected{amount.error()};
        }
        if (*amount < least || *amount > most) {
            return refused(SettingsPart::tr("“%1” is out of range").arg(typed).toStdString(), range.toStdString());
        }
        return QString::number(*amount, 'g', 8);
    };
}

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

void SettingsPart::add(const SettingLine& setting) {
    const int row = nextRow();
    QLabel* name = label(row, 0, setting.label);
    QString spoken = setting.label;
    SavedLine* value = line(row, 1, QStringLiteral("setting_") + QLatin1String{setting.name},
                            spoken.remove(QLatin1Char{'&'}), setting.characters);
    name->setBuddy(value);
    label(row, 2, setting.unit);
    value->setReadOnly(book_.isReadOnly());
    connect(value, &SavedLine::typed, this, [this, value, setting](const QString& typed) {
        const auto kept = setting.read(typed);
        say(kept ? QString{} : tr("Not saved: %1.").arg(words::text(kept.error().sentence())));
        if (kept && book_.changeSetting(setting.name, *kept, QString{setting.label}.remove(QLatin1Char{'&'}))) {
            value->setTaken();
            refresh();
        }
    });
    fillers_.emplace_back([this, value, setting] {
        const QString kept = book_.setting(setting.name);
        const QString shown = kept.isEmpty() ? setting.otherwise : kept;
        value->setStored(setting.unit.isEmpty() ? shown : words::localised(shown.toStdString()));
    });
    fillers_.back()();
}

void SettingsPart::addChoice(const char* name, const QString& label, const QStringList& kept,
                             const QStringList& shown) {
    const int row = nextRow();
    auto* choice = new QComboBox{this};
    choice->setObjectName(QStringLiteral("setting_") + QLatin1String{name});
    choice->setAccessibleName(QString{label}.remove(QLatin1Char{'&'}));
    choice->addItems(shown);
    choice->setEnabled(!book_.isReadOnly());
    this->label(row, 0, label)->setBuddy(choice);
    put(choice, row, 1);
    connect(choice, &QComboBox::activated, this, [this, choice, name, kept](int index) {
        book_.changeSetting(name, kept.at(index), choice->accessibleName());
    });
    fillers_.emplace_back([this, choice, name, kept] {
        choice->setCurrentIndex(static_cast<int>(qMax(qsizetype{0}, kept.indexOf(book_.setting(name)))));
    });
    fillers_.back()();
}

SettingsPart* makeBookPart(Book& book, QWidget* parent) {
    auto* part = new SettingsPart{book, SettingsPart::tr("This book"), {}, parent};
    part->add({"group", SettingsPart::tr("Name of the garden or group"), 32, {}, {}, anyText});
    part->add({"who", SettingsPart::tr("Who types"), 32, {}, {}, anyText});
    part->addChoice("unit", SettingsPart::tr("Numbers typed without a unit are"),
                    {QStringLiteral("c"), QStringLiteral("f")}, {QStringLiteral("°C"), QStringLiteral("°F")});
    part->add({"zone",
               SettingsPart::tr("Time zone, such as Europe/London"),
               32,
               words::text(book.zone().name()),
               {},
               zoneName});
    part->addChoice(
        "paper", SettingsPart::tr("Certificates are printed on"),
        {QString{}, QStringLiteral("a4"), QStringLiteral("letter")},
        {SettingsPart::tr("the paper usual in this country"), QStringLiteral("A4"), QStringLiteral("Letter")});
    return part;
}

SettingsPart* makeTargetPart(Book& book, QWidget* parent) {
    auto* part = new SettingsPart{
        book, SettingsPart::tr("Target of a batch"),
        SettingsPart::tr("55 °C kept for 72 h at every position is common practice, no source."), parent};
    part->add({"target_celsius", SettingsPart::tr("Kept at or above"), 8, QStringLiteral("55"), QStringLiteral("°C"),
               numberBetween(30, 90, SettingsPart::tr("30 to 90 °C"))});
    part->add({"target_hours", SettingsPart::tr("for, without a break"), 8, QStringLiteral("72"), QStringLiteral("h"),
               numberBetween(1, 2'000, SettingsPart::tr("1 to 2000 hours"))});
    return part;
}

SettingsPart* makeMeasuresPart(Book& book, QWidget* parent) {
    auto* part =
        new SettingsPart{book, SettingsPart::tr("Buckets and barrows"),
                         SettingsPart::tr("What yours hold when filled level, for amounts such as “2 buckets”. "
                                          "The figures given are common sizes, no source."),
                         parent};
    part->add({"bucket_litres", SettingsPart::tr("A bucket holds"), 8, QStringLiteral("10"), QStringLiteral("L"),
               numberBetween(1, 100, SettingsPart::tr("1 to 100 litres"))});
    part->add({"barrow_litres", SettingsPart::tr("A barrow holds"), 8, QStringLiteral("85"), QStringLiteral("L"),
               numberBetween(10, 500, SettingsPart::tr("10 to 500 litres"))});
    return part;
}

SettingsPart* makeUnlikelyPart(Book& book, QWidget* parent) {
    auto* part = new SettingsPart{
        book, SettingsPart::tr("What the Round asks about"),
        SettingsPart::tr("Beyond these a number is saved all the same, and a question stands beside it. "
                         "Common practice, no source."),
        parent};
    part->add({"unlikely_jump", SettingsPart::tr("A jump since last time of more than"), 8, QStringLiteral("25"),
               QStringLiteral("°C"), numberBetween(1, 100, SettingsPart::tr("1 to 100 °C"))});
    part->add({"unlikely_below_outside", SettingsPart::tr("Colder than the air outside by more than"), 8,
               QStringLiteral("5"), QStringLiteral("°C"), numberBetween(0, 50, SettingsPart::tr("0 to 50 °C"))});
    part->add({"unlikely_above", SettingsPart::tr("Hotter than"), 8, QStringLiteral("80"), QStringLiteral("°C"),
               numberBetween(40, 150, SettingsPart::tr("40 to 150 °C"))});
    return part;
}

}  // namespace midden::ui
