// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/copies/copies_page.h"

#include <QComboBox>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QListWidget>
#include <QLocale>
#include <QPushButton>
#include <QVBoxLayout>

#include "ui/shared/copies_words.h"
#include "ui/shared/flow_layout.h"
#include "ui/shared/named_button.h"
#include "ui/shared/prompts.h"
#include "ui/shared/tone.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString pathOf(const std::filesystem::path& file) {
    return QString::fromStdString(file.string());
}

}  // namespace

CopiesPage::CopiesPage(Prompts& prompts, std::filesystem::path place, const std::filesystem::path& book, TimeZone zone,
                       QWidget* parent)
    : QWidget{parent},
      prompts_{prompts},
      place_{std::move(place)},
      zone_{zone},
      books_{new QComboBox{this}},
      explained_{new QLabel{this}},
      none_{new QLabel{this}},
      list_{new QListWidget{this}},
      inside_{new QLabel{this}},
      restore_{namedButton(tr("Restore to a &new file…"), "copiesRestore", this)},
      replace_{namedButton(tr("Put it in the logbook's &place…"), "copiesReplace", this)},
      salvage_{namedButton(tr("&Salvage what can be read…"), "copiesSalvage", this)},
      back_{namedButton(tr("&Close"), "copiesClose", this)} {
    setObjectName(QStringLiteral("copies"));
    layOut();
    connect(books_, &QComboBox::currentIndexChanged, this, &CopiesPage::fillCopies);
    connect(list_, &QListWidget::currentRowChanged, this, &CopiesPage::look);
    connect(restore_, &QPushButton::clicked, this, &CopiesPage::restoreToNew);
    connect(replace_, &QPushButton::clicked, this, &CopiesPage::askToReplace);
    connect(salvage_, &QPushButton::clicked, this, [this] { emit salvageWanted(bookPath()); });
    connect(back_, &QPushButton::clicked, this, &CopiesPage::closed);
    fillBooks(book);
}

void CopiesPage::layOut() {
    books_->setObjectName(QStringLiteral("copiesBook"));
    books_->setAccessibleName(tr("Logbook"));
    list_->setObjectName(QStringLiteral("copiesList"));
    list_->setAccessibleName(tr("Copies, newest first"));
    list_->setFrameShape(QFrame::NoFrame);
    list_->setMinimumWidth(list_->fontMetrics().averageCharWidth() * 30);
    list_->setMaximumWidth(list_->fontMetrics().averageCharWidth() * 44);
    explained_->setObjectName(QStringLiteral("copiesExplained"));
    inside_->setObjectName(QStringLiteral("copiesInside"));
    none_->setObjectName(QStringLiteral("copiesNone"));
    for (QLabel* words : {explained_, none_, inside_}) {
        words->setTextFormat(Qt::PlainText);
        words->setWordWrap(true);
    }
    setTone(*explained_, Tone::quiet);
    none_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    inside_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    auto* middle = new QHBoxLayout;
    middle->setSpacing(24);
    middle->addWidget(none_, 1);
    middle->addWidget(list_, 1);
    middle->addWidget(inside_, 1);
    auto* buttons = new FlowLayout{8};
    for (QPushButton* each : {restore_, replace_, salvage_, back_}) {
        buttons->addWidget(each);
    }
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(32, 24, 32, 24);
    column->setSpacing(16);
    column->addWidget(books_, 0, Qt::AlignLeft);
    column->addWidget(explained_);
    column->addLayout(middle, 1);
    column->addLayout(buttons);
}

void CopiesPage::fillBooks(const std::filesystem::path& first) {
    const QSignalBlocker quiet{books_};
    if (!first.empty()) {
        books_->addItem(words::fileName(first), pathOf(first));
    }
    for (const CopiedBook& copied : copiedBooks(place_)) {
        if (copyFolderName(copied.book) != copyFolderName(first)) {
            books_->addItem(words::fileName(copied.book), pathOf(copied.book));
        }
    }
    for (int i = 0; i < books_->count(); ++i) {
        books_->setItemData(i, books_->itemData(i), Qt::ToolTipRole);
    }
    fillCopies();
}

QString CopiesPage::bookPath() const {
    return books_->currentData().toString();
}

