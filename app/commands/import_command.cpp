// SPDX-License-Identifier: GPL-3.0-or-later
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <memory>
#include <optional>
#include <string>

#include "app/commands/commands.h"
#include "core/exchange/plan/import.h"
#include "core/exchange/times/written_time.h"
#include "core/quantities/utf8.h"
#include "core/store/files/new_book.h"
#include "core/store/files/trial_copy.h"

namespace midden::app {

namespace {

struct ImportOptions {
    std::filesystem::path logbook;
    ImportRequest request;
    std::optional<std::string> batch;
    std::optional<std::string> zone;
    std::optional<std::string> unit;
    std::optional<std::string> start;
    std::optional<std::string> finish;
    bool dryRun = false;
};

void expectUsable(const std::optional<Refusal>& refusal) {
    if (refusal && refusal->wrongUsage) {
        throw WrongUsage{refusal->sentence()};
    }
    if (refusal) {
        throw BadInput{refusal->sentence()};
    }
}

template <class T>
T usable(FileResult<T> result) {
    if (!result) {
        expectUsable(result.error());
    }
    return std::move(*result);
}

template <class T>
T asked(std::string_view option, Result<T> result) {
    if (!result) {
        throw WrongUsage{std::string{option} + ": " + result.error().sentence()};
    }
    return std::move(*result);
}

Result<Moment> parseMoment(const std::string& text, const std::optional<TimeZone>& zone) {
    const auto written = parseIsoTime(text);
    if (!written) {
        return tl::unexpected{written.error()};
    }
    if (written->hasOffset) {
        return Moment{instantOf(written->wall, written->offset), written->offset};
    }
    if (!zone) {
        return refused("the time has no offset from UTC", "one, as in 2026-03-01T08:00:00+01:00, or --zone");
    }
    const auto meaning = zone->meaningOf(written->wall);
    if (const auto* moment = std::get_if<Moment>(&meaning)) {
        return *moment;
    }
    return refused("the clocks were changed over that time", "the time with its offset from UTC");
}

/// A line that counts on while a long file is read, for somebody watching.
ImportProgressCallback progressOnTerminal() {
    if (::isatty(STDERR_FILENO) == 0) {
        return {};
    }
    return [](const ImportProgress& progress) {
        if (progress.stage == ImportProgress::Stage::reading) {
            std::cerr << "\rreading row " << progress.rows << " …" << std::flush;
        }
        return true;
    };
}

void completeRequest(ImportOptions& options) {
    auto& habits = options.request.habits;
    if (options.zone) {
        habits.zone = asked("--zone", TimeZone::named(*options.zone));
    }
    if (options.unit) {
        habits.unit = *options.unit == "f" ? TemperatureUnit::fahrenheit : TemperatureUnit::celsius;
    }
    if (options.start) {
        options.request.start = asked("--start", parseMoment(*options.start, habits.zone));
    }
    if (options.finish) {
        options.request.finish = asked("--finish", parseMoment(*options.finish, habits.zone));
    }
    options.request.batch = options.batch.value_or("");
    if ((options.batch && options.batch->empty()) || (options.request.bin && options.request.bin->empty())) {
        throw WrongUsage{"A batch and a bin need a name."};
    }
    habits.progress = progressOnTerminal();
    if (const char* chosen = std::getenv("TMPDIR"); chosen != nullptr && *chosen != '\0') {
        habits.room.scratchFolder = chosen;
    }
}

ImportOutcome storeInto(Logbook& logbook, const ImportOptions& options, StagedImport staged) {
    logbook.setHand({}, [] {
        return Instant{
            std::chrono::duration_cast<std::chrono::seconds>(std::chrono::system_clock::now().time_since_epoch())
                .count()};
    });
    return usable(storeImport(logbook, options.request, std::move(staged)));
}

ImportOutcome tryOut(const ImportOptions& options, StagedImport staged, bool isNew) {
    if (isNew) {
        auto book = Logbook::inMemory();
        return storeInto(book, options, std::move(staged));
    }
    const TrialCopy trial{options.logbook, std::filesystem::temp_directory_path()};
    auto book = trial.open();
    return storeInto(book, options, std::move(staged));
}

ImportOutcome runImport(const ImportOptions& options) {
    const bool isNew = isUnwritten(options.logbook);
    if (!isNew) {
        Logbook::open(options.logbook, Logbook::Mode::readOnly);  // a file of another kind is refused before long work
    }
    auto staged = usable(readFiles(options.request));
    if (options.request.habits.progress) {
        std::cerr << "\r\033[K" << std::flush;
    }
    if (options.dryRun) {
        return tryOut(options, std::move(staged), isNew);
    }
    while (isUnwritten(options.logbook)) {
        ImportOutcome outcome;
        if (beginBook(options.logbook, [&](Logbook& book) { outcome = storeInto(book, options, staged); })) {
            return outcome;
        }
    }
    auto logbook = Logbook::open(options.logbook, Logbook::Mode::readWrite);
    return storeInto(logbook, options, std::move(staged));
}

void tell(const ImportOutcome& outcome, const ImportOptions& options) {
    for (const auto* sentences : {&outcome.leaving, &outcome.remarks}) {
        for (const auto& sentence : *sentences) {
            std::cerr << printable(sentence) << '\n';
        }
    }
    std::cout << inWords(outcome, options.dryRun);
}

/// A text that can be kept can be exported, and so taken in again.
std::string troubleWithText(const std::string& text) {
    return firstNotUtf8(text)   ? "the text is not UTF-8; expected letters as UTF-8 writes them"
           : firstControl(text) ? "there is a control character in the text; expected plain letters"
                                : "";
}

ExitStatus importFiles(ImportOptions options) {
    completeRequest(options);
    const auto outcome = runImport(options);
    if (options.dryRun) {
        tell(outcome, options);
        return ExitStatus::done;
    }
    return doneAndTold("The import is in the logbook", ExitStatus::done, [&] { tell(outcome, options); });
}

void describeFiles(CLI::App& command, ImportFiles& files) {
    command
        .add_option("--readings", files.readings,
                    "Temperatures: time,temperature + bin,position,unit,probe,ambient,note")
        ->option_text("FILE.csv");
    command.add_option("--additions", files.additions, "What was put in: time,material,mass_kg + more")
        ->option_text("FILE.csv");
    command.add_option("--aerations", files.aerations, "What was done to it: time,kind + depth_cm,note")
        ->option_text("FILE.csv");
    command
        .add_option("--observations", files.observations, "Squeeze tests, remedies …: time,kind + subject,value,note")
        ->option_text("FILE.csv");
    command.add_option("--harvests", files.harvests, "What was taken out at the base: time,volume_l + mass_kg,note")
        ->option_text("FILE.csv");
    command.add_option("--moves", files.moves, "Into which bin the batch was turned when: time,bin")
        ->option_text("FILE.csv");
    command.add_option("--outside", files.outside, "Outside air: time,temperature + bin,unit,probe,note")
        ->option_text("FILE.csv");
    command
        .add_option("--bins", files.bins,
                    "Bins: bin + volume_l,height_cm,hatch_top_cm,insulation_mm,conductivity_w_mk + more")
        ->option_text("FILE.csv");
    command.add_option("--positions", files.positions, "Positions: bin,position,spot_check + height_cm")
        ->option_text("FILE.csv");
    command.add_option("--probes", files.probes, "Thermometers: probe,accuracy (±, in °C) + note")
        ->option_text("FILE.csv");
    command
        .add_option("--checks", files.checks,
                    "Ice and boiling checks: time,probe,kind,read + altitude_m or pressure_hpa")
        ->option_text("FILE.csv");
}

}  // namespace

void addImportCommand(CLI::App& program, Action& chosen) {
    auto* command = program.add_subcommand("import", "Take CSV files into a logbook: all of them or nothing");
    auto options = std::make_shared<ImportOptions>();
    command->add_option("LOGBOOK", options->logbook, "The logbook; created when it does not exist")->required();
    command
        ->add_option("--batch", options->batch,
                     "The batch; begun when the logbook has none of that name. Not needed for what batches share: "
                     "bins, positions, probes, checks, outside air, readings that all name their bin")
        ->check(troubleWithText)
        ->option_text("NAME");
    command->add_option("--bin", options->request.bin, "The bin it stands in; needed for a new batch")
        ->check(troubleWithText)
        ->option_text("NAME");
    describeFiles(*command, options->request.files);
    command->add_option("--zone", options->zone, "Time zone of times without an offset, such as Europe/London")
        ->option_text("ZONE");
    command->add_option("--unit", options->unit, "Unit of temperatures that do not say: c (default) or f")
        ->check(CLI::IsMember({"c", "f"}, CLI::ignore_case))
        ->option_text("c|f");
    command->add_option("--start", options->start, "When the batch began; otherwise with its earliest entry")
        ->option_text("TIME");
    command->add_option("--finish", options->finish, "When the batch was finished")->option_text("TIME");
    command->add_option("--note", options->request.note, "A remark about the batch")
        ->check(troubleWithText)
        ->option_text("TEXT");
    command->add_option("--group", options->request.group, "Whose logbook this is, for the head of a certificate")
        ->check(troubleWithText)
        ->option_text("NAME");
    command->add_flag("--fed", options->request.fed,
                      "The batch is fed on top and emptied at the base: it is reckoned by layers");
    command->add_flag("--dry-run", options->dryRun, "Say what would happen and write nothing");
    command->footer(
        "A new logbook can be read and written by you alone (rights 0600), for it holds people's names. To share it,\n"
        "give it other rights with chmod; its backups and copies get the same.");
    command->callback([options, &chosen] { chosen = [options] { return importFiles(*options); }; });
}

}  // namespace midden::app
