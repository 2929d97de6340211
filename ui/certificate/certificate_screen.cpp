// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/certificate/certificate_screen.h"

#include <QCheckBox>
#include <QComboBox>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QPrinter>
#include <QPushButton>
#include <QScrollArea>
#include <QSignalBlocker>
#include <QTimer>
#include <QVBoxLayout>
#include <algorithm>

#include "ui/certificate/certificate_file.h"
#include "ui/certificate/criteria_choice.h"
#include "ui/certificate/page_view.h"
#include "ui/shared/flow_layout.h"
#include "ui/shared/hairline.h"
#include "ui/shared/looked_at.h"
#include "ui/shared/prompts.h"
#include "ui/shared/waiting_bar.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {
// Of the side, in letters.
constexpr int leastSide = 30;
constexpr int widestSide = 54;

QLabel* plainLabel(QWidget* parent) {
    auto* label = new QLabel{parent};
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    return label;
}

QScrollArea* scrolling(QWidget* content, QWidget* parent) {
    auto* area = new QScrollArea{parent};
    area->setWidget(content);
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    return area;
}

}  // namespace

CertificateScreen::CertificateScreen(Book& book, Prompts& prompts, QWidget* parent)
    : QWidget{parent},
      book_{book},
      prompts_{prompts},
      desk_{book},
      later_{new QTimer{this}},
      page_{new PageView},
      waiting_{new WaitingBar{tr("Judging the batch …"), [this] { return task_.share(); }, this}} {
    auto* pages = scrolling(page_, this);
    pages->setObjectName(QStringLiteral("pages"));
    pages->setAccessibleName(tr("Pages"));
    auto* row = new QHBoxLayout{this};
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    auto* left = new QVBoxLayout;
    waiting_->layout()->setContentsMargins(16, 8, 16, 8);
    left->addWidget(waiting_);
    left->addWidget(pages, 1);
    row->addLayout(left, 3);
    row->addWidget(new Hairline{Qt::Vertical, this});
    row->addWidget(makeSide(), 2);
    setTabOrder(pages, batches_);
    connectParts();
}

QWidget* CertificateScreen::makeSide() {
    auto* side = new QWidget{this};
    const int letter = side->fontMetrics().averageCharWidth();
    side->setMinimumWidth(leastSide * letter);
    side->setMaximumWidth(widestSide * letter);
    makeParts(side);
    auto* list = scrolling(criteria_, side);
    list->setObjectName(QStringLiteral("certificateCriteria"));
    list->setAccessibleName(tr("Criteria"));
    auto* buttons = new FlowLayout{8};
    buttons->addWidget(save_);
    buttons->addWidget(print_);
    auto* check = new QHBoxLayout;
    check->addWidget(issued_, 1);
    check->addWidget(verify_);
    auto* column = new QVBoxLayout{side};
    column->setContentsMargins(16, 16, 16, 16);
    column->setSpacing(8);
    column->addWidget(batches_);
    column->addWidget(harvests_);
    column->addWidget(interim_);
    column->addWidget(list, 1);
    column->addLayout(buttons);
    column->addLayout(check);
    column->addWidget(answer_);
    return side;
}

void CertificateScreen::makeParts(QWidget* side) {
    const auto named = [](auto* widget, const char* name) {
        widget->setObjectName(QLatin1String{name});
        return widget;
    };
    batches_ = named(new QComboBox{side}, "batch");
    batches_->setAccessibleName(tr("Batch"));
    batches_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    harvests_ = named(new QComboBox{side}, "harvest");
    harvests_->setAccessibleName(tr("Of the whole batch or of a harvest"));
    harvests_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    harvests_->hide();
    interim_ = plainLabel(side);
    criteria_ = new CriteriaChoice;
    save_ = named(new QPushButton{tr("Save as P&DF…"), side}, "save");
    print_ = named(new QPushButton{tr("&Print…"), side}, "print");
    issued_ = named(new QComboBox{side}, "issued");
    issued_->setAccessibleName(tr("Certificates issued"));
    verify_ = named(new QPushButton{tr("&Verify"), side}, "verify");
    answer_ = named(plainLabel(side), "answer");
    answer_->setAccessibleName(tr("Answer"));
    answer_->setTextInteractionFlags(Qt::TextSelectableByMouse);
}

