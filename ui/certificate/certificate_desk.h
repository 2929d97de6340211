// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "core/certificate/harvest_issue.h"
#include "core/certificate/issue.h"
#include "ui/certificate/certificate_sheet.h"
#include "ui/certificate/paper_chart.h"
#include "ui/shared/book.h"

namespace midden::ui {

/// What the Certificate screen works on: a batch, the criteria chosen for it, and its page. No widgets.
class CertificateDesk {
  public:
    explicit CertificateDesk(Book& book);

    /// Another batch has no page yet; `work` makes one, and a new one for the same.
    void lookAt(std::optional<BatchId> batch);
    std::optional<BatchId> batch() const { return batch_; }
    /// The page is to be the record of that harvest; none: the batch's certificate. There is no page yet then.
    void lookAtHarvest(std::optional<Instant> harvest);
    std::optional<Instant> harvest() const { return harvest_; }
    /// Those of a fed batch, latest first.
    std::vector<Harvest> harvests() const;
    bool hasPage() const { return sheet_ != nullptr; }

    /// What is read and judged for a page.
    struct Drafted {
        std::vector<Judgement> judgements;
        std::optional<CertificateDraft> draft;
        PaperPyramids pyramids;               ///< of the draft's record
        std::optional<HarvestDraft> harvest;  ///< one of the two drafts is there
    };
    /// Can be called beside the window, with a logbook of its own. Throws LogbookError; null when it was stopped.
    using Work = std::function<std::shared_ptr<Drafted>(const Logbook&, const ProgressCallback&)>;
    Work work() const;
    void take(std::shared_ptr<Drafted> drafted);

    /// Every criterion of the book judged over the batch, in the book's order.
    const std::vector<Judgement>& judgements() const { return judgements_; }
    bool isChosen(const std::string& id) const;
    /// Kept in the book. At least one criterion stays chosen: the page has to judge by something.
    void choose(const std::string& id, bool chosen);

    /// The page as a preview.
    const CertificateSheet& sheet() const { return *sheet_; }
    QSizeF paper() const;
    /// A sentence when the batch is still running, else empty.
    QString interim() const;
    std::vector<IssuedCertificate> issued() const;

    /// The certificate as it would be issued now.
    IssuedCertificate numbered() const;
    /// Throws LogbookError. True: it was not in the book before.
    bool store(const IssuedCertificate& certificate);
    void takeBack(const IssuedCertificate& certificate);
    QByteArray pdf(const IssuedCertificate& certificate) const;
    std::unique_ptr<CertificateSheet> sheetFor(const IssuedCertificate& certificate, QSizeF paper) const;
    QString suggestedFile() const;

  private:
    Book& book_;
    std::optional<BatchId> batch_;
    std::optional<Instant> harvest_;
    std::vector<std::string> chosen_;
    std::vector<Judgement> judgements_;
    std::shared_ptr<Drafted> drafted_;
    std::unique_ptr<CertificateSheet> sheet_;
};

}  // namespace midden::ui