void CopiesPage::fillCopies() {
    const QSignalBlocker quiet{list_};
    list_->clear();
    copies_ =
        bookPath().isEmpty() ? std::vector<KeptCopy>{} : keptCopies(place_ / copyFolderName(bookPath().toStdString()));
    for (const KeptCopy& copy : copies_) {
        auto* item =
            new QListWidgetItem{tr("%1, %2").arg(words::fullDayAndTime(zone_.momentAt(copy.made)),
                                                 QLocale{}.formattedDataSize(static_cast<qint64>(copy.bytes), 0)),
                                list_};
        item->setSizeHint({0, list_->fontMetrics().lineSpacing() + 16});
    }
    explained_->setText(copies_.empty() ? QString{} : words::howCopiesAreKept(bookPath()));
    explained_->setVisible(!copies_.empty());
    list_->setVisible(!copies_.empty());
    none_->setText(bookPath().isEmpty() ? words::noCopiesAtAll() : words::noCopies());
    none_->setVisible(copies_.empty());
    inside_->setVisible(!copies_.empty());
    salvage_->setEnabled(QFileInfo{bookPath()}.size() > 0);
    list_->setCurrentRow(copies_.empty() ? -1 : 0);
    look();
}

void CopiesPage::begin() {
    (copies_.empty() ? static_cast<QWidget*>(back_) : list_)->setFocus();
}

std::optional<KeptCopy> CopiesPage::chosen() const {
    const int row = list_->currentRow();
    return row < 0 ? std::nullopt : std::optional{copies_.at(static_cast<std::size_t>(row))};
}

CopiesPage::Looked CopiesPage::lookedInto(const std::filesystem::path& copy, const std::filesystem::path& book) {
    Looked looked;
    try {
        looked.inside = summaryOf(Logbook::open(copy, Logbook::Mode::readOnly));
        looked.differences = compare(Logbook::open(book, Logbook::Mode::readOnly), copy);
    } catch (const std::exception& error) {
        looked.trouble = QString::fromUtf8(error.what());
    }
    return looked;
}

/// Reads the copy, and compares it with the book, beside the thread of the window.
void CopiesPage::look() {
    const auto copy = chosen();
    restore_->setEnabled(copy.has_value());
    replace_->setEnabled(copy.has_value());
    looking_.drop();
    inside_->setText(copy ? tr("Looking inside…") : QString{});
    if (copy) {
        looking_.start([this, file = copy->file, book = bookPath().toStdString()](const BackgroundTask::TaskProgress&) {
            const auto looked = lookedInto(file, book);
            return [this, looked] { show(looked); };
        });
    }
}

void CopiesPage::show(const Looked& looked) {
    QStringList lines;
    if (looked.inside) {
        lines << words::insideOf(*looked.inside, zone_);
    }
    if (looked.differences) {
        lines << QString{} << words::differences(*looked.differences);
    } else {
        lines << QString{} << tr("It could not be compared with the logbook: %1.").arg(looked.trouble);
    }
    inside_->setText(lines.join(QLatin1Char{'\n'}));
    inside_->setAccessibleName(inside_->text());
}

void CopiesPage::restoreToNew() {
    const auto copy = chosen();
    const QFileInfo book{bookPath()};
    const QString suggested =
        book.absolutePath() + QLatin1Char{'/'} + book.completeBaseName() + tr(" restored") + QStringLiteral(".midden");
    const auto file = prompts_.fileToSave(this, tr("Restore to a new file"), suggested, tr("Logbooks (*.midden)"));
    if (!copy || !file) {
        return;
    }
    try {
        Logbook::open(copy->file, Logbook::Mode::readOnly).backUpTo(file->toStdString());
    } catch (const std::exception& error) {
        inside_->setText(words::sentence(error));
        return;
    }
    emit restored(*file);
}

void CopiesPage::askToReplace() {
    const auto copy = chosen();
    const QString name = QFileInfo{bookPath()}.fileName();
    const QString when = copy ? words::fullDayAndTime(zone_.momentAt(copy->made)) : QString{};
    if (copy && prompts_.confirm(this,
                                 tr("Put the copy of %1 in the place of %2? What %2 holds now is kept as a copy first; "
                                    "if it cannot be read, the file itself is set aside.")
                                     .arg(when, name),
                                 tr("Put it in place"))) {
        emit replaceWanted(bookPath(), pathOf(copy->file));
    }
}

void CopiesPage::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        emit closed();
        return;
    }
    QWidget::keyPressEvent(event);
}

}  // namespace midden::ui