void CertificateScreen::connectParts() {
    later_->setSingleShot(true);
    connect(later_, &QTimer::timeout, this, [this] {
        stale_ = false;
        attempt([this] { refresh(); });
    });
    connect(&book_, &Book::changed, this, &CertificateScreen::refreshLater);
    connect(&book_, &Book::looksAtChanged, this, &CertificateScreen::refreshLater);
    connect(&book_, &Book::aboutToWrite, this, &CertificateScreen::releaseFile);
    connect(waiting_, &WaitingBar::stopWanted, this, &CertificateScreen::stop);
    connect(batches_, &QComboBox::activated, this,
            [this](int index) { attempt([&] { lookAt(BatchId{batches_->itemData(index).toLongLong()}); }); });
    connect(harvests_, &QComboBox::activated, this, [this](int index) {
        const auto at = harvests_->itemData(index);
        page_->show(nullptr, {});  // it draws from the desk
        desk_.lookAtHarvest(at.isValid() ? std::optional{Instant{at.toLongLong()}} : std::nullopt);
        showPage();
        refreshLater();
    });
    connect(criteria_, &CriteriaChoice::chosen, this, [this](const QString& id, bool isChosen) {
        attempt([&] { desk_.choose(id.toStdString(), isChosen); });
        showPage();
        refreshLater();
    });
    connect(save_, &QPushButton::clicked, this, [this] { attempt([this] { save(); }); });
    connect(print_, &QPushButton::clicked, this, [this] { attempt([this] { print(); }); });
    connect(verify_, &QPushButton::clicked, this, &CertificateScreen::verify);
}

void CertificateScreen::attempt(const std::function<void()>& work) {
    try {
        work();
    } catch (const LogbookError& error) {
        emit book_.troubled(QString::fromUtf8(error.what()));
    }
}

void CertificateScreen::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    if (stale_) {
        later_->start();
    }
}

void CertificateScreen::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    batches_->setFocus();
}

void CertificateScreen::lookAt(BatchId chosen) {
    if (chosen == desk_.batch()) {
        refreshLater();  // after it was stopped
        return;
    }
    lookAtBatch(book_, chosen);
}

/// Judging takes a moment, so it waits until somebody looks, and is done once for any number of changes.
void CertificateScreen::refreshLater() {
    stale_ = true;
    if (isVisible()) {
        later_->start();
    }
}

void CertificateScreen::refresh() {
    verifying_.drop();
    answer_->clear();
    showBatches();
    const auto id = batches_->currentData();
    const auto batch = id.isValid() ? std::optional{BatchId{id.toLongLong()}} : std::nullopt;
    if (batch != desk_.batch() || !desk_.hasPage()) {
        page_->show(nullptr, {});
    }
    desk_.lookAt(batch);
    showHarvests();
    draft();
    showPage();
    showIssued();
}

void CertificateScreen::showBatches() {
    const QSignalBlocker quiet{batches_};
    batches_->clear();
    for (const auto& batch : book_.log().batches()) {
        batches_->insertItem(0, words::text(batch.name), static_cast<qlonglong>(batch.id));
    }
    const auto looked = book_.batch() ? batches_->findData(static_cast<qlonglong>(*book_.batch())) : -1;
    batches_->setCurrentIndex(std::max(looked, 0));
}

