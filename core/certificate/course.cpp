// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/course.h"

#include <fmt/core.h>

#include <algorithm>

#include "core/certificate/entry_words.h"
#include "core/certificate/wording.h"
#include "core/criteria/gap_rule.h"
#include "core/criteria/phrases.h"

namespace midden {

namespace {

/// So many are named one by one on the page; the rest are counted.
constexpr std::size_t mostNamed = 12;
constexpr std::size_t mostGapsNamed = 4;

std::string joined(const std::vector<std::string>& items, const char* between) {
    std::string text;
    for (const auto& item : items) {
        text += (text.empty() ? "" : between) + item;
    }
    return text;
}

std::vector<std::string> timesOf(AerationKind kind, const std::vector<Aeration>& aerations) {
    std::vector<std::string> times;
    for (const auto& aeration : aerations) {
        if (aeration.kind == kind) {
            times.push_back(dayAndTime(aeration.when));
        }
    }
    return times;
}

std::string timesInWords(std::vector<std::string> times) {
    const auto more = times.size() > mostNamed ? times.size() - mostNamed : 0;
    times.resize(times.size() - more);
    const auto text = joined(times, ", ");
    return more == 0 ? text : fmt::format("{} and {} more", text, more);
}

Fact turnings(const BatchRecord& record) {
    const auto times = timesOf(AerationKind::turned, record.aerations);
    return {"Turnings", times.empty() ? "none recorded" : fmt::format("{}: {}", times.size(), timesInWords(times))};
}

void otherAir(const BatchRecord& record, std::vector<Fact>& facts) {
    std::vector<std::string> kinds;
    using enum AerationKind;
    for (const auto kind : {forked, poked, opened, watered, other}) {
        if (const auto times = timesOf(kind, record.aerations); !times.empty()) {
            kinds.push_back(fmt::format("{} {}", wordOf(kind), timesInWords(times)));
        }
    }
    if (!kinds.empty()) {
        facts.push_back({"Air and water", joined(kinds, "; ")});
    }
}

Fact gapsFact(const CertificateInput& input) {
    auto gaps = input.review.gaps;
    if (gaps.empty()) {
        return {"Gaps", input.review.readings > 0 ? fmt::format("no more than {} between the readings of any position",
                                                                durationWords(ordinaryMaxGap))
                                                  : "no readings"};
    }
    std::stable_sort(gaps.begin(), gaps.end(),
                     [](const auto& a, const auto& b) { return a.interval.length() > b.interval.length(); });
    std::vector<std::string> named;
    for (std::size_t i = 0; i < std::min(gaps.size(), mostGapsNamed); ++i) {
        named.push_back(fmt::format("{} {}, {}", gaps[i].position, hoursRead(gaps[i].interval.length()),
                                    span(gaps[i].interval, input.zone)));
    }
    const auto more = gaps.size() - named.size();
    return {"Gaps over " + durationWords(ordinaryMaxGap),
            joined(named, "; ") + (more == 0 ? "" : fmt::format("; and {} shorter", more)) + " (not credited)"};
}

std::string stallInWords(const Stall& stall, const TimeZone& zone) {
    const auto from = dayAndTime(zone.momentAt(stall.from));
    const auto to = stall.to ? dayAndTime(zone.momentAt(*stall.to)) : "still so at the last entry";
    switch (stall.kind) {
        case StallKind::neverHeated:
            return fmt::format("never heated up: {} – {}", from, to);
        case StallKind::earlyCooling:
            return fmt::format("cooled early: {} – {}, {:.0f} h short of the book's target", from, to,
                               stall.hoursShort);
        case StallKind::handlingDip:
            break;
    }
    return fmt::format("dipped after handling: {} – {}", from, to);
}

void stalls(const CertificateInput& input, std::vector<Fact>& facts) {
    std::vector<std::string> all;
    for (const auto& stall : input.review.stalls) {
        all.push_back(stallInWords(stall, input.zone));
    }
    facts.push_back({"Stalls", all.empty() ? "none" : joined(all, "; ")});
}

/// The latest check of a kind that can have served these readings.
const ThermometerCheck* lastCheck(const BatchRecord& record, ProbeId probe, CheckKind kind) {
    Instant end = record.batch.started.at;
    for (const auto& track : record.tracks) {
        if (!track.samples.empty()) {
            end = std::max(end, track.samples.back().at);
        }
    }
    const ThermometerCheck* last = nullptr;
    for (const auto& check : record.checks) {
        const bool served = check.when.at <= end || (check.appliesFrom && *check.appliesFrom <= end);
        if (check.probe == probe && check.kind == kind && served) {
            last = &check;
        }
    }
    return last;
}

std::string checkInWords(const ThermometerCheck& check) {
    std::string where;
    if (check.altitudeMetres) {
        where = " at " + shortNumber(*check.altitudeMetres) + " m";
    } else if (check.pressureHectopascals) {
        where = " at " + shortNumber(*check.pressureHectopascals) + " hPa";
    }
    return fmt::format("read {} in {}{} on {}", writtenWithUnit(check.read), wordOf(check.kind), where,
                       longDate(check.when));
}

Fact probeFact(const BatchRecord& record, const Probe& probe) {
    auto text = probe.accuracy ? fmt::format("±{} °C, its stated accuracy", decimal(*probe.accuracy))
                               : fmt::format("±{} °C assumed, its accuracy not stated", decimal(unknownAccuracy));
    std::vector<std::string> checks;
    for (const auto kind : {CheckKind::ice, CheckKind::boiling}) {
        if (const auto* check = lastCheck(record, probe.id, kind)) {
            checks.push_back(checkInWords(*check));
        }
    }
    text += checks.empty() ? "; no check in ice or boiling water recorded" : "; last checks: " + joined(checks, ", ");
    return {"Thermometer", probe.name + ": " + text};
}

void thermometers(const CertificateInput& input, std::vector<Fact>& facts) {
    auto probes = input.record.probes;
    std::sort(probes.begin(), probes.end(), [](const auto& a, const auto& b) { return a.name < b.name; });
    for (const auto& probe : probes) {
        facts.push_back(probeFact(input.record, probe));
    }
    if (input.readings.someWithoutProbe()) {
        facts.push_back(
            {"Thermometer",
             fmt::format("{} not named: ±{} °C assumed; no check in ice or boiling water recorded",
                         probes.empty() ? "the one used is" : "for some readings", decimal(unknownAccuracy))});
    }
}

}  // namespace

std::vector<Fact> courseOf(const CertificateInput& input) {
    std::vector<Fact> facts{turnings(input.record)};
    otherAir(input.record, facts);
    facts.push_back(gapsFact(input));
    stalls(input, facts);
    thermometers(input, facts);
    return facts;
}

}  // namespace midden
