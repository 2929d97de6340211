// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/certificate.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <regex>

#include "core/certificate/wording.h"
#include "core/criteria/criteria_json.h"
#include "tests/core/certificate/sample_batches.h"

using namespace midden;
using namespace midden::testing;

namespace {

void append(std::string& all, const std::vector<Fact>& facts) {
    for (const auto& [label, text] : facts) {
        all.append(label).append(": ").append(text).append("\n");
    }
}

/// Everything that will be drawn, but the titles of the sources.
std::string wordsOf(const Certificate& certificate) {
    std::string all = certificate.title + "\n" + certificate.stance + "\n" + certificate.interim + "\n";
    append(all, certificate.batchFacts);
    append(all, {certificate.materials});
    for (const auto& finding : certificate.findings) {
        all += finding.sentence + "\n";
        for (const auto& row : finding.figures) {
            all += row.figure + " | " + row.asked + " | " + row.read + " | " + row.missing + "\n";
        }
        for (const auto& remark : finding.remarks) {
            all += remark + "\n";
        }
        append(all, finding.conditions);
        all += finding.scope + "\n";  // a source's own title is quoted as it is
    }
    append(all, certificate.course);
    return all + certificate.creditRule + "\n" + certificate.cautions + "\n" + certificate.supersedes + "\n";
}

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

/// What must not be said or implied of a heap that was only measured with a thermometer.
const std::regex claims{
    R"(\b(un)?safe(ly|ty)?\b|steril|weed[- ]free|disease[- ]free|herbicide[- ]free|pathogen|complian|complies|)"
    R"(\bapproved\b|PAS ?100|AS ?4454|\bCE\b|class a\b|PFRP|certified|guarantee|conform)",
    std::regex::icase};

std::string claimIn(const std::string& words) {
    std::smatch found;
    return std::regex_search(words, found, claims) ? found.str() : "";
}

std::vector<SampleBatch> everyShape() {
    return {shownBatch(),     notShownBatch(),      withinErrorBatch(), onePositionBatch(),
            longNamesBatch(), manyPositionsBatch(), emptyBatch()};
}

}  // namespace

TEST_CASE("no certificate ever claims more than the readings show") {
    for (const auto& batch : everyShape()) {
        const auto words = wordsOf(batch.certificate({"N", at(20, 10), "M", ""}));
        CAPTURE(words);
        CHECK(claimIn(words).empty());
    }
}

TEST_CASE("no rule that ships puts a claim on the page") {
    for (const auto& rule : shippedCriteria()) {
        auto batch = shownBatch();
        judgeBy(batch, rule);
        const auto words = wordsOf(batch.certificate());
        CAPTURE(rule.id, words);
        CHECK(claimIn(words).empty());
    }
}

TEST_CASE("every certificate carries its stance and its cautions") {
    for (const auto& batch : everyShape()) {
        const auto certificate = batch.certificate();
        CHECK(certificate.title == "Batch certificate");
        CHECK(certificate.stance ==
              "A temperature record of one batch. No laboratory tests were made. Not an approval or a warranty; local "
              "rules and licensed practice come first.");
        CHECK(says(certificate.cautions, "weedkiller"));
        CHECK(says(certificate.cautions, "local rules"));
    }
}

TEST_CASE("a batch that reached the figures says so and no more") {
    const auto certificate = shownBatch().certificate();
    const auto& finding = certificate.findings.at(0);
    CHECK(finding.sentence == "The readings reached the time–temperature figures of “the logbook's own target”.");
    REQUIRE(finding.figures.size() == 1);
    CHECK(finding.figures[0].figure == "at or above 55 °C");
    CHECK(finding.figures[0].asked == "72 h in one run");
    CHECK(finding.figures[0].read == "144 h");
    CHECK(finding.figures[0].missing.empty());
    CHECK(says(finding.remarks.at(0), "base, the coolest, was at or above 55 °C for 144 h"));
}

TEST_CASE("a batch that did not reach the figures says by how much") {
    const auto certificate = notShownBatch().certificate();
    const auto& finding = certificate.findings.at(0);
    CHECK(finding.sentence == "The readings did not reach the time–temperature figures of “the logbook's own target”.");
    CHECK(finding.figures.at(0).read == "24 h");
    CHECK(finding.figures.at(0).missing == "48 h");
    const auto words = wordsOf(certificate);
    CHECK(says(words, "Gaps over 36 h: core 72 h, 6 March 08:00 – 9 March 08:00"));
    CHECK(says(words, "Stalls: cooled early: 5 March 08:00 – still so at the last entry"));
    CHECK(says(words, "2 entries amended, 1 entry made late"));
}

