// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/criteria/step_reader.h"

#include <fmt/core.h>

#include <cmath>
#include <map>

namespace midden {

namespace {

constexpr double mostHours = 24.0 * 366 * 10;

WrittenTemperature readTemperature(JsonFields& fields, const std::string& name) {
    const auto text = fields.text(name);
    const auto written = parseTemperature(text, TemperatureUnit::celsius);
    if (!written) {
        fields.refuse(name, written.error().expected);
    }
    if (text.find_first_of("CF") == std::string::npos) {
        fields.refuse(name, "a temperature with its unit, such as 55 °C or 131 °F");
    }
    return *written;
}

/// A limit written as one of two fields; `exceeds` tells which.
WrittenTemperature readLimit(JsonFields& fields, const char* atLeast, const char* above, bool& exceeds) {
    exceeds = fields.has(above);
    if (exceeds == fields.has(atLeast)) {
        fields.refuseObject(fmt::format("found {} of \"{}\" and \"{}\"", exceeds ? "both" : "none", atLeast, above),
                            "exactly one of them");
    }
    return readTemperature(fields, exceeds ? above : atLeast);
}

Seconds readHours(JsonFields& fields, const std::string& name) {
    const double seconds = std::round(fields.number(name, 1.0 / 60, mostHours) * 3'600);
    return {static_cast<std::int64_t>(seconds)};
}

Continuity readContinuity(JsonFields& fields) {
    const std::map<std::string, Continuity> known{{"consecutive", Continuity::consecutive},
                                                  {"cumulative", Continuity::cumulative},
                                                  {"silent", Continuity::silent}};
    const auto found = known.find(fields.text("continuity"));
    if (found == known.end()) {
        fields.refuse("continuity", "consecutive, cumulative or silent");
    }
    return found->second;
}

TurningsAsked readTurnings(JsonFields fields) {
    TurningsAsked asked;
    const double count = fields.number("count", 1, 1'000);
    asked.count = static_cast<int>(count);
    if (asked.count != count) {
        fields.refuse("count", "a whole number");
    }
    if (fields.has("apart_hours")) {
        asked.minimumSpacing = readHours(fields, "apart_hours");
    }
    fields.finish();
    return asked;
}

MeanAsked readMean(JsonFields& fields) {
    MeanAsked mean;
    mean.threshold = readLimit(fields, "mean_at_least", "mean_above", mean.exceeds);
    return mean;
}

void readHold(JsonFields& fields, Step& step) {
    step.holdExceeds = fields.has("more_than_hours");
    if (step.holdExceeds == fields.has("hours")) {
        fields.refuseObject(
            fmt::format("found {} of \"hours\" and \"more_than_hours\"", step.holdExceeds ? "both" : "none"),
            "exactly one of them");
    }
    step.hold = readHours(fields, step.holdExceeds ? "more_than_hours" : "hours");
}

void readWithin(JsonFields& fields, Step& step, const std::vector<Step>& earlier) {
    const double number = fields.number("within_step", 1, 100);
    const auto index = static_cast<std::size_t>(number) - 1;
    if (std::floor(number) != number || index >= earlier.size()) {
        fields.refuse("within_step", "the number of an earlier step of the same alternative, counted from 1");
    }
    step.withinStep = index;
}

}  // namespace

Step readStep(JsonFields fields, const std::vector<Step>& earlier) {
    Step step;
    step.threshold = readLimit(fields, "at_least", "above", step.exceeds);
    if (fields.has("at_most")) {
        step.ceiling = readTemperature(fields, "at_most");
        if (toCelsius(*step.ceiling) <= toCelsius(step.threshold)) {
            fields.refuse("at_most", "a temperature above the threshold");
        }
    }
    readHold(fields, step);
    step.continuity = readContinuity(fields);
    if (fields.has("mean_at_least") || fields.has("mean_above")) {
        step.mean = readMean(fields);
        if (step.continuity == Continuity::cumulative) {
            fields.refuse("continuity", "consecutive or silent beside an average");
        }
    }
    if (fields.has("turnings")) {
        step.turnings = readTurnings(fields.object("turnings"));
    }
    if (fields.has("max_gap_hours")) {
        step.maxGap = readHours(fields, "max_gap_hours");
    }
    if (fields.has("within_step")) {
        readWithin(fields, step, earlier);
    }
    fields.finish();
    return step;
}

}  // namespace midden
