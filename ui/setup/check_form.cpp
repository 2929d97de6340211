// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/check_form.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <cmath>

#include "core/store/read/book_rules.h"
#include "ui/setup/check_words.h"
#include "ui/shared/typed.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

// Ice: "How to calibrate a food thermometer", a public health department's page at c-uphd.org (crushed ice, water to
// fill, stem under water and off the glass, at least 30 seconds or steady, 0 °C). 50 mm: the same and the Academy of
// Nutrition and Dietetics (2 inches or more under water). Water without enough ice stands up to 1 °C too warm: from
// memory, unverified.
QString iceSteps() {
    return CheckForm::tr(
        "1. Fill a deep cup with crushed ice, top it up with cold water, stir, and wait a few minutes. "
        "There must be ice right down to the bottom: water with a few cubes afloat is too warm.<br>"
        "2. Put the probe in the middle, at least 50 mm deep, touching neither wall nor bottom.<br>"
        "3. Wait until it stands still, at least 30 seconds; a long dial takes minutes. "
        "It should read 0 °C (32 °F).");
}

QString iceSource() {
    return CheckForm::tr(
        "“How to calibrate a food thermometer”, c-uphd.org; two inches deep: "
        "Academy of Nutrition and Dietetics, eatright.org. How warm a loose slush gets: from memory, "
        "unverified.");
}

QString boilingSteps() {
    return CheckForm::tr(
        "<b>Boiling water and its steam scald.</b> Wear a glove, keep your hand out of the steam, and keep children "
        "away. "
        "Do this only with a probe whose scale goes beyond 100 °C (212 °F).<br>"
        "1. Bring a deep pan of water to a rolling boil.<br>"
        "2. Hold the probe at least 50 mm deep, touching neither wall nor bottom.<br>"
        "3. Wait until it stands still. Water boils cooler the higher you are: say how high, or read a barometer.");
}

QString boilingSource() {
    return CheckForm::tr(
        "Procedure: Academy of Nutrition and Dietetics, eatright.org. Air pressure at a height: US Standard "
        "Atmosphere 1976. Boiling point: IAPWS-IF97, region 4.");
}

template <class T>
tl::unexpected<Problem> problemOf(const Result<T>& result) {
    return tl::unexpected{result.error()};
}

QString wrongIn(const Problem& problem) {
    return words::text(problem.sentence());
}

/// A height may lie below the sea.
Result<double> readAltitude(QString typed) {
    typed = typed.trimmed();
    typed.replace(QChar{0x2212}, QLatin1Char{'-'});
    const bool below = typed.startsWith(QLatin1Char{'-'});
    const auto amount = readAmount(below ? typed.mid(1) : typed);
    return amount ? Result<double>{below ? -*amount : *amount} : amount;
}

QString figure(double value) {
    return words::localised(QString::number(value, 'g', 7).toStdString());
}

/// "98.313 °C", and in °F too where that is what is typed.
QString boilingPoint(double celsius, TemperatureUnit unit) {
    const QString shown = CheckForm::tr("%1 °C").arg(words::number(celsius, 3));
    return unit == TemperatureUnit::celsius
               ? shown
               : CheckForm::tr("%1 (%2 °F)").arg(shown, words::number(celsius * 1.8 + 32, 2));
}

}  // namespace

CheckForm::CheckForm(Book& book, const Probe& probe, CheckKind kind, QWidget* parent)
    : ExplainedForm{(kind == CheckKind::ice ? tr("Check %1 in ice") : tr("Check %1 in boiling water"))
                        .arg(words::text(probe.name)),
                    tr("&Save this check"), parent},
      book_{book},
      probe_{probe},
      kind_{kind} {
    build();
    when_->setText(typedForm(book.now()));
    explain();
}

CheckForm::CheckForm(Book& book, const Probe& probe, const ThermometerCheck& entered, QWidget* parent)
    : ExplainedForm{tr("Amend the check of %1").arg(words::text(probe.name)), tr("&Save the amendment"), parent},
      book_{book},
      probe_{probe},
      kind_{entered.kind},
      amended_{entered.id},
      note_{entered.note} {
    build();
    why_ = addLine("checkWhy", tr("Why, if you like"), 40);
    fill(entered);
    explain();
}