TEST_CASE("a batch within the thermometer's error says whose error") {
    const auto finding = withinErrorBatch().certificate().findings.at(0);
    CHECK(finding.sentence ==
          "As read, the readings reached the time–temperature figures of “the logbook's own target”; with the "
          "thermometer's own error held against them they did not.");
    CHECK(says(finding.remarks.at(0), "±0.5 °C"));
}

TEST_CASE("a single position is said to be one") {
    const auto certificate = onePositionBatch().certificate();
    CHECK(says(wordsOf(certificate), "One position only was read (core); the rest of the bin was not measured."));
    CHECK(certificate.interim ==
          "The batch is still running. This is its record up to the last entry, 13 March 2026 08:00.");
}

TEST_CASE("materials are added up by name") {
    CHECK(shownBatch().certificate().materials.text ==
          "kitchen scraps 17.5 kg, wood chip 11 kg, grass clippings 9.25 kg – 37.75 kg in 4 additions");
}

TEST_CASE("the record of air and of thermometers is told with times") {
    const auto words = wordsOf(shownBatch().certificate());
    CHECK(says(words, "Turnings: 2: 5 March 17:30, 8 March 17:00"));
    CHECK(says(words, "Air and water: watered 9 March 08:00"));
    CHECK(says(words, "Long stem 1: ±0.5 °C, its stated accuracy; last checks: read 0.4 °C in ice on 1 March 2026"));
}

TEST_CASE("readings without a named thermometer are said to be so") {
    auto batch = sampleBatch({{"core", {"60"}}});
    batch.record.probes.clear();
    batch.record.checks.clear();
    batch.readings.front().probe.reset();
    CHECK(says(wordsOf(batch.certificate()), "the one used is not named: ±1 °C assumed"));
}

TEST_CASE("those who read are named and the signatures left to ink") {
    const auto certificate = shownBatch().certificate();
    REQUIRE(certificate.signatures.size() == 2);
    CHECK(certificate.signatures[0].text == "Ann and Joseph");
    CHECK(certificate.signatures[1].text.empty());
}

TEST_CASE("a certificate that replaces another says which") {
    const auto certificate = shownBatch().certificate({"20260301-AAAA-BBBB", at(20, 10), "20260301-0000-1111", ""});
    CHECK(certificate.supersedes == "Takes the place of certificate 20260301-0000-1111.");
    CHECK(certificate.issued == "20 March 2026 10:00");
}

TEST_CASE("a rule known from memory only says so") {
    auto batch = shownBatch();
    auto rule = sampleTarget();
    rule.source = {"A rule", "section 1", "", true};
    judgeBy(batch, rule);
    CHECK(batch.certificate().findings.at(1).source == "A rule, section 1. From memory, unverified.");
}

TEST_CASE("what a rule asks is told in its own unit and manner") {
    auto batch = withinErrorBatch();
    auto rule = sampleTarget();
    auto& step = rule.alternatives.front().steps.front();
    step.threshold = {1'310'000, TemperatureUnit::fahrenheit};
    step.ceiling = WrittenTemperature{1'700'000, TemperatureUnit::fahrenheit};
    step.continuity = Continuity::cumulative;
    step.holdExceeds = true;
    judgeBy(batch, rule);
    const auto row = batch.certificate().findings.at(1).figures.at(0);
    CHECK(row.figure == "from 55 °C (131 °F) to 76.7 °C (170 °F)");
    CHECK(row.asked == "more than 72 h in all");
    CHECK(row.read == "72 h");
    CHECK(row.missing == "a moment");
}

TEST_CASE("hours read are exact") {
    CHECK(hoursRead(Seconds{72 * 3'600 - 1}) == "71 h 59 min 59 s");
    CHECK(hoursRead(hours(72)) == "72 h");
    CHECK(hoursRead({}) == "0 h");
}

TEST_CASE("lists read as English") {
    CHECK(listed({}).empty());
    CHECK(listed({"a"}) == "a");
    CHECK(listed({"a", "b"}) == "a and b");
    CHECK(listed({"a", "b", "c"}) == "a, b and c");
    CHECK(howMany(1, "reading", "readings") == "1 reading");
    CHECK(howMany(2, "reading", "readings") == "2 readings");
}
