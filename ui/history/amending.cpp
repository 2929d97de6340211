// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/amending.h"

#include <QCoreApplication>
#include <cmath>

#include "ui/shared/typed.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

std::string say(const char* words) {
    return QCoreApplication::translate("Entries", words).toStdString();
}

template <class Entry>
auto idOf(const Entry& entry) {
    if constexpr (requires { entry.id(); }) {
        return entry.id();
    } else {
        return entry.id;
    }
}

Result<Reading> withValue(Reading reading, const QString& text, TemperatureUnit unit) {
    const auto written = parseTemperature(words::utf8(text), unit);
    if (!written) {
        return tl::unexpected{written.error()};
    }
    reading.written = *written;
    return reading;
}

Result<Addition> withValue(Addition addition, QString text, TemperatureUnit /*unit*/) {
    const auto mass = readAmount(text.remove(QStringLiteral("kg")).trimmed());
    if (!mass) {
        return tl::unexpected{mass.error()};
    }
    addition.massKilograms = *mass;
    return addition;
}

Result<Harvest> withValue(Harvest harvest, QString text, TemperatureUnit /*unit*/) {
    const auto litres = readAmount(text.remove(QStringLiteral("L")).trimmed());
    if (!litres) {
        return tl::unexpected{litres.error()};
    }
    harvest.volumeLitres = *litres;
    return harvest;
}

template <class Entry>
Result<Entry> withValue(const Entry& /*entry*/, const QString& /*text*/, TemperatureUnit /*unit*/) {
    return refused(say("This entry has no number to amend"));
}

template <class Entry>
Result<Entry> amended(Entry entry, EntryField field, const QString& text, const TypingHabits& habits) {
    if (field == EntryField::note) {
        entry.note = words::utf8(text.trimmed());
        return entry;
    }
    if (field == EntryField::value) {
        return withValue(std::move(entry), text, habits.unit);
    }
    const auto moment = readMoment(text, habits.zone, habits.now);
    if (!moment) {
        return tl::unexpected{moment.error()};
    }
    entry.when = *moment;
    return entry;
}

}  // namespace

Result<Edit> amendmentOf(const EntryRow& row, EntryField field, const QString& text, const TypingHabits& habits) {
    return std::visit(
        [&](const auto& entry) -> Result<Edit> {
            using Entry = std::decay_t<decltype(entry)>;
            if constexpr (std::is_same_v<Entry, Amendment>) {
                return refused(say("An amendment cannot be amended"));
            } else {
                const auto better = amended(entry, field, text, habits);
                if (!better) {
                    return tl::unexpected{better.error()};
                }
                return Edit{Amend<Entry>{idOf(entry), *better, {}}};
            }
        },
        row.entry);
}

Edit withWhy(Edit edit, const QString& why) {
    std::visit(
        [&](auto& one) {
            if constexpr (requires { one.why; }) {
                one.why = words::utf8(why.trimmed());
            }
        },
        edit);
    return edit;
}

std::optional<Edit> withdrawalOf(const EntryRow& row, const QString& why) {
    return std::visit(
        [&](const auto& entry) -> std::optional<Edit> {
            using Entry = std::decay_t<decltype(entry)>;
            if constexpr (std::is_same_v<Entry, Amendment>) {
                return std::nullopt;
            } else {
                return Edit{Withdraw<Entry>{idOf(entry), words::utf8(why.trimmed())}};
            }
        },
        row.entry);
}

}  // namespace midden::ui
