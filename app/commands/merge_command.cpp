// SPDX-License-Identifier: GPL-3.0-or-later
#include <CLI/CLI.hpp>
#include <chrono>
#include <filesystem>
#include <iostream>
#include <map>
#include <memory>

#include "app/commands/commands.h"
#include "app/commands/shown_zone.h"
#include "core/quantities/utf8.h"
#include "core/store/files/trial_copy.h"
#include "core/store/merge/merge_words.h"

namespace midden::app {

namespace {

struct MergeOptions {
    std::filesystem::path logbook;
    std::filesystem::path other;
    Stands stands = Stands::byTheRule;
    bool isDry = false;
};

Instant now() {
    const auto sinceEpoch = std::chrono::system_clock::now().time_since_epoch();
    return {std::chrono::duration_cast<std::chrono::seconds>(sinceEpoch).count()};
}

void tell(const MergeConflict& conflict, const TimeZone& zone) {
    std::cout << "\n" << printable(conflict.subject) << ", " << longDateTime(zone.momentAt(conflict.at)) << "\n";
    if (!conflict.before.empty()) {
        std::cout << "  before:     " << printable(conflict.before) << "\n";
    }
    std::cout << "  this book:  " << printable(inWords(conflict.ours, zone))
              << (conflict.theirsStands ? "" : "  (stands)") << "\n";
    if (conflict.isChoice) {
        std::cout << "  other copy: " << printable(inWords(conflict.theirs, zone))
                  << (conflict.theirsStands ? "  (stands)" : "") << "\n";
    } else {
        std::cout << "  goes, because of what stands now\n";
    }
}

void tell(const MergeOutcome& outcome, const TimeZone& zone) {
    std::cout << arrivalsInWords(outcome) << "\n";
    if (outcome.conflicts.empty()) {
        return;
    }
    const auto count = outcome.conflicts.size();
    std::cout << (count == 1 ? "1 entry differs; the value that does not stand is kept as an amendment:\n"
                             : std::to_string(count) +
                                   " entries differ; the values that do not stand are kept as amendments:\n");
    for (const MergeConflict& conflict : outcome.conflicts) {
        tell(conflict, zone);
    }
}

ExitStatus mergeInto(Logbook book, const Logbook& other, const MergeOptions& options) {
    const TimeZone zone = shownZone(book);
    book.setHand(book.setting(setting::who), now);
    const auto outcome = book.merge(other, [&](const MergeConflict&) { return options.stands; });
    if (options.isDry) {
        tell(outcome, zone);
        return ExitStatus::done;
    }
    return doneAndTold("The entries of the other copy are in the book", ExitStatus::done, [&] { tell(outcome, zone); });
}

ExitStatus merge(const MergeOptions& options) {
    const auto other = Logbook::open(options.other, Logbook::Mode::readOnly);
    std::error_code notBothFiles;
    if (std::filesystem::equivalent(options.logbook, options.other, notBothFiles)) {
        std::cout << "The two are one and the same file; there is nothing to bring in.\n";
        return ExitStatus::done;
    }
    if (options.isDry) {
        const TrialCopy trial{options.logbook, std::filesystem::temp_directory_path()};
        std::cout << "Nothing was written. This is what would happen:\n";
        return mergeInto(trial.open(), other, options);
    }
    return mergeInto(Logbook::open(options.logbook, Logbook::Mode::readWrite), other, options);
}

}  // namespace

void addMergeCommand(CLI::App& program, Action& chosen) {
    auto* command = program.add_subcommand(
        "merge",
        "Bring the entries of another copy of a book into it\n"
        "Both copies may have been written in. Merging again, or the other way round, or three and more copies in any "
        "order, gives the same book. Bins, thermometers and batches of one name are the same in all copies.\n"
        "Not the same in every order are: settings, which stay each book's own (only what it never set is taken over); "
        "notes of merges, and the count of amended entries that includes them; what --stands this or other decides; "
        "and a bin, thermometer or batch that was renamed in one copy, where another copy uses the old or the new name "
        "for one of its own.");
    auto options = std::make_shared<MergeOptions>();
    static const std::map<std::string, Stands> sides{
        {"later", Stands::byTheRule}, {"this", Stands::ours}, {"other", Stands::theirs}};
    command->add_option("LOGBOOK", options->logbook, "The book that receives")->required();
    command->add_option("OTHER", options->other, "The other copy, which is only read")->required();
    command
        ->add_option("--stands", options->stands,
                     "Where both copies changed an entry, which value stands: the later one, this book's or the "
                     "other's; the rest is kept as an amendment (default: later)")
        ->transform(CLI::CheckedTransformer(sides).description("later, this or other"))
        ->type_name("");
    command->add_flag("--dry-run", options->isDry, "Only say what would happen");
    command->callback([options, &chosen] { chosen = [options] { return merge(*options); }; });
}

}  // namespace midden::app
