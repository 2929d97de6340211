// SPDX-License-Identifier: GPL-3.0-or-later
// What is written down once the heat is over: curing, its tests, and screening, each with its date.
#include <QComboBox>
#include <QCoreApplication>
#include <QLineEdit>
#include <array>

#include "ui/round/batch_forms.h"
#include "ui/shared/inline_form.h"
#include "ui/shared/typed.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("forms", source);
}

constexpr std::array kinds{ObservationKind::curing, ObservationKind::selfHeating, ObservationKind::seedTest,
                           ObservationKind::screening};

struct RipeningFields {
    QComboBox* what = nullptr;
    QLineEdit* when = nullptr;
    QLineEdit* result = nullptr;
};

QString enter(const FormTarget& target, const RipeningFields& fields) {
    const auto when = readMoment(fields.when->text(), target.book.zone(), target.book.now());
    if (!when) {
        return tr("On: %1.").arg(words::text(when.error().sentence()));
    }
    Observation entry{.batch = target.batch->id, .when = *when};
    entry.kind = kinds.at(static_cast<std::size_t>(fields.what->currentIndex()));
    entry.value = words::utf8(fields.result->text().trimmed());
    const bool isTest = entry.kind == ObservationKind::selfHeating || entry.kind == ObservationKind::seedTest;
    if (isTest && entry.value.empty()) {
        return tr("Write down what came of the test.");
    }
    const QString label = QStringLiteral("%1, %2").arg(words::text(target.batch->name), fields.what->currentText());
    return target.book.change(Put<Observation>{entry}, label) ? QString{} : tr("Nothing was saved.");
}

}  // namespace

InlineForm* makeRipeningForm(const FormTarget& target, QWidget* parent) {
    auto* form = new InlineForm{tr("Curing and tests of %1").arg(words::text(target.batch->name)), tr("Save"), parent};
    form->setObjectName(QStringLiteral("ripeningForm"));
    RipeningFields fields;
    fields.what = form->addChoice("ripeningWhat", tr("&What"),
                                  {tr("curing begins"), tr("self-heating test"), tr("seed test"), tr("screened")});
    fields.when = form->addLine("ripeningWhen", tr("&On"), 24);
    fields.when->setText(typedForm(target.when));
    fields.result = form->addLine("ripeningResult", tr("&Result"), 36);
    fields.result->setPlaceholderText(tr("such as: 27 °C at most in a room of 20 °C; 8 of 10 came up"));
    form->addNote(tr("Curing is your own word: say it when turning no longer heats it. One seed test alone does not "
                     "show that compost is mature."),
                  tr("Curing below 40 °C without re-heating on turning: by handbook, from memory, unverified. Seed "
                     "tests found too insensitive in a comparison: abstract, scilit.net/publications/a1a0befd."));
    form->onSave([target, fields] { return enter(target, fields); });
    return form;
}

}  // namespace midden::ui
