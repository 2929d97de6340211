// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/probe_checks.h"

#include <QEvent>
#include <QGridLayout>
#include <QLabel>
#include <QPointer>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>
#include <utility>

#include "core/store/read/book_rules.h"
#include "ui/history/withdraw_bar.h"
#include "ui/setup/check_form.h"
#include "ui/setup/check_words.h"
#include "ui/shared/flow_layout.h"
#include "ui/shared/kept_typing.h"
#include "ui/shared/tone.h"
#include "ui/shared/typed.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QLabel* sentence(QWidget* parent, const QString& name) {
    auto* label = new QLabel{parent};
    label->setObjectName(name);
    label->setWordWrap(true);
    return label;
}

void fill(QLabel* label, const QString& words) {
    label->setText(words);
    label->setAccessibleName(words);
    label->setVisible(!words.isEmpty());
}

checks::Telling tellingOf(const Book& book) {
    const bool fahrenheit = unitOf(book.log()) == TemperatureUnit::fahrenheit;
    return {fahrenheit ? TemperatureUnit::fahrenheit : TemperatureUnit::celsius, book.zone(), book.now()};
}

QString kindWords(const ThermometerCheck& check) {
    if (check.kind == CheckKind::ice) {
        return ProbeChecks::tr("ice");
    }
    return check.pressureHectopascals
               ? ProbeChecks::tr("boiling water at %1 hPa").arg(words::number(*check.pressureHectopascals, 0))
               : ProbeChecks::tr("boiling water at %1 m").arg(words::number(check.altitudeMetres.value_or(0), 0));
}

}  // namespace

ProbeChecks::ProbeChecks(Book& book, ProbeId probe, QWidget* parent)
    : QWidget{parent},
      book_{book},
      id_{probe},
      column_{new QVBoxLayout{this}},
      name_{new QLabel{this}},
      state_{sentence(this, QStringLiteral("checkState"))},
      drift_{sentence(this, QStringLiteral("checkDrift"))},
      overdue_{sentence(this, QStringLiteral("checkOverdue"))},
      ice_{addButton(tr("Check in ice…"), QStringLiteral("checkInIce"))},
      boiling_{addButton(tr("Check in boiling water…"), QStringLiteral("checkInBoiling"))},
      bar_{new WithdrawBar{this}} {
    layOut();
    connect(ice_, &QPushButton::clicked, this, [this] {
        if (const auto now = this->probe()) {
            begin(new CheckForm{book_, *now, CheckKind::ice, this}, ice_);
        }
    });
    connect(boiling_, &QPushButton::clicked, this, [this] {
        if (const auto now = this->probe()) {
            begin(new CheckForm{book_, *now, CheckKind::boiling, this}, boiling_);
        }
    });
    connect(bar_, &WithdrawBar::withdrawn, this, [this](const QString& why) {
        const auto now = this->probe();
        book_.change(Withdraw<ThermometerCheck>{leaving_, words::utf8(why.trimmed())},
                     tr("check of %1 withdrawn").arg(now ? words::text(now->name) : QString{}));
        ice_->setFocus();
    });
    connect(bar_, &WithdrawBar::kept, this, [this] { ice_->setFocus(); });
    refresh();
}

QPushButton* ProbeChecks::addButton(const QString& words, const QString& name) {
    auto* made = new QPushButton{words, this};
    made->setObjectName(QStringLiteral("%1_%2").arg(name).arg(static_cast<qlonglong>(id_)));
    made->setAutoDefault(true);
    made->setEnabled(!book_.isReadOnly());
    return made;
}

void ProbeChecks::layOut() {
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(8);
    buttons->addWidget(ice_);
    buttons->addWidget(boiling_);
    buttons->addStretch();
    name_->setTextFormat(Qt::RichText);
    name_->setWordWrap(true);
    column_->setContentsMargins(0, 0, 0, 8);
    column_->setSpacing(4);
    for (QLabel* label : {name_, state_, drift_, overdue_}) {
        column_->addWidget(label);
    }
    column_->addSpacing(4);
    column_->addLayout(buttons);
    column_->addWidget(bar_);
    drift_->setForegroundRole(QPalette::PlaceholderText);
    overdue_->setToolTip(checks::overdueSource());
}

std::optional<Probe> ProbeChecks::probe() const {
    for (const Probe& probe : book_.log().probes()) {
        if (probe.id == id_) {
            return probe;
        }
    }
    return std::nullopt;
}

void ProbeChecks::refresh() {
    const auto now = probe();
    if (!now) {
        return;  // about to be taken away
    }
    auto all = book_.log().checks(id_);
    std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.when.at > b.when.at; });
    fillState(*now, all);
    fillPast(all);
}

