// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/import/import_questions.h"

#include <QComboBox>
#include <QCompleter>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QTimeZone>
#include <algorithm>

#include "core/store/read/book_rules.h"
#include "ui/shared/book.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr int characters = 36;

/// “North, spring”, in North since 1 March 2026
QString offered(const Batch& batch, const std::vector<Bin>& bins) {
    const BinId in = batch.stays.back().bin;
    const auto bin = std::ranges::find(bins, in, &Bin::id);
    const QString where = bin == bins.end() ? QString{} : words::text(bin->name);
    const QString name = words::text(batch.name);
    const QString began = words::text(longDate(batch.started));
    return batch.finished ? ImportQuestions::tr("%1 – %2, %3 to %4")
                                .arg(name, where, began, words::text(longDate(*batch.finished)))
                          : ImportQuestions::tr("%1 – %2, since %3").arg(name, where, began);
}

QString spoken(QString label) {
    return label.remove(QLatin1Char{'&'});
}

template <class Field>
Field* named(Field* field, const char* name) {
    field->setObjectName(QLatin1String{name});
    field->setMinimumWidth(field->fontMetrics().averageCharWidth() * characters);
    field->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    return field;
}

}  // namespace

ImportQuestions::ImportQuestions(const Book& book, const FileHead& head, QWidget* parent)
    : QWidget{parent},
      book_{book},
      asksForUnit_{head.kind == FileKind::readings && !head.saysUnit},
      batches_{book.log().batches()},
      grid_{new QGridLayout{this}},
      batch_{named(new QComboBox{this}, "intakeBatch")},
      name_{named(new QLineEdit{this}, "intakeNewBatch")},
      bin_{named(new QComboBox{this}, "intakeBin")},
      zone_{named(new QLineEdit{this}, "intakeZone")},
      unit_{new QComboBox{this}} {
    grid_->setContentsMargins(0, 0, 0, 0);
    grid_->setHorizontalSpacing(16);
    grid_->setVerticalSpacing(8);
    grid_->setColumnStretch(1, 1);
    addBatches();
    addBin();
    addZone();
    addUnit();
    setAsked(zone_, head.hasLocalTimes);
    setAsked(unit_, asksForUnit_);
    showNewBatch();
    connect(batch_, &QComboBox::currentIndexChanged, this, &ImportQuestions::showNewBatch);
}

void ImportQuestions::ask(const QString& label, QWidget* field) {
    const int row = grid_->rowCount();
    auto* words = new QLabel{label, this};
    words->setBuddy(field);
    grid_->addWidget(words, row, 0);
    grid_->addWidget(field, row, 1, field == unit_ ? Qt::AlignLeft : Qt::Alignment{});
    field->setAccessibleName(spoken(label));
    labels_[field] = words;
}

void ImportQuestions::setAsked(QWidget* field, bool isAsked) {
    labels_.at(field)->setVisible(isAsked);
    field->setVisible(isAsked);
    grid_->activate();
    emit reshaped();
}

/// What stands alone in a bin is most likely meant; among several nobody knows.
void ImportQuestions::addBatches() {
    std::ranges::reverse(batches_);
    const auto bins = book_.log().bins();
    for (const Batch& batch : batches_) {
        batch_->addItem(offered(batch, bins));
    }
    batch_->addItem(tr("A new batch"));
    batch_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    batch_->setPlaceholderText(tr("choose one"));
    const auto stands = [](const Batch& batch) { return !batch.finished; };
    const auto standing = std::ranges::count_if(batches_, stands);
    const auto only = std::ranges::find_if(batches_, stands);
    batch_->setCurrentIndex(standing > 1    ? -1
                            : standing == 0 ? static_cast<int>(batches_.size())
                                            : static_cast<int>(only - batches_.begin()));
    ask(tr("&Batch they go into"), batch_);
    ask(tr("&Name of the new batch"), name_);
}

