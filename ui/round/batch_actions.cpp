// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/round/batch_actions.h"

#include <QEvent>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <array>

#include "ui/shared/elided_label.h"
#include "ui/shared/flow_layout.h"

namespace midden::ui {

namespace {

constexpr int batchLetters = 90;

struct Offer {
    BatchActions::Kind kind;
    const char* name;
    const char* words;
};

// The letters stay clear of those of the menus: B, E, V.
constexpr std::array offers{
    Offer{BatchActions::Kind::added, "actAdded", QT_TRANSLATE_NOOP("midden::ui::BatchActions", "&Added…")},
    Offer{BatchActions::Kind::harvested, "actHarvested", QT_TRANSLATE_NOOP("midden::ui::BatchActions", "Harve&sted…")},
    Offer{BatchActions::Kind::turned, "actTurned", QT_TRANSLATE_NOOP("midden::ui::BatchActions", "&Turned")},
    Offer{BatchActions::Kind::forked, "actForked", QT_TRANSLATE_NOOP("midden::ui::BatchActions", "&Forked")},
    Offer{BatchActions::Kind::watered, "actWatered", QT_TRANSLATE_NOOP("midden::ui::BatchActions", "&Watered")},
    Offer{BatchActions::Kind::opened, "actOpened", QT_TRANSLATE_NOOP("midden::ui::BatchActions", "&Lid open")},
    Offer{BatchActions::Kind::squeeze, "actSqueeze", QT_TRANSLATE_NOOP("midden::ui::BatchActions", "S&queeze test…")},
    Offer{BatchActions::Kind::ripening, "actRipening",
          QT_TRANSLATE_NOOP("midden::ui::BatchActions", "&Curing and tests…")},
    Offer{BatchActions::Kind::note, "actNote", QT_TRANSLATE_NOOP("midden::ui::BatchActions", "&Note…")},
    Offer{BatchActions::Kind::rest, "actRest", QT_TRANSLATE_NOOP("midden::ui::BatchActions", "Sto&p and rest…")},
    Offer{BatchActions::Kind::move, "actMove", QT_TRANSLATE_NOOP("midden::ui::BatchActions", "Into anothe&r bin…")},
    Offer{BatchActions::Kind::finish, "actFinish", QT_TRANSLATE_NOOP("midden::ui::BatchActions", "F&inish…")},
    Offer{BatchActions::Kind::start, "actStart", QT_TRANSLATE_NOOP("midden::ui::BatchActions", "Start a batc&h…")},
    Offer{BatchActions::Kind::feeding, "actFeeding",
          QT_TRANSLATE_NOOP("midden::ui::BatchActions", "Filled or fed: how it is &kept…")},
};

bool isOfFedAlone(BatchActions::Kind kind) {
    return kind == BatchActions::Kind::harvested || kind == BatchActions::Kind::rest;
}

}  // namespace

BatchActions::BatchActions(QWidget* parent) : QWidget{parent}, batch_{new ElidedLabel{{}, this, batchLetters}} {
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(8);
    column->addWidget(batch_);
    auto* row = new FlowLayout{8};
    column->addLayout(row);
    for (const Offer& offer : offers) {
        auto* button = new QPushButton{tr(offer.words), this};
        button->setObjectName(QLatin1String{offer.name});
        button->setAccessibleName(tr(offer.words).remove(QLatin1Char{'&'}));
        button->setAutoDefault(true);
        button->installEventFilter(this);
        connect(button, &QPushButton::clicked, this, [this, kind = offer.kind] { emit wanted(kind); });
        row->addWidget(button);
        buttons_.push_back({offer.kind, button});
    }
}

void BatchActions::actOn(const QString& batch, bool isFed, bool writable) {
    batch_->setText(batch.isEmpty() ? tr("No batch stands here.") : tr("With %1:").arg(batch));
    for (const Button& one : buttons_) {
        one.button->setVisible(isFed || !isOfFedAlone(one.kind));
        one.button->setEnabled(writable && (one.kind == Kind::start || !batch.isEmpty()));
    }
}

bool BatchActions::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::Enter || event->type() == QEvent::FocusIn) {
        for (const Button& one : buttons_) {
            if (one.button == watched) {
                emit pointedAt(one.kind);
            }
        }
    }
    return QWidget::eventFilter(watched, event);
}

}  // namespace midden::ui