/// The latest harvest comes first after the batch itself.
void CertificateScreen::showHarvests() {
    const QSignalBlocker quiet{harvests_};
    harvests_->clear();
    harvests_->addItem(tr("The whole batch"));
    for (const Harvest& harvest : desk_.harvests()) {
        harvests_->addItem(
            tr("Harvest of %1, %2 L")
                .arg(words::dayAndTime(harvest.when, book_.now()), words::number(harvest.volumeLitres, 0)),
            static_cast<qlonglong>(harvest.when.at.utcSeconds));
    }
    const auto chosen = desk_.harvest();
    const int row = chosen ? harvests_->findData(static_cast<qlonglong>(chosen->utcSeconds)) : 0;
    if (row < 0) {  // it was taken back
        page_->show(nullptr, {});
        desk_.lookAtHarvest(std::nullopt);
    }
    harvests_->setCurrentIndex(std::max(row, 0));
    harvests_->setVisible(harvests_->count() > 1);
}

void CertificateScreen::showPage() {
    const bool some = desk_.hasPage();
    page_->show(some ? &desk_.sheet() : nullptr, some ? desk_.paper() : QSizeF{});
    criteria_->show(desk_.judgements(), [this](const std::string& id) { return desk_.isChosen(id); });
    criteria_->setVisible(!desk_.harvest());
    setTabOrder(batches_, harvests_);
    QWidget* before = harvests_;  // the criteria's boxes came after the buttons below them
    for (auto* box : criteria_->findChildren<QCheckBox*>()) {
        setTabOrder(before, box);
        before = box;
    }
    setTabOrder(before, save_);
    interim_->setText(some            ? desk_.interim()
                      : desk_.batch() ? QString{}
                                      : tr("No batch has begun yet. Start one on the Round."));
    interim_->setVisible(!interim_->text().isEmpty());
    for (auto* button : {save_, print_}) {
        button->setEnabled(some && !task_.isRunning() && !book_.isReadOnly());
    }
}

void CertificateScreen::showIssued() {
    issued_->clear();
    for (const auto& certificate : desk_.issued()) {
        issued_->insertItem(0, words::text(certificate.number));
    }
    issued_->setCurrentIndex(0);
    issued_->setEnabled(issued_->count() > 0);
    verify_->setEnabled(issued_->count() > 0);
    issued_->setPlaceholderText(tr("none issued yet"));
}

void CertificateScreen::save() {
    const auto path = prompts_.fileToSave(this, tr("Save the certificate"), desk_.suggestedFile(), tr("PDF (*.pdf)"));
    if (!path) {
        return;
    }
    saveAs(*path);
}

void CertificateScreen::saveAs(const QString& path) {
    try {
        auto file = certificateFile(path.toStdString());
        const auto certificate = desk_.numbered();
        bool isNew = false;
        saveIssued(file, desk_.pdf(certificate),
                   {[&] { isNew = desk_.store(certificate); },
                    [&] {
                        if (isNew) {
                            desk_.takeBack(certificate);
                        }
                    }});
        emit book_.told(tr("Saved: %1").arg(QFileInfo{path}.fileName()));
        answer_->setText(tr("Issued as certificate %1.").arg(words::text(certificate.number)));
    } catch (const std::exception& trouble) {
        emit book_.troubled(tr("The certificate could not be saved: %1").arg(QString::fromUtf8(trouble.what())));
    }
    showIssued();
}

void CertificateScreen::print() {
    QPrinter printer{QPrinter::HighResolution};
    printer.setFullPage(true);
    printer.setPageSize(QPageSize{desk_.paper(), QPageSize::Millimeter});
    if (!prompts_.choosePrinter(this, printer)) {
        return;
    }
    if (!printer.outputFileName().isEmpty()) {  // "print to a file" is saving
        saveAs(printer.outputFileName());
        return;
    }
    printer.setFullPage(true);
    const auto certificate = desk_.numbered();
    const auto sheet = desk_.sheetFor(certificate, printer.pageLayout().fullRect(QPageLayout::Millimeter).size());
    desk_.store(certificate);
    showIssued();
    if (sheet->print(printer)) {
        emit book_.told(tr("Certificate %1 went to the printer.").arg(words::text(certificate.number)));
    } else {
        emit book_.troubled(tr("The printer did not take the certificate; save it as PDF instead."));
    }
}

}  // namespace midden::ui
