// SPDX-License-Identifier: GPL-3.0-or-later
// A file of criteria, and one criterion as a book keeps it. What is accepted reads back the same and can be judged.
#include "core/criteria/criteria_json.h"
#include "core/review/review.h"
#include "core/review/review_json.h"
#include "core/review/review_text.h"
#include "tests/fuzz/fuzz_input.h"

namespace midden {

namespace {

using fuzz::expect;

/// Twelve days at three positions, with everything a rule may ask about.
BatchRecord record() {
    constexpr Instant start{1'772'352'000};
    BatchRecord made;
    made.batch.name = "Spring";
    made.batch.started.at = start;
    made.binName = "North";
    for (const auto* position : {"base", "core", "side"}) {
        Track track{position, false, {}};
        for (int reading = 0; reading < 24; ++reading) {
            const int heat = 350'000 + 30'000 * (reading < 12 ? reading : 24 - reading);
            track.samples.emplace_back(start + hours(12 * reading), Celsius::ofTenThousandths(heat),
                                       Kelvins::ofTenThousandths(5'000));
        }
        made.tracks.push_back(track);
    }
    for (const int day : {3, 5, 6}) {
        Aeration turning;
        turning.when.at = start + days(day);
        made.aerations.push_back(turning);
    }
    made.readings = 72;
    return made;
}

void judge(std::vector<Criterion> criteria) {
    static const BatchRecord batch = record();
    ReviewQuestions questions;
    questions.criteria = std::move(criteria);
    const auto review = reviewOf(batch, questions);
    expect(!reviewText(review, TimeZone::utc()).empty(), "a review says something");
    expect(!reviewJson({&review, 1}).empty(), "a review can be read by scripts");
}

void checkOne(std::string_view text) {
    const auto criterion = parseGroupCriterion(text);
    if (!criterion) {
        expect(!criterion.error().wrong.empty(), "a refusal says what is wrong");
        return;
    }
    const auto written = criterionText(*criterion);
    const auto again = parseGroupCriterion(written);
    expect(again && criterionText(*again) == written, "a criterion reads back as it was written");
    judge({*criterion});
}

}  // namespace

}  // namespace midden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {  // NOLINT
    using namespace midden;
    const auto text = fuzz::Input{data, size}.text();
    checkOne(text);
    auto file = parseCriteria(text);
    if (file && file->size() < 20) {
        judge(std::move(*file));
    }
    return 0;
}
