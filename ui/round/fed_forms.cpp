// SPDX-License-Identifier: GPL-3.0-or-later
// What is done with a bin that is fed on top and emptied at the base.
#include <QComboBox>
#include <QCoreApplication>
#include <QLabel>
#include <QLineEdit>

#include "core/exchange/csv/cells.h"
#include "core/store/read/book_rules.h"
#include "ui/round/batch_forms.h"
#include "ui/round/harvest_preview.h"
#include "ui/round/safety_line.h"
#include "ui/round/takeover.h"
#include "ui/round/typed_level.h"
#include "ui/shared/inline_form.h"
#include "ui/shared/tone.h"
#include "ui/shared/typed.h"
#include "ui/shared/typed_addition.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("forms", source);
}

QString enterForked(const FormTarget& target, const QString& typed) {
    Aeration entry{.batch = target.batch->id, .when = target.when, .kind = AerationKind::forked};
    if (const QString text = typed.trimmed(); !text.isEmpty()) {
        const auto depth = parseDecimal(words::utf8(text));
        if (!depth || *depth <= 0 || *depth > depthRange.most) {
            return tr("How deep: write centimetres, such as 40.");
        }
        entry.depthCentimetres = *depth;
    }
    return outcome(target.book.change(Put<Aeration>{entry}, tr("%1, forked").arg(nameOf(target))));
}

/// The surface is measured once the harvest is out.
constexpr Seconds afterHarvest{1};

QString enterHarvest(const FormTarget& target, const QString& amount, const QString& surface) {
    const auto litres = readLitres(amount, measuresOf(target.book));
    if (!litres || *litres <= 0) {
        return tr("Say how much was taken out, such as 20 L or 2 buckets.");
    }
    if (target.bin && target.bin->volumeLitres && *litres > 1.5 * *target.bin->volumeLitres) {
        return tr("%1 L is far more than the bin holds.").arg(words::number(*litres, 0));
    }
    const auto level = readLevel(surface, target.bin);
    if (!level) {
        return tr("Surface: %1.").arg(words::text(level.error().sentence()));
    }
    if (!hasFeedBy(target.book.log(), target.batch->id, target.when.at)) {
        return tr("Nothing was fed before that, so there is nothing to take out.");
    }
    const QString label = tr("%1 L taken out of %2").arg(words::number(*litres, 1), nameOf(target));
    return outcome(target.book.changeTogether(label, [&](const Book::Apply& apply) {
        apply(Put<Harvest>{{.batch = target.batch->id, .when = target.when, .volumeLitres = *litres}});
        if (*level) {
            Moment after = target.when;
            after.at = after.at + afterHarvest;
            apply(Put<Observation>{levelEntry(target.batch->id, after, **level)});
        }
    }));
}

struct RestFields {
    QLineEdit* batch = nullptr;
    QLineEdit* material = nullptr;
    QLineEdit* amount = nullptr;
};

QString freeRestName(const Logbook& logbook, const Batch& fed) {
    const QString plain = tr("%1, rested").arg(words::text(fed.name));
    QString name = plain;
    for (int n = 2; logbook.batchNamed(words::utf8(name)); ++n) {
        name = plain + QStringLiteral(" (%1)").arg(n);
    }
    return name;
}

QString rest(const FormTarget& target, const RestFields& fields) {
    Book& book = target.book;
    const QString name = fields.batch->text().trimmed();
    if (name.isEmpty()) {
        return tr("Give the rested batch a name.");
    }
    if (book.log().batchNamed(words::utf8(name))) {
        return tr("There is a batch called %1 already.").arg(name);
    }
    ReadLine fresh;
    if (!fields.amount->text().trimmed().isEmpty()) {
        fresh = readLine({fields.material->text(), fields.amount->text()}, measuresOf(book), materialsOf(book.log()));
        if (!fresh.addition) {
            return fresh.remark;
        }
    }
    const Moment when = behindReadings(book.log(), {target.batch->id}, target.when);
    return outcome(book.changeTogether(tr("%1 rests").arg(nameOf(target)), [&](const Book::Apply& apply) {
        const Applied made =
            apply(Put<Batch>{{.name = words::utf8(name),
                              .started = when,
                              .startGiven = true,
                              .stays = {{when.at, target.bin->id}},
                              .note = words::utf8(tr("Rested: it was fed as %1.").arg(nameOf(target)))}});
        const BatchId batch = std::get<BatchId>(made.id);
        if (fresh.addition) {
            fresh.addition->batch = batch;
            fresh.addition->when = when;
            apply(Put<Addition>{*fresh.addition});
        }
        apply(Put<Aeration>{{.batch = batch, .when = when, .kind = AerationKind::turned}});
    }));
}

}  // namespace

