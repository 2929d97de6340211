// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/core.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>
#include <iostream>
#include <memory>

#include "app/commands/commands.h"
#include "app/commands/damage_note.h"
#include "app/commands/shown_zone.h"
#include "app/plain_output.h"
#include "core/review/review.h"
#include "core/review/review_json.h"
#include "core/review/review_text.h"
#include "core/store/read/book_rules.h"

namespace midden::app {

namespace {

struct ReviewOptions {
    std::string logbook;
    std::string batch;
    std::vector<std::string> thresholds;
    std::string maxGap;
    std::vector<std::string> criteria;
    bool json = false;
};

Seconds maxGapOf(const std::string& hoursTyped) {
    double typed = 0;
    const auto* end = hoursTyped.data() + hoursTyped.size();
    const auto read = std::from_chars(hoursTyped.data(), end, typed);
    if (read.ec != std::errc{} || read.ptr != end || !(typed > 0) || typed > 1e6) {
        throw WrongUsage{fmt::format("--max-gap: \"{}\" is not a number of hours above 0", hoursTyped)};
    }
    return {static_cast<std::int64_t>(typed * 3'600)};
}

Celsius thresholdOf(const std::string& typed) {
    const auto parsed = parseTemperature(typed, TemperatureUnit::celsius);
    if (!parsed) {
        throw WrongUsage{"--threshold: " + parsed.error().sentence()};
    }
    return toCelsius(*parsed);
}

std::vector<Criterion> criteriaNamed(const std::vector<std::string>& ids, std::vector<Criterion> all) {
    if (ids.empty()) {
        return all;
    }
    std::vector<Criterion> named;
    for (const auto& id : ids) {
        const auto found = std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.id == id; });
        if (found == all.end()) {
            throw WrongUsage{fmt::format("--criterion: \"{}\" is not a criterion of this book", id)};
        }
        named.push_back(*found);
    }
    return named;
}

ReviewQuestions questionsAsked(const Logbook& book, const ReviewOptions& options) {
    auto questions = questionsOf(book);
    questions.criteria = criteriaNamed(options.criteria, std::move(questions.criteria));
    if (!options.thresholds.empty()) {
        questions.thresholds.clear();
        for (const auto& typed : options.thresholds) {
            questions.thresholds.push_back(thresholdOf(typed));
        }
    }
    if (!options.maxGap.empty()) {
        questions.maxGap = maxGapOf(options.maxGap);
    }
    return questions;
}

std::vector<Batch> batchesAskedFor(const Logbook& book, const std::string& name) {
    if (name.empty()) {
        return book.batches();
    }
    const auto batch = book.batchNamed(name);
    if (!batch) {
        throw WrongUsage{fmt::format("The book has no batch called \"{}\".", name)};
    }
    return {*batch};
}

ExitStatus reviewBatches(const ReviewOptions& options) {
    const auto book = Logbook::open(options.logbook, Logbook::Mode::readOnly);
    const auto questions = questionsAsked(book, options);
    std::vector<BatchReview> reviews;
    for (const auto& batch : batchesAskedFor(book, options.batch)) {
        reviews.push_back(reviewOf(book.record(batch.id), questions));
    }
    nameUnreadable(book);
    if (options.json) {
        writeForPrograms(std::cout, reviewJson(reviews));
        return ExitStatus::done;
    }
    const auto zone = shownZone(book);
    for (std::size_t i = 0; i < reviews.size(); ++i) {
        std::cout << (i > 0 ? "\n\n" : "") << reviewText(reviews[i], zone);
    }
    if (reviews.empty()) {
        std::cout << "The book has no batch yet.\n";
    }
    return ExitStatus::done;
}

}  // namespace

void addReviewCommand(CLI::App& program, Action& chosen) {
    auto* command = program.add_subcommand("review", "Say what the readings of a batch show");
    auto options = std::make_shared<ReviewOptions>();
    command->add_option("LOGBOOK", options->logbook, "The book's file")->required();
    command->add_option("--batch", options->batch, "Only this batch");
    command->add_option("--threshold", options->thresholds, "Time at or above this many °C; may be given several times")
        ->default_str("55");
    command->add_option("--max-gap", options->maxGap, "Hours between readings that --threshold still bridges")
        ->default_str(fmt::format("{}", ordinaryMaxGap.count / 3600));
    command->add_option("--criterion", options->criteria, "Only this criterion; may be given several times");
    command->add_flag("--json", options->json, "Write middenbook.review/1 for scripts");
    command->callback([options, &chosen] { chosen = [options] { return reviewBatches(*options); }; });
}

}  // namespace midden::app
