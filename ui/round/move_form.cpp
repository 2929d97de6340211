// SPDX-License-Identifier: GPL-3.0-or-later
// Turning a batch into another bin.
#include <QComboBox>
#include <QCoreApplication>
#include <QLineEdit>
#include <algorithm>

#include "ui/round/batch_forms.h"
#include "ui/round/safety_line.h"
#include "ui/round/takeover.h"
#include "ui/shared/inline_form.h"
#include "ui/shared/typed.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("forms", source);
}

struct Offer {
    Bin bin;
    std::optional<Batch> holds;
};

struct MoveFields {
    QComboBox* where = nullptr;
    QLineEdit* when = nullptr;
    std::vector<Offer> offers;
};

/// Empty bins first.
std::vector<Offer> otherBins(const FormTarget& target) {
    const Logbook& logbook = target.book.log();
    std::vector<Offer> others;
    for (const Bin& bin : logbook.bins()) {
        if (!bin.retired && bin.id != target.batch->stays.back().bin) {
            others.push_back({bin, runningIn(logbook, bin.id, target.when.at)});
        }
    }
    std::ranges::stable_partition(others, [](const Offer& offer) { return !offer.holds; });
    return others;
}

QString inWords(const Offer& offer) {
    const QString bin = words::text(offer.bin.name);
    return offer.holds ? tr("%1 – holds %2").arg(bin, words::text(offer.holds->name)) : tr("%1 – empty").arg(bin);
}

/// When, and into which bin: as it stands in the fields.
struct Move {
    Moment when;
    Bin bin;
    std::optional<Batch> leaving;
};

Result<Move> typedIn(const FormTarget& target, const MoveFields& fields) {
    const auto typed = readMoment(fields.when->text(), target.book.zone(), target.book.now());
    if (!typed) {
        return tl::unexpected{typed.error()};
    }
    const Logbook& logbook = target.book.log();
    const Bin& bin = fields.offers.at(static_cast<std::size_t>(fields.where->currentIndex())).bin;
    const Moment when = behindReadings(logbook, {target.batch->id, logbook.occupant(bin.id, typed->at)}, *typed);
    return Move{when, bin, runningIn(logbook, bin.id, when.at)};
}

/// Readings of the bin the batch left would be nobody's.
QString readAfterwards(const FormTarget& target, Moment when) {
    const auto later = target.book.log().readings(target.batch->id, {when.at, Instant{INT64_MAX}}, false, 1);
    return later.empty()
               ? QString{}
               : tr("Moved: %1 was read where it stands on %2, and cannot have left before that.")
                     .arg(words::text(target.batch->name), words::dayAndTime(later.front().when, target.book.now()));
}

QString move(const FormTarget& target, const MoveFields& fields) {
    if (fields.offers.empty()) {
        return tr("There is no other bin yet; add one in Setup.");
    }
    const auto wanted = typedIn(target, fields);
    if (!wanted) {
        return tr("Moved: %1.").arg(words::text(wanted.error().sentence()));
    }
    if (wanted->when.at <= stoodSince(*target.batch)) {
        return tr("Moved: the batch came to where it stands later than that.");
    }
    if (const QString later = readAfterwards(target, wanted->when); !later.isEmpty()) {
        return later;
    }
    Batch batch = *target.batch;
    batch.stays.push_back({wanted->when.at, wanted->bin.id});
    const QString label = tr("batch %1 moved to %2").arg(words::text(batch.name), words::text(wanted->bin.name));
    const bool done = target.book.changeTogether(label, [&](const Book::Apply& apply) {
        apply(Amend<Batch>{batch.id, batch, {}});
        apply(Put<Aeration>{{.batch = batch.id, .when = wanted->when, .kind = AerationKind::turned}});
    });
    return done ? QString{} : tr("Nothing was saved.");
}

Question leaves(const FormTarget& target, const MoveFields& fields) {
    const auto wanted = fields.offers.empty() ? Result<Move>{Move{}} : typedIn(target, fields);
    return wanted && wanted->leaving && wanted->leaving->id != target.batch->id
               ? takeoverQuestion(target.book, tr("“%1”").arg(words::text(target.batch->name)), *wanted->leaving,
                                  wanted->bin, wanted->when)
               : Question{};
}

}  // namespace

InlineForm* makeMoveForm(const FormTarget& target, QWidget* parent) {
    MoveFields fields;
    fields.offers = otherBins(target);
    QStringList names;
    for (const Offer& offer : fields.offers) {
        names << inWords(offer);
    }
    auto* form = new InlineForm{tr("Turn %1 into another bin").arg(words::text(target.batch->name)),
                                tr("Move the batch"), parent};
    form->setObjectName(QStringLiteral("moveForm"));
    fields.where = form->addChoice("moveBin", tr("&To"), names);
    fields.when = form->addLine("moveWhen", tr("&Moved"), 24);
    fields.when->setText(typedForm(target.when));
    const SafetyLine caution = safetyLineFor(Act::turning);
    form->addNote(tr("The move is entered as a turning too. %1").arg(caution.words), caution.source);
    form->onAsk([target, fields] { return leaves(target, fields); });
    form->onSave([target, fields] { return move(target, fields); });
    return form;
}

}  // namespace midden::ui
