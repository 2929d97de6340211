// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/probes_part.h"

#include <cmath>

#include "ui/shared/saved_line.h"
#include "ui/shared/typed.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString accuracyText(const std::optional<Kelvins>& accuracy) {
    return accuracy ? words::localised(rounded(*accuracy, 1)) : QString{};
}

QString named(const char* cell, ProbeId probe) {
    return QStringLiteral("%1_%2").arg(QLatin1String{cell}).arg(static_cast<qlonglong>(probe));
}

/// An accuracy a thermometer may state: more than nothing, at most 20 °C.
Result<std::optional<Kelvins>> readAccuracy(const QString& typed) {
    if (typed.trimmed().isEmpty()) {
        return std::optional<Kelvins>{};
    }
    const auto amount = readAmount(typed);
    if (!amount) {
        return tl::unexpected{amount.error()};
    }
    if (*amount <= 0 || *amount > 20) {
        return refused(ProbesPart::tr("no thermometer states that").toStdString(),
                       ProbesPart::tr("more than 0 and at most 20 °C").toStdString());
    }
    return std::optional{Kelvins::ofTenThousandths(std::llround(*amount * 10'000))};
}

}  // namespace

ProbesPart::ProbesPart(Book& book, QWidget* parent)
    : SetupGrid{tr("Probes"),
                tr("Your thermometers. The accuracy is the one stated by the maker; unknown counts as ± 1.0 °C."),
                parent},
      book_{book} {
    connect(&book, &Book::changed, this, &ProbesPart::refresh);
    refresh();
}

void ProbesPart::refresh() {
    const std::vector<Probe> probes = book_.log().probes();
    QString shape;
    for (const Probe& probe : probes) {
        shape += QStringLiteral("%1|").arg(static_cast<qlonglong>(probe.id));
    }
    remake(shape, {tr("name"), tr("accuracy, ± °C")}, [&] {
        fillers_.clear();
        for (const Probe& probe : probes) {
            addRow(probe);
        }
        addNew();
    });
    for (std::size_t i = 0; i < probes.size(); ++i) {
        fillers_[i](probes[i]);
    }
}

void ProbesPart::addRow(const Probe& probe) {
    const int row = nextRow();
    const QString called = words::text(probe.name);
    SavedLine* name = line(row, 0, named("probeName", probe.id), tr("Name of probe %1").arg(called), 20);
    SavedLine* accuracy = line(row, 1, named("probeAccuracy", probe.id), tr("Accuracy of %1").arg(called), 10);
    accuracy->setAlignment(Qt::AlignRight);
    name->setReadOnly(book_.isReadOnly());
    accuracy->setReadOnly(book_.isReadOnly());
    connect(name, &SavedLine::typed, this, [this, name, id = probe.id](const QString& typed) {
        say(typed.trimmed().isEmpty() ? tr("A probe needs a name.") : QString{});
        if (!typed.trimmed().isEmpty() && amend(id, [&](Probe& p) { p.name = words::utf8(typed.trimmed()); })) {
            name->setTaken();
        }
    });
    connect(accuracy, &SavedLine::typed, this, [this, accuracy, id = probe.id](const QString& typed) {
        const auto read = readAccuracy(typed);
        say(read ? QString{} : tr("Not saved: %1.").arg(words::text(read.error().sentence())));
        if (read && amend(id, [&](Probe& p) { p.accuracy = *read; })) {
            accuracy->setTaken();
        }
    });
    fillers_.emplace_back([name, accuracy](const Probe& now) {
        name->setStored(words::text(now.name));
        accuracy->setStored(accuracyText(now.accuracy));
    });
}

void ProbesPart::addNew() {
    SavedLine* added =
        newLine(nextRow(), 0, QStringLiteral("newProbe"), tr("Name of a new probe"), [this](const QString& name) {
            return book_.change(Put<Probe>{{.name = words::utf8(name)}}, tr("probe %1").arg(name));
        });
    added->setPlaceholderText(tr("new probe"));
    added->setReadOnly(book_.isReadOnly());
}

bool ProbesPart::amend(ProbeId id, const std::function<void(Probe&)>& how) {
    for (Probe probe : book_.log().probes()) {
        if (probe.id == id) {
            how(probe);
            return book_.change(Amend<Probe>{id, probe, {}}, tr("probe %1").arg(words::text(probe.name)));
        }
    }
    return false;
}

}  // namespace midden::ui