void CheckForm::build() {
    const bool isIce = kind_ == CheckKind::ice;
    addLead(isIce ? iceSteps() : boilingSteps(), isIce ? iceSource() : boilingSource())->setTextFormat(Qt::RichText);
    if (!isIce) {
        addBoilingFields();
    }
    reading_ = addLine("checkReading", tr("It reads, %1").arg(words::unitName(unit())), 10);
    when_ = addLine("checkWhen", tr("Taken"), 24);
    holds_ = addChoice("checkHolds", tr("Holds for readings"),
                       {tr("from this check on"), tr("from an earlier day on, too")});
    since_ = addLine("checkSince", tr("Also for readings since"), 24);
    outcome_ = addOutcome("checkOutcome");
    connect(this, &ExplainedForm::typed, this, &CheckForm::explain);
    onSave([this] { return save(); });
}

void CheckForm::addBoilingFields() {
    altitude_ = addLine("checkAltitude", tr("Height above the sea, m"), 10);
    pressure_ = addLine("checkPressure", tr("or air pressure at the station, hPa"), 10);
    pressure_->setToolTip(
        tr("As the barometer on the spot shows it. Weather reports give the pressure reduced to sea "
           "level, which is wrong here."));
}

void CheckForm::fill(const ThermometerCheck& entered) {
    reading_->setText(words::text(writtenWithUnit(entered.read)));
    when_->setText(typedForm(entered.when));
    if (entered.altitudeMetres) {
        altitude_->setText(figure(*entered.altitudeMetres));
    }
    if (entered.pressureHectopascals) {
        pressure_->setText(figure(*entered.pressureHectopascals));
    }
    if (entered.appliesFrom) {
        holds_->setCurrentIndex(1);
        since_->setText(typedForm(book_.zone().momentAt(*entered.appliesFrom)));
    }
}

TemperatureUnit CheckForm::unit() const {
    return unitOf(book_.log());
}

Result<WrittenTemperature> CheckForm::read() const {
    QString plain = reading_->text().simplified();
    plain.replace(QChar{0x2212}, QLatin1Char{'-'});
    return parseTemperature(words::utf8(plain), unit());
}

Result<std::optional<double>> CheckForm::altitude() const {
    if (altitude_ == nullptr || altitude_->text().trimmed().isEmpty()) {
        return std::optional<double>{};
    }
    const auto height = readAltitude(altitude_->text());
    return height ? Result<std::optional<double>>{*height} : problemOf(height);
}

Result<std::optional<double>> CheckForm::pressure() const {
    if (pressure_ == nullptr || pressure_->text().trimmed().isEmpty()) {
        return std::optional<double>{};
    }
    const auto amount = readAmount(pressure_->text());
    return amount ? Result<std::optional<double>>{*amount} : problemOf(amount);
}

Result<std::optional<Instant>> CheckForm::reachesBackTo() const {
    if (holds_->currentIndex() == 0) {
        return std::optional<Instant>{};
    }
    const auto since = readDay(since_->text(), book_.zone(), book_.now());
    if (since_->text().trimmed().isEmpty()) {
        return refused(tr("no day yet").toStdString(), tr("the first day it holds for").toStdString());
    }
    return since ? Result<std::optional<Instant>>{since->at} : problemOf(since);
}

Result<ThermometerCheck> CheckForm::typedCheck() const {
    const auto height = altitude();
    const auto air = pressure();
    const auto written = read();
    const auto when = readMoment(when_->text(), book_.zone(), book_.now());
    const auto since = reachesBackTo();
    if (!height || !air) {
        return !height ? problemOf(height) : problemOf(air);
    }
    if (kind_ == CheckKind::boiling && !*height && !*air) {
        return refused(tr("the boiling point is not known yet").toStdString(),
                       tr("the height above the sea or the air pressure").toStdString());
    }
    if (!written || !when) {
        return !written ? problemOf(written) : problemOf(when);
    }
    if (!since) {
        return problemOf(since);
    }
    if (*since && **since > when->at) {
        return refused(tr("that is after the check").toStdString(), tr("a day before it").toStdString());
    }
    ThermometerCheck check{.id = amended_, .probe = probe_.id, .when = *when, .kind = kind_, .read = *written};
    check.altitudeMetres = *air ? std::nullopt : *height;  // a barometer is better
    check.pressureHectopascals = *air;
    check.appliesFrom = *since;
    check.note = note_;
    return plausible(check);
}

