// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/certificate/certificate_desk.h"

#include <QRegularExpression>
#include <QStringList>
#include <algorithm>
#include <limits>

#include "core/store/entries/take_back.h"
#include "core/store/read/book_rules.h"
#include "ui/certificate/certificate_file.h"
#include "ui/certificate/paper_chart.h"
#include "ui/certificate/printed_certificate.h"

namespace midden::ui {

namespace {

QPageSize::PageSizeId paperOf(const Book& book) {
    return paperFor(book.setting(setting::paper));
}

}  // namespace

CertificateDesk::CertificateDesk(Book& book) : book_{book} {}

void CertificateDesk::lookAt(std::optional<BatchId> batch) {
    if (batch != batch_) {
        judgements_.clear();
        sheet_.reset();
        drafted_.reset();
        harvest_.reset();
    }
    batch_ = batch;
    chosen_.clear();
    const auto ids = book_.setting(setting::inForce).split(QLatin1Char{' '}, Qt::SkipEmptyParts);
    for (const auto& id : ids) {
        chosen_.push_back(id.toStdString());
    }
}

void CertificateDesk::lookAtHarvest(std::optional<Instant> harvest) {
    if (harvest != harvest_) {
        judgements_.clear();
        sheet_.reset();
        drafted_.reset();
    }
    harvest_ = harvest;
}

std::vector<Harvest> CertificateDesk::harvests() const {
    const auto batch = batch_ ? book_.log().batch(*batch_) : std::nullopt;
    if (!batch || !batch->fed) {
        return {};
    }
    auto harvests = book_.log().recordSince(batch->id, Instant{std::numeric_limits<std::int64_t>::max()}).harvests;
    std::ranges::reverse(harvests);
    return harvests;
}

CertificateDesk::Work CertificateDesk::work() const {
    if (harvest_) {
        return [batch = *batch_, at = *harvest_](const Logbook& logbook, const ProgressCallback& onProgress) {
            auto draft = draftHarvest(logbook, batch, at);
            if (!draft || !onProgress(1)) {
                return std::shared_ptr<Drafted>{};
            }
            return std::make_shared<Drafted>(Drafted{{}, {}, {}, *std::move(draft)});
        };
    }
    return [batch = *batch_, chosen = chosen_](const Logbook& logbook, const ProgressCallback& onProgress) {
        std::vector<Criterion> criteria;
        for (auto& criterion : criteriaOf(logbook)) {
            if (std::find(chosen.begin(), chosen.end(), criterion.id) != chosen.end()) {
                criteria.push_back(std::move(criterion));
            }
        }
        if (criteria.empty()) {
            criteria = {targetOf(logbook)};
        }
        std::vector<Information> information;
        for (const auto& row : shippedInformation()) {
            if (std::find(chosen.begin(), chosen.end(), row.id) != chosen.end()) {
                information.push_back(row);
            }
        }
        auto draft = draftCertificate(logbook, batch, std::move(criteria), std::move(information), onProgress);
        if (!draft) {
            return std::shared_ptr<Drafted>{};
        }
        const auto questions = questionsOf(logbook);
        auto judgements = judgeAll(questions.criteria, draft->record, questions.materials);
        auto drafted = std::make_shared<Drafted>(Drafted{std::move(judgements), *std::move(draft), {}, {}});
        drafted->pyramids = pyramidsOf(drafted->draft->record);
        return drafted;
    };
}

void CertificateDesk::take(std::shared_ptr<Drafted> drafted) {
    sheet_.reset();  // it draws from the draft before
    drafted_ = std::move(drafted);
    judgements_ = drafted_->judgements;
    if (drafted_->harvest) {
        const IssueNote preview{{}, book_.now(), {}, drafted_->harvest->digest};
        sheet_ = sheetOf(*drafted_->harvest, preview, book_.zone(), paper());
        return;
    }
    const IssueNote preview{{}, book_.now(), {}, drafted_->draft->digest};
    sheet_ = sheetOf(*drafted_->draft, preview, book_.zone(), paper(), drafted_->pyramids);
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
        book_.setSetting(setting::inForce, ids.join(QLatin1Char{' '}));
    }
}

QSizeF CertificateDesk::paper() const {
    return millimetresOf(paperOf(book_));
}

QString CertificateDesk::interim() const {
    return drafted_->draft ? QString::fromStdString(certificateOf(*drafted_->draft, {}, book_.zone()).interim)
                           : QString{};
}

std::vector<IssuedCertificate> CertificateDesk::issued() const {
    return batch_ ? book_.log().certificates(*batch_) : std::vector<IssuedCertificate>{};
}

IssuedCertificate CertificateDesk::numbered() const {
    return drafted_->harvest ? numberedHarvest(book_.log(), *drafted_->harvest, book_.now().at)
                             : numberedCertificate(book_.log(), *drafted_->draft, book_.now().at);
}

bool CertificateDesk::store(const IssuedCertificate& certificate) {
    const bool isNew = !book_.log().certificate(certificate.number);
    storeOnce(book_.writable(), certificate);
    return isNew;
}

void CertificateDesk::takeBack(const IssuedCertificate& certificate) {
    takeBackCertificate(book_.writable().file(), certificate.number);
}

QByteArray CertificateDesk::pdf(const IssuedCertificate& certificate) const {
    return drafted_->harvest ? harvestPdf(*drafted_->harvest, certificate, book_.zone(), paperOf(book_))
                             : certificatePdf(*drafted_->draft, certificate, book_.zone(), paperOf(book_));
}

std::unique_ptr<CertificateSheet> CertificateDesk::sheetFor(const IssuedCertificate& certificate, QSizeF paper) const {
    const auto note = noteOf(certificate, book_.zone());
    return drafted_->harvest ? sheetOf(*drafted_->harvest, note, book_.zone(), paper)
                             : sheetOf(*drafted_->draft, note, book_.zone(), paper);
}

QString CertificateDesk::suggestedFile() const {
    const BatchRecord& record = drafted_->harvest ? drafted_->harvest->record : drafted_->draft->record;
    auto name = QString::fromStdString(record.batch.name).toLower();
    name.replace(QRegularExpression{QStringLiteral("[^\\p{L}\\p{N}]+")}, QStringLiteral("-"));
    const QString kind = drafted_->harvest ? QStringLiteral("harvest") : QStringLiteral("certificate");
    return QStringLiteral("%1-%2.pdf").arg(kind, name.left(60));
}

}  // namespace midden::ui
