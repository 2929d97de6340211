// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/findings.h"

#include <fmt/core.h>

#include <algorithm>
#include <tuple>

#include "core/certificate/wording.h"
#include "core/criteria/phrases.h"

namespace midden {

namespace {

std::string holdInWords(const Step& step) {
    const char* manner = step.continuity == Continuity::cumulative ? "in all" : "in one run";
    return fmt::format("{}{} {}", step.holdExceeds ? "more than " : "", durationWords(step.hold), manner);
}

FigureRow holdRow(const Step& step, const StepFigures& figures) {
    const auto read = step.continuity == Continuity::cumulative ? figures.credited : figures.longestRun;
    const auto missing = read < step.hold ? durationWords(step.hold - read) : "a moment";
    return {limitWords(step), holdInWords(step), hoursRead(read), step.isReachedBy(read) ? "" : missing};
}

FigureRow meanRow(const MeanAsked& asked, const StepFigures& figures) {
    return {"average over that time", (asked.exceeds ? "above " : "at or above ") + limitWords(asked.threshold),
            figures.mean ? fmt::format("{:.1f} °C", figures.mean->celsius) : "no such time", ""};
}

std::vector<FigureRow> figureRows(const Judgement& judgement) {
    std::vector<FigureRow> rows;
    const auto& asked = judgement.criterion.alternatives;
    for (std::size_t i = 0; i < std::min(asked.size(), judgement.alternatives.size()); ++i) {
        const auto& read = judgement.alternatives[i];
        for (std::size_t j = 0; j < std::min(asked[i].steps.size(), read.steps.size()); ++j) {
            rows.push_back(holdRow(asked[i].steps[j], read.steps[j]));
            if (asked[i].steps[j].mean) {
                rows.push_back(meanRow(*asked[i].steps[j].mean, read.steps[j]));
            }
        }
    }
    return rows;
}

/// The step the remarks are about: the first of the alternative that went furthest.
const Step* leadingStep(const Judgement& judgement) {
    const auto& alternatives = judgement.criterion.alternatives;
    if (judgement.best >= alternatives.size() || alternatives[judgement.best].steps.empty()) {
        return nullptr;
    }
    return &alternatives[judgement.best].steps.front();
}

struct PositionTime {
    std::string position;
    Seconds longestRun;
    double mean = 0;
};

PositionTime timeOf(const Track& track, const Step& step) {
    double sum = 0;
    for (const auto& sample : track.samples) {
        sum += sample.temperature().value();
    }
    return {track.position, longest(creditedRuns(track.samples, step.limits(), maxGapFor(step))),
            sum / static_cast<double>(track.samples.size())};
}

/// By the longest run of each position by itself; of equals the cooler on average first.
std::vector<PositionTime> coolestFirst(const Step& step, const BatchRecord& record) {
    std::vector<PositionTime> times;
    for (const Track* track : monitoredTracks(record)) {
        times.push_back(timeOf(*track, step));
    }
    std::stable_sort(times.begin(), times.end(), [](const auto& a, const auto& b) {
        return std::tie(a.longestRun, a.mean) < std::tie(b.longestRun, b.mean);
    });
    return times;
}

std::string positionRemark(const Step& step, const BatchRecord& record) {
    const auto times = coolestFirst(step, record);
    if (times.empty()) {
        return "No position was read.";
    }
    const auto& coolest = times.front();
    if (times.size() == 1) {
        return fmt::format("One position only was read ({}); the rest of the bin was not measured.", coolest.position);
    }
    const auto& warmest = times.back();
    const auto limit = limitWords(step);
    if (warmest.longestRun == Seconds{}) {
        return fmt::format("No position was {} from one reading to the next.", limit);
    }
    if (coolest.longestRun == warmest.longestRun) {
        return fmt::format("Each of the {} positions by itself was {} for {} in its longest run.", times.size(), limit,
                           hoursRead(coolest.longestRun));
    }
    return fmt::format(
        "Each position by itself: {}, the coolest, was {} for {} in its longest run; {}, the warmest, for {}.",
        coolest.position, limit, hoursRead(coolest.longestRun), warmest.position, hoursRead(warmest.longestRun));
}

std::string continuityRemark(const Judgement& judgement) {
    const auto* step = leadingStep(judgement);
    if (step == nullptr || step->continuity != Continuity::silent) {
        return {};
    }
    return fmt::format("The rule does not say whether the time must be unbroken; it is judged as unbroken. In all: {}.",
                       hoursRead(judgement.cumulative));
}

/// Turning cools a heap: the hours in one run say little about windrows.
std::string daysRemark(const Judgement& judgement) {
    const auto& figures = judgement.alternatives;
    if (judgement.best >= figures.size() || figures[judgement.best].steps.empty()) {
        return {};
    }
    const auto& step = figures[judgement.best].steps.front();
    return step.qualifyingDays
               ? fmt::format("Every position had a reading {} on {}.", limitWords(*leadingStep(judgement)),
                             howMany(*step.qualifyingDays, "day", "days"))
               : std::string{};
}

std::string allowanceRemark(const Judgement& judgement, const BatchRecord& record) {
    if (judgement.verdict != Verdict::shownWithinError) {
        return {};
    }
    Kelvins widest;
    for (const Track* track : monitoredTracks(record)) {
        for (const auto& sample : track->samples) {
            widest = std::max(widest, sample.allowance());
        }
    }
    return fmt::format(
        "With the thermometer's error of up to ±{} °C held against every reading, they would not have been reached.",
        decimal(widest));
}

std::vector<std::string> remarksOf(const Judgement& judgement, const BatchRecord& record, const TimeZone& zone) {
    std::vector<std::string> remarks;
    const auto say = [&](std::string sentence) {
        if (!sentence.empty()) {
            remarks.push_back(std::move(sentence));
        }
    };
    say(allowanceRemark(judgement, record));
    if (const auto* step = leadingStep(judgement)) {
        say(positionRemark(*step, record));
    }
    say(continuityRemark(judgement));
    say(daysRemark(judgement));
    if (judgement.restartedAt) {
        say(fmt::format("Counted from {} on – {}.", dayAndTime(zone.momentAt(*judgement.restartedAt)),
                        judgement.restartedBy.value_or("raw material was added")));
    }
    return remarks;
}

Fact conditionFact(const ConditionFigures& condition) {
    static constexpr const char* states[] = {"held", "not held", "not recorded"};
    std::string text = states[static_cast<int>(condition.state)];
    if (condition.required && condition.recorded) {
        text +=
            fmt::format(" – {} recorded, {} asked", shortNumber(*condition.recorded), shortNumber(*condition.required));
    }
    return {condition.condition, text};
}

std::string sentenceEnd(const std::string& text) {
    return text.empty() || text.ends_with('.') ? text : text + ".";
}

/// A section's own title, in brackets after its number, may speak of what no thermometer can show.
std::string withoutBackgroundWork(const std::string& section) {
    return section.substr(0, section.find(" ("));
}

std::string sourceOf(const Criterion& criterion) {
    const auto& source = criterion.source;
    auto text = source.document;
    if (const auto section = withoutBackgroundWork(source.section); !section.empty()) {
        text += ", " + section;
    }
    text = sentenceEnd(text);
    if (!source.checked.empty() && text.find(source.checked) == std::string::npos) {
        text += " " + sentenceEnd(capital(source.checked));
    }
    if (source.fromMemory && text.find("rom memory") == std::string::npos) {
        text += " From memory, unverified.";
    }
    return criterion.ofTheGroup ? text + " The group's own rule, kept in its logbook." : text;
}

}  // namespace

Finding findingOf(const Judgement& judgement, const BatchRecord& record, const TimeZone& zone) {
    const auto& criterion = judgement.criterion;
    Finding finding{criterion.id, judgement.verdict, criterion.jurisdiction, verdictSentence(judgement)};
    finding.figures = figureRows(judgement);
    finding.anyIsEnough = criterion.alternatives.size() > 1;
    finding.remarks = remarksOf(judgement, record, zone);
    for (const auto& condition : judgement.conditions) {
        finding.conditions.push_back(conditionFact(condition));
    }
    finding.source = sourceOf(criterion);
    finding.scope = sentenceEnd(criterion.scope);
    return finding;
}

}  // namespace midden