void ProbeChecks::fillState(const Probe& probe, const std::vector<ThermometerCheck>& all) {
    const checks::Telling telling = tellingOf(book_);
    const QString name = words::text(probe.name);
    const QString accuracy = probe.accuracy
                                 ? tr("stated accuracy ± %1 °C").arg(words::localised(rounded(*probe.accuracy, 1)))
                                 : tr("accuracy not stated, taken as ± 1.0 °C");
    name_->setText(QStringLiteral("<b>%1</b>, %2").arg(name.toHtmlEscaped(), accuracy));
    name_->setAccessibleName(QStringLiteral("%1, %2").arg(name, accuracy));
    ice_->setAccessibleName(tr("Check %1 in ice").arg(name));
    boiling_->setAccessibleName(tr("Check %1 in boiling water").arg(name));
    fill(state_, checks::stateWords(all, telling));
    fill(drift_, checks::driftWords(all, telling));
    fill(overdue_, checks::overdueWords(all, telling));
    setTone(*overdue_, Tone::question);
}

void ProbeChecks::fillPast(const std::vector<ThermometerCheck>& all) {
    QWidget* old = std::exchange(past_, nullptr);
    const KeptTyping typing{old};
    if (!all.empty()) {
        addPast(all);
        typing.goOnIn(*past_);
    }
    if (old == nullptr) {
        return;
    }
    if (old->isAncestorOf(window()->focusWidget())) {
        ice_->setFocus(Qt::OtherFocusReason);
    }
    old->hide();
    old->setParent(nullptr);
    old->deleteLater();  // one of its buttons may be what asked for this
}

void ProbeChecks::addPast(const std::vector<ThermometerCheck>& all) {
    past_ = new QWidget{this};
    auto* grid = new QGridLayout{past_};
    grid->setContentsMargins(0, 4, 0, 0);
    grid->setHorizontalSpacing(8);
    grid->setVerticalSpacing(4);
    const QStringList headings{tr("taken"), tr("in"), tr("it read"), tr("off by")};
    for (int column = 0; column < headings.size(); ++column) {
        auto* heading = new QLabel{headings.at(column), past_};
        heading->setForegroundRole(QPalette::PlaceholderText);
        grid->addWidget(heading, 0, column);
    }
    int row = 1;
    for (const ThermometerCheck& check : all) {
        addPast(check, row++);
    }
    column_->insertWidget(column_->indexOf(bar_), past_, 0, Qt::AlignLeft);
    past_->show();
}

void ProbeChecks::addPast(const ThermometerCheck& check, int row) {
    auto* grid = qobject_cast<QGridLayout*>(past_->layout());
    const TemperatureUnit unit = tellingOf(book_).unit;
    const Instant since = std::min(check.when.at, check.appliesFrom.value_or(check.when.at));
    const QString day = typedForm(check.when);
    const QString taken =
        since == check.when.at ? day : tr("%1\nholds from %2").arg(day, typedDay(book_.zone().momentAt(since)));
    const QStringList cells{taken, kindWords(check), words::written(check.read),
                            words::change(checks::errorOf(check), unit) + QChar{0x00A0} + words::unitName(unit)};
    for (int column = 0; column < cells.size(); ++column) {
        auto* cell = new QLabel{cells.at(column), past_};
        cell->setWordWrap(column == 1 || cells.at(column).contains(QLatin1Char{'\n'}));
        cell->setContentsMargins(0, 0, 4, 0);
        grid->addWidget(cell, row, column);
    }
    auto* acts = new FlowLayout{8};  // under one another where there is little room
    grid->addLayout(acts, row, static_cast<int>(cells.size()));
    const auto button = [&](const QString& words, const QString& name, const QString& spoken) {
        auto* made = new QPushButton{words, past_};
        made->setObjectName(
            QStringLiteral("%1_%2_%3").arg(name).arg(static_cast<qlonglong>(id_)).arg(words::text(check.id.digits)));
        made->setAccessibleName(spoken);
        made->setAutoDefault(true);
        made->setEnabled(!book_.isReadOnly());
        acts->addWidget(made);
        return made;
    };
    auto* amend = button(tr("Amend…"), QStringLiteral("amendCheck"), tr("Amend the check of %1").arg(day));
    connect(amend, &QPushButton::clicked, this, [this, check, amend] {
        if (const auto now = probe()) {
            begin(new CheckForm{book_, *now, check, this}, amend);
        }
    });
    auto* withdraw = button(tr("Withdraw…"), QStringLiteral("withdrawCheck"), tr("Withdraw the check of %1").arg(day));
    connect(withdraw, &QPushButton::clicked, this, [this, check] { askToWithdraw(check); });
}

void ProbeChecks::begin(ExplainedForm* form, QWidget* from) {
    form->beginIn(column_, form_, [this, back = QPointer{from}] {
        (back != nullptr && back->isVisible() ? back.data() : ice_)->setFocus();
    });
}

void ProbeChecks::askToWithdraw(const ThermometerCheck& check) {
    leaving_ = check.id;
    const auto now = probe();
    bar_->ask(tr("the check in %1 of %2, which read %3 on %4")
                  .arg(kindWords(check), now ? words::text(now->name) : QString{}, words::written(check.read),
                       typedForm(check.when)));
}

}  // namespace midden::ui
