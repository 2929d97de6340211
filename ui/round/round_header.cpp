// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/round/round_header.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <algorithm>

#include "ui/round/reading_cell.h"
#include "ui/round/round_table.h"
#include "ui/shared/flow_layout.h"
#include "ui/shared/speak.h"
#include "ui/shared/tone.h"
#include "ui/shared/typed.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

/// Widgets that stay on one line together.
QWidget* together(std::initializer_list<QWidget*> widgets) {
    auto* group = new QWidget;
    auto* row = new QHBoxLayout{group};
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(8);
    for (QWidget* widget : widgets) {
        row->addWidget(widget);
    }
    return group;
}

/// What the chooser holds besides the thermometers themselves, whose numbers begin at 1.
constexpr qlonglong asBefore = -1;
constexpr qlonglong notSaid = 0;

void say(QLabel& label, const QString& words, Tone tone) {
    setTone(label, tone);
    label.setText(words);
}

}  // namespace

RoundHeader::RoundHeader(QWidget* parent)
    : QWidget{parent},
      time_{new QLineEdit},
      now_{new QPushButton{tr("No&w")}},
      timeWords_{new QLabel},
      probe_{new QComboBox},
      outsideLabel_{new QLabel},
      outside_{new ReadingCell},
      outsideWords_{new QLabel} {
    auto* timeLabel = new QLabel{tr("Roun&d of")};
    timeLabel->setBuddy(time_);
    time_->setObjectName(QStringLiteral("roundTime"));
    time_->setAccessibleName(tr("Date and time of the round"));
    time_->setToolTip(tr("For a round of the past type its date and time, such as 4 March 08:10 or 2026-03-04 08:10."));
    time_->setMinimumWidth(time_->fontMetrics().horizontalAdvance(QStringLiteral("28 September 2026 08:10")) + 32);
    now_->setText(tr("Back to now"));
    now_->setObjectName(QStringLiteral("roundNow"));
    now_->setAccessibleName(tr("Back to the round of now"));
    now_->setAutoDefault(true);
    outsideLabel_->setBuddy(outside_);
    outside_->setObjectName(QStringLiteral("cellOutside"));
    outside_->setAccessibleName(tr("Air outside"));
    outside_->setFixedWidth(outside_->fontMetrics().horizontalAdvance(QStringLiteral("137.50 °F")) + 32);
    timeWords_->setObjectName(QStringLiteral("roundTimeWords"));
    outsideWords_->setObjectName(QStringLiteral("meaningOutside"));

    auto* probeLabel = new QLabel{tr("Ther&mometer")};
    probeLabel->setBuddy(probe_);
    probe_->setObjectName(QStringLiteral("roundProbe"));
    probe_->setAccessibleName(tr("Thermometer of the readings to come"));
    probe_->setToolTip(
        tr("“As before” is, for each place, the thermometer of its last reading. "
           "Its ice and boiling checks correct what you type."));
    probe_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    probe_->setMinimumContentsLength(20);
    probeGroup_ = together({probeLabel, probe_});

    auto* row = new FlowLayout{24, this};
    row->addWidget(together({timeLabel, time_, now_, timeWords_}));
    row->addWidget(probeGroup_);
    row->addWidget(together({outsideLabel_, outside_, outsideWords_}));
    connect(time_, &QLineEdit::editingFinished, this, [this] {
        if (time_->isModified()) {
            time_->setModified(false);
            emit timeTyped(time_->text());
        }
    });
    connect(now_, &QPushButton::clicked, this, &RoundHeader::nowWanted);
}

void RoundHeader::show(const RoundPlan& plan, Moment now, bool isPast) {
    if (!time_->isModified() && timeWords_->text().isEmpty()) {
        time_->setText(typedForm(plan.when));
    }
    time_->setReadOnly(plan.readOnly);
    now_->setVisible(isPast);
    offer(plan.probes);
    probe_->setEnabled(!plan.readOnly);
    outsideLabel_->setText(tr("Air &outside, %1").arg(words::unitName(plan.unit)));
    outside_->setReadOnly(plan.readOnly);
    outside_->setStored(plan.outsideNow ? cellText(*plan.outsideNow, plan.unit) : QString{});
    usualOutsideWords_ = plan.outsideLast ? tr("last %1, %2")
                                                .arg(words::degrees(toCelsius(plan.outsideLast->written), plan.unit),
                                                     words::ago(now.at - plan.outsideLast->when.at))
                                          : QString{};
    if (!outside_->isPending()) {
        questionOutside({});
    }
}

void RoundHeader::offer(const std::vector<Probe>& probes) {
    probeGroup_->setVisible(!probes.empty());
    const auto chosen = probe_->count() > 0 ? probe_->currentData() : QVariant{asBefore};
    probe_->clear();
    probe_->addItem(tr("as before"), asBefore);
    for (const Probe& probe : probes) {
        probe_->addItem(words::text(probe.name), static_cast<qlonglong>(probe.id));
    }
    probe_->addItem(tr("not said"), notSaid);
    probe_->setCurrentIndex(std::max(0, probe_->findData(chosen)));
}

std::optional<ProbeId> RoundHeader::probeFor(const std::optional<Reading>& last) const {
    const auto chosen = probe_->currentData().toLongLong();
    if (chosen > notSaid) {
        return ProbeId{chosen};
    }
    constexpr int withOneProbe = 3;  // it, "as before" and "not said"
    if (chosen == notSaid || last) {
        return chosen == notSaid ? std::nullopt : last->probe;
    }
    return probe_->count() == withOneProbe ? std::optional{ProbeId{probe_->itemData(1).toLongLong()}} : std::nullopt;
}

void RoundHeader::questionTime(const QString& words) {
    say(*timeWords_, words, Tone::question);
    time_->setAccessibleDescription(words);
    if (!words.isEmpty()) {
        readOut(*timeWords_);
    }
}

void RoundHeader::questionOutside(const QString& words) {
    say(*outsideWords_, words.isEmpty() ? usualOutsideWords_ : words, words.isEmpty() ? Tone::quiet : Tone::question);
    outside_->setAccessibleDescription(words);
    if (!words.isEmpty()) {
        readOut(*outsideWords_);
    }
}

}  // namespace midden::ui
