// SPDX-License-Identifier: GPL-3.0-or-later
#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "app/commands/commands.h"
#include "core/certificate/issue.h"
#include "core/quantities/utf8.h"

namespace midden::app {

namespace {

struct VerifyOptions {
    std::string logbook;
    std::string number;
};

void tell(const Verification& verification) {
    const auto& certificate = verification.certificate;
    std::cout << (verification.harvest ? "Harvest record " : "Certificate ") << printable(certificate.number) << " of "
              << printable(verification.batch);
    if (verification.harvest) {
        std::cout << ", taken out " << isoUtc(*verification.harvest);
    }
    std::cout << ", issued " << isoUtc(certificate.issued) << "\n";
    std::cout << "The digest on the page must read " << certificate.digest << "\n";
    if (!verification.supersededBy.empty()) {
        std::cout << "Certificate " << verification.supersededBy << " has taken its place.\n";
    }
    if (verification.stands()) {
        std::cout << "The record is still the one it was issued on.\n";
        return;
    }
    if (!verification.storedTextIntact) {
        std::cout << "The text kept with the certificate is not the one its digest was taken over.\n";
    }
    if (!verification.numberFits) {
        std::cout << "The number and the date of issue are not those this record was given; one of them was changed.\n";
    }
    if (!verification.changes.empty()) {
        std::cout << "The record is no longer the one it was issued on:\n";
    }
    for (const auto& change : verification.changes) {
        std::cout << "  " << printable(change) << "\n";
    }
}

ExitStatus verify(const VerifyOptions& options) {
    const auto book = Logbook::open(options.logbook, Logbook::Mode::readOnly);
    const auto verification = verifyCertificate(book, options.number);
    if (!verification) {
        throw WrongUsage{"The book holds no certificate with the number \"" + options.number + "\"."};
    }
    tell(*verification);
    return verification->stands() ? ExitStatus::done : ExitStatus::no;
}

}  // namespace

void addVerifyCommand(CLI::App& program, Action& chosen) {
    auto* command =
        program.add_subcommand("verify", "Say whether a batch's record is still the one its certificate was issued on");
    auto options = std::make_shared<VerifyOptions>();
    command->add_option("LOGBOOK", options->logbook, "The book's file")->required();
    command->add_option("--certificate", options->number, "The number printed on the page")->required();
    command->callback([options, &chosen] { chosen = [options] { return verify(*options); }; });
}

}  // namespace midden::app
