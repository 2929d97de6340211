// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/certificate/certificate_desk.h"

#include <QRegularExpression>
#include <QStringList>
#include <algorithm>

#include "core/logbook/book_rules.h"
#include "ui/certificate/certificate_file.h"
#include "ui/certificate/printed_certificate.h"

namespace midden::ui {

namespace {

constexpr auto chosenSetting = "certificate_criteria";  ///< ids, parted by spaces
constexpr auto paperSetting = "paper";                  ///< "a4", "letter"; empty = as the country does

QPageSize::PageSizeId paperOf(const Book& book) {
    return paperFor(book.setting(paperSetting));
}

}  // namespace

CertificateDesk::CertificateDesk(Book& book) : book_{book} {}

void CertificateDesk::lookAt(std::optional<BatchId> batch) {
    batch_ = batch;
    sheet_.reset();
    draft_.reset();
    judgements_.clear();
    if (!batch) {
        return;
    }
    chosen_.clear();
    const auto ids = book_.setting(chosenSetting, QStringLiteral("target")).split(QLatin1Char{' '}, Qt::SkipEmptyParts);
    for (const auto& id : ids) {
        chosen_.push_back(id.toStdString());
    }
    judgements_ = reviewOf(book_.log().record(*batch), questionsOf(book_.log())).criteria;
    draw();
}

bool CertificateDesk::isChosen(const std::string& id) const {
    return std::find(chosen_.begin(), chosen_.end(), id) != chosen_.end();
}

void CertificateDesk::choose(const std::string& id, bool chosen) {
    if (chosen == isChosen(id)) {
        return;
    }
    if (chosen) {
        chosen_.push_back(id);
    } else if (chosen_.size() > 1) {
        std::erase(chosen_, id);
    }
    QStringList ids;
    for (const auto& one : chosen_) {
        ids += QString::fromStdString(one);
    }
    if (!book_.isReadOnly()) {
        book_.setSetting(chosenSetting, ids.join(QLatin1Char{' '}));
    }
    draw();
}

std::vector<Criterion> CertificateDesk::chosenCriteria() const {
    std::vector<Criterion> criteria;
    for (const auto& judgement : judgements_) {
        if (isChosen(judgement.criterion.id)) {
            criteria.push_back(judgement.criterion);
        }
    }
    return criteria.empty() ? std::vector{targetOf(book_.log())} : criteria;
}

void CertificateDesk::draw() {
    sheet_.reset();
    draft_ = std::make_unique<CertificateDraft>(draftCertificate(book_.log(), *batch_, chosenCriteria()));
    const IssueNote preview{{}, book_.now(), {}, draft_->digest};
    sheet_ = sheetOf(*draft_, preview, book_.zone(), paper());
}

QSizeF CertificateDesk::paper() const {
    return millimetresOf(paperOf(book_));
}

QString CertificateDesk::interim() const {
    return QString::fromStdString(certificateOf(*draft_, {}, book_.zone()).interim);
}

std::vector<IssuedCertificate> CertificateDesk::issued() const {
    return batch_ ? book_.log().certificates(*batch_) : std::vector<IssuedCertificate>{};
}

IssuedCertificate CertificateDesk::numbered() const {
    return numberedCertificate(book_.log(), *draft_, book_.now().at);
}

void CertificateDesk::store(const IssuedCertificate& certificate) {
    storeOnce(book_.writable(), certificate);
}

QByteArray CertificateDesk::pdf(const IssuedCertificate& certificate) const {
    return certificatePdf(*draft_, certificate, book_.zone(), paperOf(book_));
}

std::unique_ptr<CertificateSheet> CertificateDesk::sheetFor(const IssuedCertificate& certificate, QSizeF paper) const {
    const auto note = noteOf(certificate, book_.zone());
    return sheetOf(*draft_, note, book_.zone(), paper);
}

QString CertificateDesk::suggestedFile() const {
    auto name = QString::fromStdString(draft_->record.batch.name).toLower();
    name.replace(QRegularExpression{QStringLiteral("[^\\p{L}\\p{N}]+")}, QStringLiteral("-"));
    return QStringLiteral("certificate-%1.pdf").arg(name.left(60));
}

}  // namespace midden::ui
