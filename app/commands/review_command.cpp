// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/core.h>

#include <CLI/CLI.hpp>
#include <charconv>
#include <iostream>
#include <memory>

#include "app/commands/commands.h"
#include "core/logbook/logbook.h"
#include "core/quantities/zone.h"
#include "core/review/review.h"
#include "core/review/review_json.h"
#include "core/review/review_text.h"

namespace midden::app {

namespace {

struct ReviewOptions {
    std::string logbook;
    std::string batch;
    std::vector<std::string> thresholds;
    std::string maxGap;
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

ReviewQuestions questionsOf(const ReviewOptions& options) {
    ReviewQuestions questions;
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

/// The zone the book's steward lives in; UTC when the book does not say or this computer does not know it.
TimeZone zoneOf(const Logbook& book) {
    return TimeZone::named(book.setting("zone", "UTC")).value_or(TimeZone::utc());
}

ExitStatus reviewBatches(const ReviewOptions& options) {
    const auto questions = questionsOf(options);
    const auto book = Logbook::open(options.logbook, Logbook::Mode::readOnly);
    std::vector<BatchReview> reviews;
    for (const auto& batch : batchesAskedFor(book, options.batch)) {
        reviews.push_back(reviewOf(book.record(batch.id), questions));
    }
    if (options.json) {
        std::cout << reviewJson(reviews);
        return ExitStatus::done;
    }
    const auto zone = zoneOf(book);
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
        ->default_str("36");
    command->add_flag("--json", options->json, "Write middenbook.review/1 for scripts");
    command->callback([options, &chosen] { chosen = [options] { return reviewBatches(*options); }; });
}

}  // namespace midden::app