InlineForm* makeForkedForm(const FormTarget& target, QWidget* parent) {
    auto* form = new InlineForm{tr("Forked %1").arg(nameOf(target)), tr("Save"), parent};
    form->setObjectName(QStringLiteral("forkedForm"));
    auto* depth = form->addLine("forkedDepth", tr("How dee&p from the surface, cm"), 8);
    depth->setPlaceholderText(tr("all of it"));
    const SafetyLine caution = safetyLineFor(Act::turning);
    form->addNote(tr("What was mixed counts from then on with the fewest hours of any of it. %1").arg(caution.words),
                  caution.source);
    form->onSave([target, depth] { return enterForked(target, depth->text()); });
    return form;
}

InlineForm* makeHarvestForm(const FormTarget& target, QWidget* parent) {
    auto* form = new InlineForm{tr("Harvest of %1").arg(nameOf(target)), tr("Save"), parent};
    form->setObjectName(QStringLiteral("harvestForm"));
    auto* amount = form->addLine("harvestAmount", tr("How m&uch"), 16);
    amount->setPlaceholderText(tr("20 L or 2 buckets"));
    auto* level = form->addLine("harvestLevel", levelLabel(target.bin), 6);
    level->setPlaceholderText(tr("if measured"));
    auto* told = form->addWarning("harvestTold");
    setTone(*told, Tone::plain);
    auto* preview = new HarvestPreview{target, form};
    const auto tell = [target, amount, told, preview] {
        const auto litres = readLitres(amount->text(), measuresOf(target.book));
        const QString words = litres && *litres > 0 ? preview->words(*litres) : QString{};
        told->setText(words);
        told->setVisible(!words.isEmpty());
    };
    QObject::connect(amount, &QLineEdit::textChanged, form, tell);
    QObject::connect(preview, &HarvestPreview::known, form, tell);
    const SafetyLine caution = safetyLineFor(Act::takingOut);
    form->addNote(
        tr("Measure the surface once it is out. This is a reckoning from what was read, and no published figure "
           "is claimed. %1")
            .arg(caution.words),
        caution.source);
    form->onSave([target, amount, level] { return enterHarvest(target, amount->text(), level->text()); });
    return form;
}

InlineForm* makeRestForm(const FormTarget& target, QWidget* parent) {
    auto* form = new InlineForm{tr("Rest %1").arg(nameOf(target)), tr("Begin the rest"), parent};
    form->setObjectName(QStringLiteral("restForm"));
    auto* asked = form->addWarning("restAsked");
    asked->setText(
        tr("A fed bin never ends a hold, since every feed is raw. To show one: stop feeding, mix in about 10 "
           "kg of fresh waste, turn all of it, and from then on read every place at least once a day. It "
           "goes on as a batch of its own, whose hold counts from the first reading after the turning."));
    asked->setVisible(true);
    setTone(*asked, Tone::quiet);
    RestFields fields;
    fields.batch = form->addLine("restBatch", tr("Batc&h"), 28);
    fields.batch->setText(freeRestName(target.book.log(), *target.batch));
    fields.material = form->addLine("restMaterial", tr("Fresh &material mixed in"), 20);
    fields.material->setText(tr("kitchen scraps"));
    fields.amount = form->addLine("restAmount", tr("How m&uch"), 12);
    fields.amount->setPlaceholderText(tr("about 10 kg"));
    const SafetyLine caution = safetyLineFor(Act::turning);
    form->addNote(tr("The turning is entered too. %1").arg(caution.words), caution.source);
    form->onSave([target, fields] { return rest(target, fields); });
    return form;
}

InlineForm* makeFeedingForm(const FormTarget& target, QWidget* parent) {
    auto* form = new InlineForm{tr("How %1 is kept").arg(nameOf(target)), tr("Save"), parent};
    form->setObjectName(QStringLiteral("feedingForm"));
    auto* how = form->addChoice("feedingHow", tr("It &is"),
                                {tr("filled once, or within a few days"), tr("fed on top, emptied at the base")});
    how->setCurrentIndex(target.batch->fed ? 1 : 0);
    form->addNote(tr("A filled batch is judged as a whole. A fed one is reckoned by layers: how long what lies at the "
                     "base was hot, at least."),
                  {});
    form->onSave([target, how] {
        Batch batch = *target.batch;
        batch.fed = how->currentIndex() == 1;
        const QString label = batch.fed ? tr("%1 is fed").arg(nameOf(target)) : tr("%1 is filled").arg(nameOf(target));
        return batch.fed == target.batch->fed ? QString{}
                                              : outcome(target.book.change(Amend<Batch>{batch.id, batch, {}}, label));
    });
    return form;
}

}  // namespace midden::ui