void ImportQuestions::addBin() {
    bin_->setEditable(true);
    bin_->setCompleter(nullptr);  // it would turn the name of a new bin into that of another
    bin_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    for (const Bin& bin : book_.log().bins()) {
        if (!bin.retired) {
            bin_->addItem(words::text(bin.name));
        }
    }
    bin_->setCurrentIndex(bin_->count() == 1 ? 0 : -1);
    bin_->lineEdit()->setPlaceholderText(bin_->count() == 0 ? tr("name of a new bin")
                                                            : tr("one of the book, or a new name"));
    ask(tr("B&in it stands in"), bin_);
}

void ImportQuestions::addZone() {
    zone_->setText(words::text(book_.zone().name()));
    QStringList names;
    for (const QByteArray& name : QTimeZone::availableTimeZoneIds()) {
        names << QString::fromLatin1(name);
    }
    auto* completer = new QCompleter{names, zone_};
    completer->setCaseSensitivity(Qt::CaseInsensitive);
    completer->setFilterMode(Qt::MatchContains);
    zone_->setCompleter(completer);
    zone_->setToolTip(tr("Such as Europe/London. The file has times that do not say their offset from UTC."));
    ask(tr("Time &zone of its times"), zone_);
}

void ImportQuestions::addUnit() {
    unit_->setObjectName(QStringLiteral("intakeUnit"));
    unit_->addItems({QStringLiteral("°C"), QStringLiteral("°F")});
    unit_->setCurrentIndex(unitOf(book_.log()) == TemperatureUnit::fahrenheit ? 1 : 0);
    ask(tr("Numbers without a &unit are"), unit_);
}

void ImportQuestions::askForZone() {
    setAsked(zone_, true);
    zone_->setFocus();
    zone_->selectAll();
}

void ImportQuestions::begin() {
    if (isNewBatch()) {
        name_->setFocus();
    } else {
        batch_->setFocus();
    }
}

bool ImportQuestions::isNewBatch() const {
    return batch_->currentIndex() == static_cast<int>(batches_.size());
}

void ImportQuestions::showNewBatch() {
    setAsked(batch_, !batches_.empty());
    setAsked(name_, isNewBatch());
    setAsked(bin_, isNewBatch());
}

Result<ImportAnswers> ImportQuestions::answers() {
    if (batch_->currentIndex() < 0) {
        return refuse(batch_, tr("Choose the batch they go into."));
    }
    auto answers = isNewBatch()
                       ? newBatch()
                       : ImportAnswers{batches_[static_cast<std::size_t>(batch_->currentIndex())].name, {}, {}, {}};
    if (!answers) {
        return answers;
    }
    if (zone_->isVisibleTo(this)) {
        const auto zone = TimeZone::named(words::utf8(zone_->text().trimmed()));
        if (!zone) {
            return refuse(zone_, tr("“%1” is no time zone. One is written as in Europe/London.").arg(zone_->text()));
        }
        answers->zone = *zone;
    }
    if (asksForUnit_) {
        answers->unit = unit_->currentIndex() == 1 ? TemperatureUnit::fahrenheit : TemperatureUnit::celsius;
    }
    return answers;
}

Result<ImportAnswers> ImportQuestions::newBatch() {
    const QString name = name_->text().trimmed();
    const QString bin = bin_->currentText().trimmed();
    if (name.isEmpty()) {
        return refuse(name_, tr("The new batch needs a name."));
    }
    if (book_.log().batchNamed(words::utf8(name))) {
        return refuse(name_, tr("The book has a batch “%1”. Choose that one, or give another name.").arg(name));
    }
    if (bin.isEmpty()) {
        return refuse(bin_, tr("Say which bin the new batch stands in."));
    }
    return ImportAnswers{words::utf8(name), words::utf8(bin), {}, {}};
}

tl::unexpected<Problem> ImportQuestions::refuse(QWidget* where, const QString& wrong) {
    where->setFocus();
    return refused(words::utf8(wrong));
}

}  // namespace midden::ui
