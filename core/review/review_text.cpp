// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/review_text.h"

#include <fmt/core.h>
#include <fmt/ranges.h>

#include <array>
#include <tuple>

#include "core/criteria/phrases.h"
#include "core/quantities/utf8.h"

namespace midden {

namespace {

std::string counted(std::int64_t count, const char* one, const char* many) {
    return fmt::format("{} {}", count, count == 1 ? one : many);
}

std::string hoursText(double hours) {
    return fmt::format("{:.1f} h", hours);
}

/// Collects lines; knows the zone so that nobody else has to.
class Page {
  public:
    explicit Page(const TimeZone& zone) : zone_{zone} {}

    template <class... Parts>
    void line(fmt::format_string<Parts...> form, Parts&&... parts) {
        text_ += printable(fmt::format(form, std::forward<Parts>(parts)...)) + '\n';
    }
    std::string time(Instant at) const { return longDateTime(zone_.momentAt(at)); }
    std::string span(const Interval& interval) const { return time(interval.from) + " – " + time(interval.to); }
    std::string take() { return std::move(text_); }

  private:
    const TimeZone& zone_;
    std::string text_;
};

void writeHeading(Page& page, const BatchReview& review) {
    const auto end = review.finished ? page.time(*review.finished) : "still running";
    page.line("{}, in bin {}", review.batch, review.bin);
    page.line("  {} – {}", longDateTime(review.started), end);
    if (review.positions.empty()) {
        page.line("  no readings yet");
        return;
    }
    page.line("  {} at {}; {} amended, {} late", counted(review.readings, "reading", "readings"),
              fmt::join(review.positions, ", "), counted(review.amendedEntries, "entry", "entries"),
              counted(review.lateEntries, "entry", "entries"));
    if (review.positions.size() == 1) {
        page.line("  one position only");
    }
    if (!review.spotChecks.empty()) {
        page.line("  spot checks, not counted: {}", fmt::join(review.spotChecks, ", "));
    }
    if (!review.unreadPositions.empty()) {
        page.line("  never read: {}", fmt::join(review.unreadPositions, ", "));
    }
    if (review.peak) {
        page.line("  peak {} °C, {}, {}", rounded(review.peak->temperature, 1), review.peak->position,
                  page.time(review.peak->at));
    }
}

void writeThreshold(Page& page, const ThresholdReview& threshold) {
    page.line("");
    page.line("At {} °C or above{}", writtenNumber({static_cast<std::int32_t>(threshold.threshold.parts() / 9)}),
              threshold.byPosition.size() > 1 ? ", every position at once" : "");
    page.line("  credited {}, longest run {}", hoursText(threshold.whole.credited.hours()),
              hoursText(threshold.whole.longestRun.hours()));
    page.line("  joined by straight lines {}, longest {} (for comparison only)",
              hoursText(threshold.whole.interpolatedSeconds / 3'600),
              hoursText(threshold.whole.longestInterpolatedSeconds / 3'600));
    for (const auto& window : threshold.windows) {
        page.line("    {}   {}", page.span(window), hoursText(window.length().hours()));
    }
    if (threshold.byPosition.size() > 1) {
        for (const auto& [position, figures] : threshold.byPosition) {
            page.line("  {}: credited {}, longest run {}", position, hoursText(figures.credited.hours()),
                      hoursText(figures.longestRun.hours()));
        }
    }
}

void writeGaps(Page& page, const BatchReview& review) {
    if (review.gaps.empty()) {
        return;
    }
    page.line("");
    page.line("Too long between readings, not credited");
    for (const auto& gap : review.gaps) {
        page.line("  {}: {}   {}", gap.position, page.span(gap.interval), hoursText(gap.interval.length().hours()));
    }
}

const char* verdictWords(Verdict verdict) {
    switch (verdict) {
        case Verdict::shown:
            return "the readings reached these figures";
        case Verdict::shownWithinError:
            return "reached as read, but only within the thermometer's error";
        case Verdict::notShown:
            return "not shown by the readings";
    }
    return "";
}

const char* shortWords(Verdict verdict) {
    switch (verdict) {
        case Verdict::shown:
            return "reached";
        case Verdict::shownWithinError:
            return "within error";
        case Verdict::notShown:
            return "not reached";
    }
    return "";
}

void writeSteps(Page& page, const Judgement& judgement) {
    const auto& steps = judgement.criterion.alternatives.at(judgement.best).steps;
    const auto& figures = judgement.alternatives.at(judgement.best).steps;
    for (std::size_t i = 0; i < steps.size() && steps.size() > 1; ++i) {
        const auto& counted =
            steps[i].continuity == Continuity::cumulative ? figures[i].credited : figures[i].longestRun;
        page.line("    {}: {} of {}, readings no more than {} apart", limitWords(steps[i]), hoursText(counted.hours()),
                  hoursText(figures[i].required.hours()), durationWords(maxGapFor(steps[i])));
    }
}

void writeInFull(Page& page, const Judgement& judgement) {
    page.line("");
    page.line("{} [{}]", judgement.criterion.title, judgement.criterion.id);
    page.line("  {}: {} of {}", verdictWords(judgement.verdict), hoursText(judgement.credited.hours()),
              hoursText(judgement.required.hours()));
    writeSteps(page, judgement);
    if (judgement.restartedBy) {
        page.line("  the clock started anew: {}", *judgement.restartedBy);
    }
    for (const auto& condition : judgement.conditions) {
        static constexpr std::array states{"held", "not held", "not recorded"};
        page.line("  {}: {}", condition.condition, states.at(static_cast<std::size_t>(condition.state)));
    }
}

void writeInALine(Page& page, const Judgement& judgement) {
    page.line("  {:14} {} [{}]", shortWords(judgement.verdict), judgement.criterion.title, judgement.criterion.id);
}

/// A few criteria are told in full; of many the first, the book's target, is, and the others get a line each.
void writeCriteria(Page& page, const BatchReview& review) {
    constexpr std::size_t few = 3;
    const bool many = review.criteria.size() > few;
    for (std::size_t i = 0; i < review.criteria.size(); ++i) {
        if (!many || i == 0) {
            writeInFull(page, review.criteria[i]);
            continue;
        }
        if (i == 1) {
            page.line("");
            page.line("Published figures (\"--criterion ID\" says more about one)");
        }
        writeInALine(page, review.criteria[i]);
    }
}

const char* stallWords(StallKind kind) {
    switch (kind) {
        case StallKind::neverHeated:
            return "never heated";
        case StallKind::earlyCooling:
            return "cooled early";
        case StallKind::handlingDip:
            return "dipped after handling";
    }
    return "";
}

void writeStalls(Page& page, const BatchReview& review) {
    for (const auto& stall : review.stalls) {
        page.line("");
        page.line("The batch {}: {} – {}", stallWords(stall.kind), page.time(stall.from),
                  stall.to ? page.time(*stall.to) : "still so at the last entry");
        page.line("  {} short of the target", hoursText(stall.hoursShort));
        if (!stall.heat.sentence.empty()) {
            page.line("  {}", stall.heat.sentence);
        }
        for (const auto& cause : stall.causes) {
            page.line("  {}: {}", cause.cause, cause.remedy);
        }
        for (const auto& remedy : stall.remedies) {
            page.line("  tried {}: {}. {}", page.time(remedy.at), remedy.remedy, remedy.sentence);
        }
    }
}

void writeHeat(Page& page, const BatchReview& review) {
    if (review.heat.rates.empty()) {
        return;
    }
    page.line("");
    page.line("Heat made, between the last two rounds an outside temperature is known for");
    page.line("  {}", wordsOf(review.heat));
    page.line("  It holds its warmth for {}; in that time 63 % of it would be lost", wordsOf(review.heat.tau));
    page.line("  {}", review.heat.limits);
}

const char* lackingWords(Lacking lacking) {
    switch (lacking) {
        case Lacking::binVolume:
            return "the bin's volume is not known, so nothing is credited";
        case Lacking::binHeight:
            return "the bin's height is not known, so nothing is credited";
        case Lacking::positionHeight:
            return "some positions have no height";
        case Lacking::anyLevel:
            return "the level of the surface was never measured, so nothing is credited";
        case Lacking::recentLevel:
            return "no level in the last 14 days, so nothing more is credited";
        case Lacking::agreement:
            return "the last level does not agree with what was fed and taken, so nothing more is credited";
    }
    return "";
}

void writeLacking(Page& page, const FedReview& fed) {
    for (const auto lacking : fed.reckoning.lacking) {
        if (lacking == Lacking::positionHeight) {
            page.line("  missing: how high these positions are, so they show nothing: {}",
                      fmt::join(fed.positionsWithoutHeight, ", "));
        } else {
            page.line("  missing: {}", lackingWords(lacking));
        }
    }
    for (const auto& one : fed.assumed) {
        page.line("  litres not measured: {} of {}, taken as {:.1f} L {}", counted(one.additions, "feed", "feeds"),
                  one.material, one.litres,
                  one.from == LitresFrom::density ? "by its bulk density" : "at 0.40 kg per litre");
    }
}

std::string fedWhen(const Page& page, Instant from, Instant to) {
    return from == to ? page.time(from) : page.span({from, to});
}

/// Slices of one feed that tell the same stand in one line.
void writeLayers(Page& page, const FedReview& fed) {
    constexpr std::size_t mostLines = 20;
    const auto& layers = fed.reckoning.layers;
    std::size_t lines = 0;
    for (std::size_t i = 0; i < layers.size() && lines < mostLines; ++lines) {
        const auto& lowest = layers[i];
        double litres = 0;
        auto top = lowest.toCm;
        const auto tellsTheSame = [&](const StandingLayer& other) {
            return std::tie(other.fedFrom, other.fedTo, other.atLeast, other.longestRun, other.atMost) ==
                   std::tie(lowest.fedFrom, lowest.fedTo, lowest.atLeast, lowest.longestRun, lowest.atMost);
        };
        for (; i < layers.size() && tellsTheSame(layers[i]); ++i) {
            litres += layers[i].litres;
            top = layers[i].toCm;
        }
        const auto where = lowest.fromCm && top ? fmt::format(", {:.0f} to {:.0f} cm", *lowest.fromCm, *top) : "";
        page.line("  fed {}: {:.1f} L{}; at least {}, longest run {}, at most {}",
                  fedWhen(page, lowest.fedFrom, lowest.fedTo), litres, where, hoursText(lowest.atLeast.hours()),
                  hoursText(lowest.longestRun.hours()), hoursText(lowest.atMost.hours()));
        if (lines + 1 == mostLines && i < layers.size()) {
            page.line("  and {} above", counted(std::ssize(layers) - static_cast<std::int64_t>(i), "layer", "layers"));
        }
    }
}

std::string hoursText(const std::optional<Seconds>& duration) {
    return duration ? hoursText(duration->hours()) : "every hour there is";
}

void writeHarvest(Page& page, const FedReview& fed, const HarvestReckoning& harvest) {
    const auto& reckoned = harvest.reckoned;
    const auto& cautious = harvest.cautious;
    page.line("  {}: {:.1f} L", page.time(harvest.at), harvest.litres);
    if (harvest.moreThanThere) {
        page.line("    {:.1f} L were written down, more than was there", harvest.asked);
    }
    if (!reckoned.atLeast) {
        page.line("    nothing raw was in it, so no heat is asked of it");
        return;
    }
    page.line("    half of it had at least {}, nine tenths at least {}, all of it at least {}",
              hoursText(reckoned.halfHad), hoursText(reckoned.nineTenthsHad), hoursText(reckoned.atLeast));
    page.line("    {:.1f} L had the whole hold of {}", reckoned.litresWithHold, hoursText(fed.hold.hours()));
    if (cautious.fedFrom && cautious.fedTo) {
        page.line("    if younger material slipped down: fed {}, at least {}, at most {}",
                  fedWhen(page, *cautious.fedFrom, *cautious.fedTo), hoursText(cautious.atLeast),
                  hoursText(cautious.atMost.hours()));
    }
}

void writeFed(Page& page, const BatchReview& review) {
    if (!review.fed) {
        return;
    }
    const auto& fed = *review.fed;
    page.line("");
    page.line("Fed on top: layers and their hours at {} °C or above, lowest first, {}", rounded(fed.threshold, 1),
              page.time(fed.asOf));
    page.line(
        "  reckoned from what was read and measured, at the thermometers and not at the walls; it shows no "
        "published figure");
    writeLacking(page, fed);
    writeLayers(page, fed);
    if (!fed.reckoning.harvests.empty()) {
        page.line("");
        page.line("Harvests");
    }
    for (const auto& harvest : fed.reckoning.harvests) {
        writeHarvest(page, fed, harvest);
    }
}

}  // namespace

std::string reviewText(const BatchReview& review, const TimeZone& zone) {
    Page page{zone};
    writeHeading(page, review);
    for (const auto& threshold : review.thresholds) {
        writeThreshold(page, threshold);
    }
    writeGaps(page, review);
    writeCriteria(page, review);
    writeStalls(page, review);
    writeHeat(page, review);
    writeFed(page, review);
    if (review.daysAtTenCelsius > 0) {
        page.line("");
        page.line("For teaching only: as much as {:.0f} days at 10 °C, if the rate doubled with every 10 °C",
                  review.daysAtTenCelsius);
        page.line("  (common practice, no source; it does not hold above about 45 °C)");
    }
    return page.take();
}

}  // namespace midden
