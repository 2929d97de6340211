// SPDX-License-Identifier: GPL-3.0-or-later
// How the certificate's page is made beside the window.
#include <QLabel>

#include "ui/certificate/certificate_screen.h"
#include "ui/certificate/page_view.h"
#include "ui/shared/waiting_bar.h"

namespace midden::ui {

void CertificateScreen::draft() {
    task_.drop();
    if (!desk_.batch()) {
        waiting_->end();
        return;
    }
    if (book_.log().file().empty()) {  // a book in memory is read on the spot
        take(desk_.work()(book_.log(), [](double) { return true; }), {});
        return;
    }
    task_.start([this, work = desk_.work(),
                 file = book_.log().file()](const BackgroundTask::TaskProgress& progress) -> BackgroundTask::Delivery {
        try {
            const auto logbook = Logbook::open(file, Logbook::Mode::readOnly);
            return [this, drafted = work(logbook, progress)] { take(drafted, {}); };
        } catch (const std::exception& error) {
            return [this, sentence = QString::fromUtf8(error.what())] { take({}, sentence); };
        }
    });
    waiting_->begin();
}

/// What was drafted; without it, why it could not be.
void CertificateScreen::take(const std::shared_ptr<CertificateDesk::Drafted>& drafted, const QString& trouble) {
    waiting_->end();
    if (!trouble.isEmpty()) {
        emit book_.troubled(trouble);
    }
    if (drafted) {
        page_->show(nullptr, {});
        attempt([&] { desk_.take(drafted); });
    }
    showPage();
}

/// Lets go of the file, so that it can be written to; begins again as soon as the window is at rest.
void CertificateScreen::releaseFile() {
    if (verifying_.isRunning()) {
        verifying_.drop();
        answer_->clear();
    }
    if (task_.isRunning()) {
        task_.drop();
        refreshLater();
    }
}

void CertificateScreen::stop() {
    task_.drop();
    waiting_->end();
    showPage();
    interim_->setText(tr("Reading was stopped. Choose the batch again to read it."));
    interim_->show();
}

}  // namespace midden::ui