void CheckForm::explain() {
    setRowShown(since_, holds_->currentIndex() == 1);
    if (kind_ == CheckKind::boiling) {
        explainBoiling();
    }
    const auto written = read();
    const bool empty = reading_->text().trimmed().isEmpty();
    remark(reading_, written || empty ? QString{} : wrongIn(written.error()));
    const auto when = readMoment(when_->text(), book_.zone(), book_.now());
    remark(when_, when ? QString{} : wrongIn(when.error()));
    const auto since = reachesBackTo();
    remark(since_, since || since_->text().isEmpty() ? QString{} : wrongIn(since.error()));
    explainOutcome(typedCheck());
}

void CheckForm::explainBoiling() {
    const auto height = altitude();
    const auto air = pressure();
    const QString onTheSpot = tr("As read on the spot, not reduced to sea level.");
    remark(altitude_, height ? QString{} : wrongIn(height.error()));
    remark(pressure_, air ? onTheSpot : wrongIn(air.error()), air ? Tone::quiet : Tone::question);
    ThermometerCheck trial{.kind = CheckKind::boiling};
    trial.altitudeMetres = height.value_or(std::nullopt);
    trial.pressureHectopascals = air.value_or(std::nullopt);
    if (!trial.altitudeMetres && !trial.pressureHectopascals) {
        return;
    }
    QLineEdit* decides = trial.pressureHectopascals ? pressure_ : altitude_;
    // The reading is not looked at here, only the surroundings: it is put where it cannot be wrong.
    trial.read = {static_cast<std::int32_t>(std::lround(boilingPointCelsius(trial) * 10'000)),
                  TemperatureUnit::celsius};
    const auto possible = plausible(trial);
    if (!possible) {
        remark(decides, wrongIn(possible.error()));
        return;
    }
    const QString point = boilingPoint(boilingPointCelsius(trial), unit());
    remark(decides,
           trial.pressureHectopascals
               ? tr("Water boils at %1. %2").arg(point, onTheSpot)
               : tr("Water boils at %1 here on an ordinary day; weather moves it by up to 0.8 °C.").arg(point),
           Tone::quiet);
}

void CheckForm::explainOutcome(const Result<ThermometerCheck>& check) {
    outcome_->setVisible(check.has_value() || (read() && !reading_->text().isEmpty()));
    if (!check) {
        outcome_->setText(tr("Not yet: %1.").arg(wrongIn(check.error())));
        return;
    }
    const checks::Telling telling{unit(), book_.zone(), book_.now()};
    const Calibration calibration{with(*check)};
    const Moment since = book_.zone().momentAt(check->appliesFrom.value_or(check->when.at));
    const Correction& correction = calibration.inForce(check->when.at);
    QString sentence =
        tr("It %1. Saving means: its readings from %2 on are %3.")
            .arg(checks::errorWords(*check, telling), typedForm(since), checks::correctionWords(correction, telling));
    outcome_->setText(sentence + QLatin1Char{' '} + tr("What was written down stays as it was."));
    outcome_->setAccessibleName(outcome_->text());
}

std::vector<ThermometerCheck> CheckForm::with(const ThermometerCheck& check) const {
    auto all = book_.log().checks(probe_.id);
    std::erase_if(all, [&](const ThermometerCheck& other) { return other.id == check.id; });
    all.push_back(check);
    return all;
}

QString CheckForm::save() {
    const auto check = typedCheck();
    if (!check) {
        return tr("Not saved: %1.").arg(wrongIn(check.error()));
    }
    const QString name = words::text(probe_.name);
    const QString label = (kind_ == CheckKind::ice ? tr("ice check of %1") : tr("boiling check of %1")).arg(name);
    const bool done =
        amended_.digits.empty()
            ? book_.change(Put<ThermometerCheck>{*check}, label)
            : book_.change(Amend<ThermometerCheck>{amended_, *check, words::utf8(why_->text().trimmed())}, label);
    return done ? QString{} : tr("The book could not take it; see the line at the top.");
}

}  // namespace midden::ui
