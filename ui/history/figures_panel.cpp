// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/figures_panel.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QRegularExpression>
#include <QVBoxLayout>

#include "core/recipe/fact.h"
#include "core/review/bin_heat.h"
#include "ui/history/rate_picture.h"
#include "ui/shared/tone.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

/// Core writes numbers with a hyphen for a minus.
QString withMinus(const std::string& words) {
    static const QRegularExpression minus{QStringLiteral("-(?=[0-9])")};
    return words::text(words).replace(minus, QString{QChar{0x2212}});
}

}  // namespace

FiguresPanel::FiguresPanel(QWidget* parent)
    : QWidget{parent},
      heat_{line("heatFigures", false)},
      limits_{line("heatLimits", true)},
      teaching_{line("teachingFigures", false)},
      sources_{line("teachingSources", true)},
      picture_{new RatePicture{this}} {
    setObjectName(QStringLiteral("figuresPanel"));
    auto* words = new QVBoxLayout;
    words->setSpacing(4);
    for (QLabel* label : {heat_, limits_, teaching_, sources_}) {
        words->addWidget(label);
    }
    words->addStretch(1);
    auto* row = new QHBoxLayout{this};
    row->setContentsMargins(0, 8, 0, 8);
    row->setSpacing(24);
    row->addLayout(words, 1);
    row->addWidget(picture_, 0, Qt::AlignTop);
    sources_->setText(
        tr("For teaching only, never a verdict. Dashed: the rate doubles with every 10 °C, common practice without a "
           "source, which holds from about 10 to 45 °C. Solid: the cardinal-temperature curve of Rosso, Lobry and "
           "Flandrois (1993) with 5, 58.6 and 71.6 °C as given for composting, from memory, unverified. Published "
           "models disagree above 65 °C."));
}

QLabel* FiguresPanel::line(const char* name, bool quiet) {
    auto* label = new QLabel{this};
    label->setObjectName(QLatin1String{name});
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
    setTone(*label, quiet ? Tone::quiet : Tone::plain);
    return label;
}

void FiguresPanel::show(const LoadedPtr& batch, TemperatureUnit unit) {
    const bool hasHeat = batch && !batch->review.heat.rates.empty();
    heat_->setText(hasHeat
                       ? tr("Between the last two rounds with the air outside known: %1. It holds its warmth for %2.")
                             .arg(withMinus(wordsOf(batch->review.heat)), words::text(wordsOf(batch->review.heat.tau)))
                       : tr("The heat it makes can be worked out once temperatures outside are read with the rounds."));
    limits_->setText(batch ? words::text(batch->review.heat.limits) : QString{});
    limits_->setVisible(hasHeat);
    const double days = batch ? batch->review.daysAtTenCelsius : 0;
    teaching_->setText(
        tr("So far as much as %1 days at 10 °C, if every 10 °C more doubled the rate.").arg(words::number(days, 0)) +
        QLatin1Char{' '} + words::text(tradeFact("doubling").words + " " + tradeFact("doubling").limits));
    const auto last = batch ? batch->outlook.last : std::nullopt;
    picture_->show(last ? std::optional{last->warmest} : std::nullopt, unit);
}

}  // namespace midden::ui
