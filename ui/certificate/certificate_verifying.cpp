// SPDX-License-Identifier: GPL-3.0-or-later
// How an issued certificate is compared with the record, beside the window.
#include <QComboBox>
#include <QLabel>

#include "ui/certificate/certificate_screen.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr int changesNamed = 12;  ///< on the screen; the command line names them all

QString answerOf(const Verification& verification) {
    if (verification.stands()) {
        return CertificateScreen::tr("The record is still the one certificate %1 was issued on.")
            .arg(words::text(verification.certificate.number));
    }
    const auto headline = verification.changes.empty()
                              ? CertificateScreen::tr("Certificate %1 is no longer kept as it was issued.")
                              : CertificateScreen::tr("The record is no longer the one certificate %1 was issued on.");
    QString answer = headline.arg(words::text(verification.certificate.number));
    if (!verification.storedTextIntact) {
        answer += QLatin1Char{'\n'} +
                  CertificateScreen::tr("The text kept with it does not have the digest that was printed.");
    }
    if (!verification.numberFits) {
        answer += QLatin1Char{'\n'} +
                  CertificateScreen::tr(
                      "The number and the date of issue are not those this record was given; one of them was changed.");
    }
    int named = 0;
    for (const auto& change : verification.changes) {
        if (++named > changesNamed) {
            const auto more = static_cast<int>(verification.changes.size()) - changesNamed;
            return answer + QLatin1Char{'\n'} + CertificateScreen::tr("and %n more", nullptr, more);
        }
        answer += QLatin1Char{'\n'} + words::text(change);
    }
    return answer;
}

}  // namespace

void CertificateScreen::verify() {
    const QString number = issued_->currentText();
    const auto compare = [this, number](const Logbook& logbook) -> BackgroundTask::Delivery {
        const auto verification = verifyCertificate(logbook, number.toStdString());
        return [this, answer = verification ? answerOf(*verification) : QString{}] { answer_->setText(answer); };
    };
    if (book_.log().file().empty()) {  // a book in memory is read on the spot
        attempt([&] { compare(book_.log())(); });
        return;
    }
    answer_->setText(tr("Comparing the record with certificate %1…").arg(number));
    verifying_.start(
        [this, compare, file = book_.log().file()](const BackgroundTask::TaskProgress&) -> BackgroundTask::Delivery {
            try {
                return compare(Logbook::open(file, Logbook::Mode::readOnly));
            } catch (const std::exception& error) {
                return [this, sentence = QString::fromUtf8(error.what())] {
                    answer_->clear();
                    emit book_.troubled(sentence);
                };
            }
        });
}

}  // namespace midden::ui
