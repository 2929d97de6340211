// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/remedies.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/review/act_words.h"
#include "core/thermal/interval.h"

namespace midden {

namespace {

/// Acts this close to a logged remedy are the remedy. Our own choice: the time of a round.
constexpr Seconds sameAct = minutes(60);

struct Tried {
    Instant at;
    std::string remedy;
};

/// What was done from the stall's beginning to `end`: the remedies in the steward's own words, and acts beside them.
class Collector {
  public:
    Collector(const BatchRecord& record, Interval within) : record_{record}, within_{within} {}

    std::vector<Tried> collect() {
        for (const auto& seen : record_.observations) {
            if (seen.kind == ObservationKind::remedy && isWithin(seen.when.at)) {
                tried_.push_back({seen.when.at, seen.value.empty() ? seen.subject : seen.value});
            }
        }
        named_ = tried_.size();
        for (const auto& aeration : record_.aerations) {
            if (aeration.kind != AerationKind::opened && aeration.kind != AerationKind::other) {
                take(aeration.when.at, actWord(aeration.kind));
            }
        }
        for (const auto& addition : record_.additions) {
            take(addition.when.at, addition.material + " added");
        }
        std::stable_sort(tried_.begin(), tried_.end(), [](const Tried& a, const Tried& b) { return a.at < b.at; });
        return std::move(tried_);
    }

  private:
    bool isWithin(Instant at) const { return at >= within_.from && at <= within_.to; }

    void take(Instant at, std::string remedy) {
        const auto namesIt = [&](const Tried& one) { return at - one.at <= sameAct && one.at - at <= sameAct; };
        const auto named = tried_.begin() + static_cast<std::ptrdiff_t>(named_);
        if (isWithin(at) && std::none_of(tried_.begin(), named, namesIt)) {
            tried_.push_back({at, std::move(remedy)});
        }
    }

    const BatchRecord& record_;
    Interval within_;
    std::vector<Tried> tried_;
    std::size_t named_ = 0;  ///< so many of them are the steward's own
};

RemedyOutcome outcomeOf(Tried tried, const Stall& stall, Instant end, Seconds allowed) {
    RemedyOutcome outcome{tried.at, std::move(tried.remedy)};
    const auto inHours = [](Seconds time) { return fmt::format("{:.0f} h", time.hours()); };
    if (stall.to && *stall.to - outcome.at <= allowed) {
        outcome.state = RemedyOutcome::State::worked;
        outcome.sentence = "It worked: hot again " + inHours(*stall.to - outcome.at) + " later.";
    } else if (end - outcome.at >= allowed) {
        outcome.state = RemedyOutcome::State::didNotWork;
        outcome.sentence = "It did not work: not hot again within " + inHours(allowed) + ".";
    } else {
        outcome.sentence = "Too early to say: hot again within " + inHours(allowed) + " would mean it worked.";
    }
    return outcome;
}

}  // namespace

std::vector<RemedyOutcome> remediesOf(const BatchRecord& record, const Stall& stall, Instant end,
                                      const StallSettings& settings) {
    std::vector<RemedyOutcome> outcomes;
    // The filling of a bin that never heated is not a remedy of it.
    const Instant from = stall.kind == StallKind::neverHeated ? stall.from + settings.afterHandling : stall.from;
    for (auto& tried : Collector{record, {from, end}}.collect()) {
        outcomes.push_back(outcomeOf(std::move(tried), stall, end, settings.remedy));
    }
    return outcomes;
}

}  // namespace midden
