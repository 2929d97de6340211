// SPDX-License-Identifier: GPL-3.0-or-later
#include <CLI/CLI.hpp>
#include <QGuiApplication>
#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <functional>
#include <iostream>
#include <limits>
#include <memory>

#include "app/commands/commands.h"
#include "app/commands/damage_note.h"
#include "app/commands/shown_zone.h"
#include "app/process.h"
#include "core/certificate/harvest_issue.h"
#include "core/certificate/issue.h"
#include "core/quantities/utf8.h"
#include "core/store/entries/take_back.h"
#include "core/store/read/book_rules.h"
#include "ui/certificate/certificate_file.h"
#include "ui/certificate/printed_certificate.h"

namespace midden::app {

namespace {

struct CertificateOptions {
    std::string logbook;
    std::string batch;
    std::string harvest;
    std::string output;
    std::vector<std::string> criteria;
    std::string issued;
    std::string paper;
};

/// A time without an offset is one of the book's zone.
Moment timeOf(const std::string& option, const std::string& typed, const TimeZone& zone) {
    const bool dateAlone = typed.size() == std::string_view{"2026-03-20"}.size();
    const auto time = parseIsoTime(dateAlone ? typed + "T00:00" : typed);
    if (!time) {
        throw WrongUsage{option + ": " + time.error().sentence()};
    }
    if (time->hasOffset) {
        return zone.momentAt(instantOf(time->wall, time->offset));
    }
    const auto meaning = zone.meaningOf(time->wall);
    if (const auto* moment = std::get_if<Moment>(&meaning)) {
        return *moment;
    }
    throw WrongUsage{option + ": on that day the clocks change at that time; expected a time with its offset from UTC"};
}

Moment issuedAt(const std::string& typed, const TimeZone& zone) {
    if (typed.empty()) {
        const auto now = std::chrono::system_clock::now().time_since_epoch();
        return zone.momentAt({std::chrono::duration_cast<std::chrono::seconds>(now).count()});
    }
    return timeOf("--issued", typed, zone);
}

std::vector<Information> informationChosen(const std::vector<std::string>& ids) {
    std::vector<Information> chosen;
    for (const auto& id : ids) {
        if (const auto* row = informationOf(id)) {
            chosen.push_back(*row);
        }
    }
    return chosen;
}

std::vector<Criterion> criteriaChosen(const Logbook& book, const std::vector<std::string>& typed) {
    auto ids = typed;
    std::erase_if(ids, [](const std::string& id) { return informationOf(id) != nullptr; });
    if (ids.empty()) {
        return {targetOf(book)};
    }
    const auto all = criteriaOf(book);
    std::vector<Criterion> chosen;
    for (const auto& id : ids) {
        const auto found = std::find_if(all.begin(), all.end(), [&](const Criterion& one) { return one.id == id; });
        if (found == all.end()) {
            throw WrongUsage{"--criterion: \"" + id + "\" is not a criterion of this book"};
        }
        chosen.push_back(*found);
    }
    return chosen;
}

/// Without a display Qt remarks on its own runtime folder; that is of no use to anybody.
/// What Qt cannot go on after ends the program before anything is kept, without a signal.
void passOn(QtMsgType type, const QMessageLogContext& /*context*/, const QString& message) {
    if (!message.startsWith(QLatin1String{"QStandardPaths: XDG_RUNTIME_DIR"})) {
        std::cerr << printable(message.toStdString()) << '\n';
    }
    if (type == QtFatalMsg) {
        std::_Exit(static_cast<int>(ExitStatus::badInput));
    }
}

/// Qt's writer of PDF files goes on with what it did not get, to where that ends the program.
constexpr std::size_t memoryForPage = std::size_t{128} << 20U;

/// The PDF needs fonts, and so a Qt application; without a display it does without one.
std::unique_ptr<QGuiApplication> startQt() {
    if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM") && qEnvironmentVariableIsEmpty("DISPLAY") &&
        qEnvironmentVariableIsEmpty("WAYLAND_DISPLAY")) {
        qputenv("QT_QPA_PLATFORM", "offscreen");
    }
    qInstallMessageHandler(passOn);
    static int argc = 1;
    static char name[] = "middenbook";
    static char* argv[] = {name, nullptr};
    return std::make_unique<QGuiApplication>(argc, argv);
}

/// The number is all there is to say: where standard output does not take it, standard error gets it.
void tellNumber(const std::string& number) {
    std::cout << number << '\n' << std::flush;
    if (!std::cout) {
        std::cerr << "The certificate's number is " << number << ".\n";
    }
}

/// Something that is numbered, and how its page is drawn.
struct Page {
    IssuedCertificate certificate;
    std::function<QByteArray(QPageSize::PageSizeId)> pdf;
};

Page batchPage(const Logbook& book, const Batch& batch, const CertificateOptions& options, const TimeZone& zone) {
    const auto draft = std::make_shared<const CertificateDraft>(
        draftCertificate(book, batch.id, criteriaChosen(book, options.criteria), informationChosen(options.criteria)));
    const auto certificate = numberedCertificate(book, *draft, issuedAt(options.issued, zone).at);
    return {certificate, [draft, certificate, zone](QPageSize::PageSizeId size) {
                return ui::certificatePdf(*draft, certificate, zone, size);
            }};
}

/// A time to the minute finds the harvest of that minute.
Instant harvestAt(const Logbook& book, const Batch& batch, const std::string& typed, const TimeZone& zone) {
    constexpr Seconds oneMinute{60};
    const Instant asked = timeOf("--harvest", typed, zone).at;
    const bool hasSeconds =
        std::count(typed.begin(), typed.begin() + static_cast<std::ptrdiff_t>(std::min(typed.size(), std::size_t{19})),
                   ':') == 2;
    for (const Harvest& harvest : book.recordSince(batch.id, {std::numeric_limits<std::int64_t>::max()}).harvests) {
        const Seconds later = harvest.when.at - asked;
        if (later == Seconds{} || (!hasSeconds && later > Seconds{} && later < oneMinute)) {
            return harvest.when.at;
        }
    }
    throw WrongUsage{"--harvest: nothing was taken out of \"" + batch.name + "\" at " + isoUtc(asked)};
}

Page harvestPage(const Logbook& book, const Batch& batch, const CertificateOptions& options, const TimeZone& zone) {
    if (!batch.fed) {
        throw WrongUsage{"--harvest: \"" + batch.name + "\" is not fed, so there is no record of a harvest"};
    }
    if (!options.criteria.empty()) {
        throw WrongUsage{"--harvest: a harvest is judged by no criterion; leave out --criterion"};
    }
    const auto draft = std::make_shared<const std::optional<HarvestDraft>>(
        draftHarvest(book, batch.id, harvestAt(book, batch, options.harvest, zone)));
    const auto certificate = numberedHarvest(book, draft->value(), issuedAt(options.issued, zone).at);
    return {certificate, [draft, certificate, zone](QPageSize::PageSizeId size) {
                return ui::harvestPdf(draft->value(), certificate, zone, size);
            }};
}

ExitStatus issueCertificate(const CertificateOptions& options) {
    auto book = Logbook::open(options.logbook, Logbook::Mode::readWrite);
    const auto batch = book.batchNamed(options.batch);
    if (!batch) {
        throw WrongUsage{"The book has no batch called \"" + options.batch + "\"."};
    }
    const auto zone = shownZone(book);
    auto output = ui::certificateFile(options.output);
    const Page page =
        options.harvest.empty() ? batchPage(book, *batch, options, zone) : harvestPage(book, *batch, options, zone);
    const auto& certificate = page.certificate;
    nameUnreadable(book);
    expectMemory(memoryForPage);
    const auto application = startQt();
    const auto paper = options.paper.empty() ? book.setting(setting::paper) : options.paper;
    const auto pdf = page.pdf(ui::paperFor(QString::fromStdString(paper)));
    const bool isNew = !book.certificate(certificate.number);
    try {
        ui::saveIssued(output, pdf,
                       {[&] { storeOnce(book, certificate); },
                        [&] {
                            if (isNew) {
                                takeBackCertificate(book.file(), certificate.number);
                            }
                        }});
    } catch (const ui::NumberStays& trouble) {
        throw PartlyDone{std::string{trouble.what()} + ": " + certificate.number};
    }
    return doneAndTold("The certificate is in the logbook and in its file", ExitStatus::done,
                       [&] { tellNumber(certificate.number); });
}

}  // namespace

void addCertificateCommand(CLI::App& program, Action& chosen) {
    auto* command = program.add_subcommand("certificate", "Write a batch's certificate as PDF and print its number");
    auto options = std::make_shared<CertificateOptions>();
    command->add_option("LOGBOOK", options->logbook, "The book's file")->required();
    command->add_option("--batch", options->batch, "The batch's name")->required();
    command->add_option("--harvest", options->harvest,
                        "The record of what was taken out of a fed batch at that time, as 2026-06-20T18:00, instead");
    command->add_option("--output", options->output, "The PDF file to write")->required();
    command->add_option("--criterion", options->criteria, "Judge by this criterion; may be given several times")
        ->default_str("target");
    command->add_option("--issued", options->issued, "When it is issued, as 2026-03-20T10:00+00:00")
        ->default_str("now");
    command->footer(
        "A certificate that this command wrote before may be replaced, as long as nobody has changed it; any other\n"
        "file is left alone. It is made to be shown: whoever may read your new files may read it (see umask).");
    command->add_option("--paper", options->paper, "a4 or letter")->check(CLI::IsMember({"a4", "letter"}));
    command->callback([options, &chosen] { chosen = [options] { return issueCertificate(*options); }; });
}

}  // namespace midden::app
