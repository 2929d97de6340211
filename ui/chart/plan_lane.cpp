// SPDX-License-Identifier: GPL-3.0-or-later
// The lane of additions, aerations, observations and harvests.
#include <QCoreApplication>
#include <algorithm>
#include <array>

#include "core/recipe/material.h"
#include "ui/chart/entry_words.h"
#include "ui/chart/plan_parts.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

/// Entries whose glyphs would touch stand as one.
constexpr double glyphWidth = 14;
constexpr std::size_t labelRows = 2;

QString say(const char* words) {
    return QCoreApplication::translate("ChartPlan", words);
}

/// A line of the lane before it is grouped: short for the label, long for the tip.
struct Entry {
    Instant at;
    LaneKind kind{};
    QString brief;
    QString words;
};

QString dated(Moment when, const QString& words, const std::string& note, const ChartView& view) {
    const QString head = say("%1: %2").arg(words::fullTime(view.zone.momentAt(when.at)), words);
    return note.empty() ? head : say("%1 – %2").arg(head, words::text(note));
}

std::vector<Entry> entriesOf(const BatchRecord& record, const ChartView& view) {
    std::vector<Entry> entries;
    for (const Addition& addition : record.additions) {
        const bool raw = isRaw(addition);
        entries.push_back({addition.when.at, raw ? LaneKind::rawAddition : LaneKind::addition,
                           words::text(addition.material),
                           dated(addition.when, words::addition(addition), addition.note, view)});
    }
    for (const Aeration& aeration : record.aerations) {
        const bool water = aeration.kind == AerationKind::watered;
        entries.push_back({aeration.when.at, water ? LaneKind::watering : LaneKind::aeration,
                           words::kindOf(aeration.kind),
                           dated(aeration.when, words::kindOf(aeration.kind), aeration.note, view)});
    }
    for (const Observation& observation : record.observations) {
        entries.push_back({observation.when.at, LaneKind::observation, words::observation(observation),
                           dated(observation.when, words::observation(observation), observation.note, view)});
    }
    for (const Harvest& harvest : record.harvests) {
        entries.push_back({harvest.when.at, LaneKind::observation, words::harvest(harvest),
                           dated(harvest.when, words::harvest(harvest), harvest.note, view)});
    }
    std::erase_if(entries,
                  [&](const Entry& entry) { return entry.at < view.visible.from || entry.at > view.visible.to; });
    std::ranges::stable_sort(entries, {}, &Entry::at);
    return entries;
}

std::vector<ChartMark> grouped(const std::vector<Entry>& entries, const ChartView& view) {
    std::vector<ChartMark> marks;
    for (const Entry& entry : entries) {
        const bool invalidations =
            !marks.empty() && pixelAt(view, entry.at) - pixelAt(view, marks.back().at) < glyphWidth;
        if (!invalidations) {
            marks.push_back({entry.at, entry.kind, 1, entry.brief, entry.words});
            continue;
        }
        ChartMark& mark = marks.back();
        ++mark.count;
        mark.label = QCoreApplication::translate("ChartPlan", "%1 entries").arg(mark.count);
        mark.words += QLatin1Char{'\n'} + entry.words;
        if (entry.kind == LaneKind::rawAddition) {
            mark.kind = LaneKind::rawAddition;
        }
    }
    return marks;
}

/// Labels take the first row in which they stand clear of the one before; those that fit nowhere are left to the tip.
void placeLabels(ChartPlan& plan, const ChartView& view) {
    const double air = view.textWidth(QStringLiteral("0"));
    std::array<double, labelRows> taken{};
    taken.fill(-air);
    for (ChartMark& mark : plan.marks) {
        const double width = view.textWidth(mark.label);
        const double middle = pixelAt(view, mark.at);
        mark.labelLeft = std::clamp(middle - width / 2, 0.0, std::max(0.0, view.width - width));
        const auto row = std::ranges::find_if(taken, [&](double right) { return right + air <= mark.labelLeft; });
        if (row == taken.end() || width > view.width) {
            mark.label.clear();
            continue;
        }
        *row = mark.labelLeft + width;
        mark.row = static_cast<int>(row - taken.begin());
        plan.laneRows = std::max(plan.laneRows, mark.row + 1);
    }
}

}  // namespace

void planLane(ChartPlan& plan, const BatchRecord& record, const ChartView& view) {
    plan.marks = grouped(entriesOf(record, view), view);
    placeLabels(plan, view);
}

}  // namespace midden::ui
