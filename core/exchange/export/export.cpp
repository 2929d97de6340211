// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/export/export.h"

#include <fmt/core.h>

#include <algorithm>
#include <fstream>
#include <set>

#include "core/exchange/export/export_parts.h"
#include "core/files/output_folder.h"

namespace midden {

namespace fs = std::filesystem;

namespace {

/// At most `most` bytes, without cutting a character of UTF-8 in two.
std::size_t wholeCharacters(const std::string& text, std::size_t most) {
    std::size_t size = std::min(text.size(), most);
    while (size < text.size() && size > 0 && (static_cast<unsigned char>(text[size]) & 0xC0U) == 0x80U) {
        --size;
    }
    return size;
}

/// A name as a folder may be called everywhere: letters, digits, blanks, "-" and "_"; what is not ASCII stays.
std::string folderName(const std::string& name) {
    std::string safe;
    for (const char c : name.substr(0, wholeCharacters(name, 100))) {
        const bool plain = (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c < 0;
        safe += plain || c == ' ' || c == '-' || c == '_' ? c : '_';
    }
    while (!safe.empty() && safe.back() == ' ') {
        safe.pop_back();
    }
    return safe.empty() ? "batch" : safe;
}

ExportPlan planFor(const Logbook& logbook, const fs::path& root) {
    ExportPlan plan{logbook, root, logbook.batches(), {}, {}, {}, {}};
    for (const auto& bin : logbook.bins()) {
        plan.binNames[bin.id] = bin.name;
    }
    for (const auto& probe : logbook.probes()) {
        plan.probeNames[probe.id] = probe.name;
    }
    std::set<std::string> taken;
    for (const auto& batch : plan.batches) {
        const auto wanted = folderName(batch.name);
        auto name = wanted;
        for (int i = 2; !taken.insert(name).second; ++i) {
            name = fmt::format("{} {}", wanted, i);
        }
        plan.folderOf[batch.id] = name;
    }
    return plan;
}

std::string inShellQuotes(const std::string& text) {
    std::string quoted = "'";
    for (const char c : text) {
        quoted += c == '\'' ? "'\\''" : std::string(1, c);
    }
    return quoted + "'";
}

/// The files that all batches share.
std::string sharedFiles(const ExportPlan& plan) {
    std::string options;
    for (const char* kind : {"outside", "bins", "positions", "probes", "checks"}) {
        const auto file = std::string{kind} + ".csv";
        options += fs::exists(plan.root / file) ? fmt::format(" --{} {}", kind, file) : "";
    }
    return options;
}

/// What else import can take over of a book.
std::string settingsOf(const Logbook& logbook) {
    const auto zone = logbook.setting(setting::zone);
    const auto group = logbook.setting(setting::group);
    return (zone.empty() ? "" : " --zone " + inShellQuotes(zone)) +
           (group.empty() ? "" : " --group " + inShellQuotes(group));
}

/// The line that takes a batch into a new book, naming the files there are.
std::string importLine(const ExportPlan& plan, const Batch& batch) {
    auto line = fmt::format("middenbook import NEW.midden --batch {} --bin {}", inShellQuotes(batch.name),
                            inShellQuotes(plan.binNames.at(batch.stays.front().bin)));
    if (startToSay(plan, batch)) {
        line += " --start " + isoLocal(batch.started);
    }
    line += batch.fed ? " --fed" : "";
    line += batch.finished ? " --finish " + isoLocal(*batch.finished) : "";
    line += batch.note.empty() ? "" : " --note " + inShellQuotes(batch.note);
    const auto& folder = plan.folderOf.at(batch.id);
    for (const char* kind : {"readings", "additions", "aerations", "observations", "harvests", "moves"}) {
        const auto file = folder + "/" + kind + ".csv";
        line += fs::exists(plan.root / file) ? fmt::format(" --{} {}", kind, inShellQuotes(file)) : "";
    }
    return line + sharedFiles(plan) + settingsOf(plan.logbook);
}

/// The lines that make a book of the folder again; none for an empty book.
std::vector<std::string> importLines(const ExportPlan& plan) {
    constexpr const char* strays = "readings-of-no-batch.csv";
    std::vector<std::string> lines;
    for (const auto& batch : plan.batches) {
        lines.push_back(importLine(plan, batch));
    }
    const auto readings = fs::exists(plan.root / strays) ? fmt::format(" --readings {}", strays) : std::string{};
    const auto shared = plan.batches.empty() ? sharedFiles(plan) + settingsOf(plan.logbook) : std::string{};
    if (!(readings + shared).empty()) {
        lines.push_back("middenbook import NEW.midden" + readings + shared);
    }
    return lines;
}

void writeReadme(const ExportPlan& plan) {
    std::ofstream out{plan.root / "README.txt", std::ios::binary};
    out << "Everything a Middenbook logbook holds, as CSV files: UTF-8, commas, decimal points, times with their "
           "offset\n"
           "from UTC, temperatures as they were written down with their unit (c or f). A text that begins with = + - "
           "or @\n"
           "has an apostrophe before it, so that no spreadsheet takes it for a formula; import takes it away again.\n"
           "Who typed an entry and when, earlier values of corrected entries, issued certificates, and the settings of "
           "the\n"
           "logbook but its zone and group stay in it and are not part of this folder.\n";
    const auto lines = importLines(plan);
    if (!lines.empty()) {
        out << "\nThese lines, run in this folder, make a logbook of it again:\n\n";
    }
    for (const auto& line : lines) {
        out << line << '\n';
    }
    out.close();
    if (!out) {
        throw std::runtime_error{"README.txt cannot be written"};
    }
}

std::int64_t filesIn(const fs::path& folder) {
    std::int64_t count = 0;
    for (const auto& entry : fs::recursive_directory_iterator{folder}) {
        count += entry.is_regular_file() ? 1 : 0;
    }
    return count;
}

ExportOutcome writeFiles(const Logbook& logbook, const fs::path& folder) {
    OutputFolder output{folder};
    auto plan = planFor(logbook, output.making());
    for (const auto& batch : plan.batches) {
        fs::create_directory(plan.batchFolder(batch.id));
    }
    ExportOutcome outcome;
    outcome.readings = exportReadings(plan);
    outcome.batches = static_cast<std::int64_t>(plan.batches.size());
    for (const auto& batch : plan.batches) {
        exportEntries(plan, batch);
    }
    exportSetup(plan);
    exportThermometers(plan);
    writeReadme(plan);
    outcome.files = filesIn(plan.root);
    output.takeName();
    return outcome;
}

}  // namespace

ExportOutcome exportLogbook(const Logbook& logbook, const fs::path& folder) {
    try {
        return writeFiles(logbook, folder);
    } catch (const fs::filesystem_error& trouble) {
        throw troubleAt(folder, trouble.code().value());
    }
}

}  // namespace midden
