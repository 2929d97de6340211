// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/certificate.h"

#include <fmt/core.h>

#include <algorithm>

#include "core/certificate/course.h"
#include "core/certificate/findings.h"
#include "core/certificate/wording.h"
#include "core/criteria/phrases.h"

namespace midden {

namespace {

constexpr auto stance =
    "A temperature record of one batch. No laboratory tests were made. "
    "Not an approval or a warranty; local rules and licensed practice come first.";

// After: Health and Safety Executive, "Composting" (dust, moulds, turning); Royal Horticultural Society, "Minimising
// health risks in the garden"; NSW Health on Legionella longbeachae (gloves, mask, damp down, wash hands); North
// Carolina State Extension, "Herbicide Carryover". Burns and steam: common practice, no source.
constexpr auto cautions =
    "Turning and spreading compost raise dust and moulds that can harm the lungs, the more so with asthma or weak "
    "immunity: damp it down, wear gloves and a mask, wash your hands. Hot material and steam scald. A temperature "
    "record says nothing about weedkiller residues, sharp objects, metals or anything else a thermometer cannot feel. "
    "What may go into a bin, and where its compost may be used, is for local rules to say.";

std::string binNames(const CertificateInput& input) {
    std::vector<std::string> names;
    for (const auto& stay : input.record.batch.stays) {
        const auto bin =
            std::find_if(input.bins.begin(), input.bins.end(), [&](const Bin& b) { return b.id == stay.bin; });
        if (bin == input.bins.end()) {
            continue;
        }
        const auto volume = bin->volumeLitres ? fmt::format(" ({} l)", shortNumber(*bin->volumeLitres)) : std::string{};
        const auto since = names.empty() ? std::string{} : " from " + dayAndTime(input.zone.momentAt(stay.since));
        names.push_back(fmt::format("{}{}{}", bin->name, volume, since));
    }
    return names.empty() ? input.record.binName : listed(names);
}

struct MaterialMass {
    std::string material;
    double kilograms = 0;
};

/// Added up by name, in the order they first went in.
std::vector<MaterialMass> massesOf(const std::vector<Addition>& additions) {
    std::vector<MaterialMass> masses;
    for (const auto& addition : additions) {
        auto same = std::find_if(masses.begin(), masses.end(),
                                 [&](const MaterialMass& mass) { return mass.material == addition.material; });
        if (same == masses.end()) {
            same = masses.insert(masses.end(), {addition.material, 0});
        }
        same->kilograms += addition.massKilograms;
    }
    return masses;
}

std::string materialsInWords(const std::vector<Addition>& additions) {
    double total = 0;
    std::string text;
    for (const auto& [material, kilograms] : massesOf(additions)) {
        text += fmt::format("{}{} {} kg", text.empty() ? "" : ", ", material, shortNumber(kilograms));
        total += kilograms;
    }
    if (text.empty()) {
        return "none recorded";
    }
    return fmt::format("{} – {} kg in {}", text, shortNumber(total),
                       howMany(static_cast<std::int64_t>(additions.size()), "addition", "additions"));
}

void mixtureFacts(const BatchReview& review, std::vector<Fact>& facts) {
    if (!review.mixture) {
        return;
    }
    std::vector<std::string> parts;
    if (review.mixture->carbonNitrogen) {
        parts.push_back(fmt::format("C:N {:.0f} : 1", *review.mixture->carbonNitrogen));
    }
    if (review.mixture->moisturePercent) {
        parts.push_back(fmt::format("moisture {:.0f} %", *review.mixture->moisturePercent));
    }
    if (!parts.empty()) {
        facts.push_back({"Mixture", listed(parts) + ", by its materials' figures"});
    }
}

/// "Told, not judged": what the rule says, whose it is and how that is known.
Fact factOf(const Information& row) {
    std::string text = row.title + " (" + row.jurisdiction + "), told here and not judged:";
    for (const auto& sentence : row.says) {
        text += " " + sentence;
    }
    text += " Source: " + row.source.document;
    text += row.source.section.empty() ? "." : ", " + row.source.section + ".";
    return {"For information", text + " " + row.source.checked + " Written for: " + row.scope};
}

std::string positionsInWords(const BatchReview& review) {
    auto text = review.positions.empty() ? std::string{"none"} : listed(review.positions);
    if (!review.spotChecks.empty()) {
        text += "; spot checks, not counted: " + listed(review.spotChecks);
    }
    return review.unreadPositions.empty() ? text : text + "; never read: " + listed(review.unreadPositions);
}

std::string readingsInWords(const BatchReview& review) {
    const auto entries = [](std::int64_t count) {
        return count == 0 ? std::string{"no entry"} : howMany(count, "entry", "entries");
    };
    return fmt::format("{}; {} amended, {} made late", review.readings, entries(review.amendedEntries),
                       entries(review.lateEntries));
}

std::optional<Instant> lastEntry(const BatchRecord& record) {
    std::optional<Instant> last;
    const auto note = [&](Instant at) { last = std::max(last.value_or(at), at); };
    for (const auto& track : record.tracks) {
        if (!track.samples.empty()) {
            note(track.samples.back().at);
        }
    }
    for (const auto& addition : record.additions) {
        note(addition.when.at);
    }
    for (const auto& aeration : record.aerations) {
        note(aeration.when.at);
    }
    return last;
}

std::vector<Fact> batchFacts(const CertificateInput& input) {
    const auto& review = input.review;
    std::vector<Fact> facts;
    const bool moved = input.record.batch.stays.size() > 1;
    facts.push_back({moved ? "Bins" : "Bin", binNames(input)});
    facts.push_back({"Started", longDateTime(review.started)});
    facts.push_back(
        {"Finished", review.finished ? longDateTime(input.zone.momentAt(*review.finished)) : "still running"});
    mixtureFacts(review, facts);
    facts.push_back({review.positions.size() == 1 ? "Position read" : "Positions read", positionsInWords(review)});
    facts.push_back({"Readings", readingsInWords(review)});
    if (review.peak) {
        facts.push_back(
            {"Warmest", fmt::format("{} °C, {}, {}", rounded(review.peak->temperature, 1), review.peak->position,
                                    dayAndTime(input.zone.momentAt(review.peak->at)))});
    }
    return facts;
}

std::string creditRule(const BatchReview& review) {
    std::optional<Seconds> shortest;
    std::optional<Seconds> longestGap;
    for (const auto& judgement : review.criteria) {
        for (const auto& alternative : judgement.criterion.alternatives) {
            for (const auto& step : alternative.steps) {
                const auto gap = maxGapFor(step);
                shortest = std::min(shortest.value_or(gap), gap);
                longestGap = std::max(longestGap.value_or(gap), gap);
            }
        }
    }
    std::string gap;
    if (shortest) {
        gap = *shortest == *longestGap
                  ? fmt::format(" ({})", durationWords(*shortest))
                  : fmt::format(" ({} to {})", durationWords(*shortest), durationWords(*longestGap));
    }
    return fmt::format(
        "How time is credited: the time between one reading and the next counts in full when both reach the "
        "temperature, lie no further apart than allowed{}, every position that was read does so at once, and no raw "
        "material was added between them; otherwise none of it counts. Readings are corrected by the thermometer's "
        "checks.",
        gap);
}

std::string readers(const WrittenReadings& readings) {
    std::vector<std::string> names;
    for (const auto& name : readings.readers()) {
        if (!name.empty()) {
            names.push_back(name);
        }
    }
    return listed(names);
}

}  // namespace

std::string cautionsOnPaper() {
    return cautions;
}

Certificate certificateOf(const CertificateInput& input, const IssueNote& note) {
    Certificate certificate{"Batch certificate", stance, input.group, input.review.batch};
    if (const auto last = lastEntry(input.record); !input.review.finished && last) {
        certificate.interim = fmt::format("The batch is still running. This is its record up to the last entry, {}.",
                                          longDateTime(input.zone.momentAt(*last)));
    }
    certificate.batchFacts = batchFacts(input);
    certificate.materials = {"Materials", materialsInWords(input.record.additions)};
    for (const auto& judgement : input.review.criteria) {
        certificate.findings.push_back(findingOf(judgement, input.record, input.zone));
    }
    for (const auto& row : input.information) {
        certificate.information.push_back(factOf(row));
    }
    certificate.course = courseOf(input);
    certificate.creditRule = creditRule(input.review);
    certificate.signatures = {{"Read by", readers(input.readings)}, {"Reviewed by", ""}};
    certificate.cautions = cautionsOnPaper();
    certificate.number = note.number;
    certificate.issued = longDateTime(note.issued);
    if (!note.supersedes.empty()) {
        certificate.supersedes = fmt::format("Takes the place of certificate {}.", note.supersedes);
    }
    certificate.digest = note.digest;
    return certificate;
}

}  // namespace midden
