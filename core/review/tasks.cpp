// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/tasks.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <tuple>

namespace midden {

namespace {

/// Finds the tasks of one bin.
class Finder {
  public:
    Finder(const BinStatus& status, Today today, const TaskSettings& settings)
        : status_{status}, outlook_{outlookAt(status.outlook, today.now)}, today_{today}, settings_{settings} {}

    std::vector<Task> find() {
        if (!status_.batch) {
            return {};
        }
        if (status_.isFinished) {
            findCertificate();
            return std::move(tasks_);
        }
        if (!outlook_.last) {
            put(TaskKind::firstReading, Urgency::today).since = status_.batch->started.at;
            return std::move(tasks_);
        }
        findHeat();
        findStall();
        findReading();
        if (status_.fed) {
            findFeeding(*status_.fed);
        } else {
            findTurnings();
            findCertificate();
            findCuring();
        }
        return std::move(tasks_);
    }

  private:
    Task& put(TaskKind kind, Urgency urgency) {
        Task task{kind, urgency, status_.bin.id, status_.batch->id, status_.bin.name};
        if (outlook_.last) {
            task.read = outlook_.last->warmest;
        }
        task.credited = outlook_.holdSoFar();
        task.fed = status_.fed;
        return tasks_.emplace_back(std::move(task));
    }

    const Due* due(DueKind kind) const {
        const auto found =
            std::find_if(outlook_.due.begin(), outlook_.due.end(), [&](const Due& one) { return one.kind == kind; });
        return found == outlook_.due.end() ? nullptr : &*found;
    }

    bool isToday(Instant at) const { return at <= today_.end; }

    void findHeat() {
        if (due(DueKind::openUp) != nullptr) {
            put(TaskKind::openUp, Urgency::now).since = outlook_.last->at;
        } else if (due(DueKind::watchHeat) != nullptr) {
            put(TaskKind::watchHeat, Urgency::today).since = outlook_.last->at;
        }
        if (const Due* breaks = due(DueKind::holdWillBreak)) {
            put(TaskKind::saveHold, Urgency::now).until = breaks->at;
        } else if (const Due* told = due(DueKind::wentCold)) {
            put(TaskKind::tellCold, Urgency::today).until = told->at;
            tasks_.back().since = outlook_.last->at;
        } else if (const Due* cold = due(DueKind::willGoCold)) {
            put(TaskKind::keepHot, Urgency::today).until = cold->at;
        }
    }

    void findStall() {
        if (!outlook_.stall) {
            return;
        }
        const Stall& stall = *outlook_.stall;
        const bool isWaiting =
            !stall.remedies.empty() && stall.remedies.back().state == RemedyOutcome::State::tooEarlyToSay;
        if (isWaiting) {
            const auto& tried = stall.remedies.back();
            const Instant until = tried.at + settings_.remedy;
            Task& task = put(TaskKind::judgeRemedy, isToday(until) ? Urgency::today : Urgency::soon);
            task.until = until;
            task.since = tried.at;
            task.detail = tried.remedy;
            return;
        }
        Task& task = put(TaskKind::tryRemedy, Urgency::today);
        task.since = stall.from;
        task.detail = stall.causes.empty() ? std::string{} : stall.causes.front().remedy;
    }

    /// The one reading that matters most: of a hold that runs before the usual round.
    void findReading() {
        const Instant usual = outlook_.last->at + settings_.betweenRounds;
        if (outlook_.hold && !outlook_.targetShown && findHold(*outlook_.hold, usual)) {
            return;
        }
        if (due(DueKind::holdBroke) != nullptr && outlook_.phase != Phase::curing) {
            Task& task = put(TaskKind::bridgeGap, Urgency::today);
            task.until = outlook_.broken->at;
            task.since = outlook_.last->at;
            task.credited = outlook_.broken->credited;
            return;
        }
        if (outlook_.phase == Phase::curing || !isToday(usual)) {
            return;
        }
        Task& task = put(usual < today_.now ? TaskKind::readOverdue : TaskKind::read, Urgency::today);
        task.until = usual;
        task.since = outlook_.last->at;
    }

    bool findHold(const RunningHold& hold, Instant usual) {
        if (hold.completes <= today_.now) {
            put(TaskKind::endHold, Urgency::now).until = hold.completes;
        } else if (hold.readBy < usual || usual < today_.now) {
            put(TaskKind::readForHold, Urgency::now).until = hold.readBy;
        } else if (isToday(hold.completes) && hold.completes <= hold.readBy) {
            put(TaskKind::endHold, Urgency::today).until = hold.completes;
        } else {
            return false;
        }
        tasks_.back().since = outlook_.last->at;
        return true;
    }

    /// What is ready may lie there for a while, and a level is measured when the lid is open for a feed.
    void findFeeding(const FedStatus& fed) {
        if (fed.feedDue && isToday(*fed.feedDue)) {
            Task& task = put(TaskKind::feed, Urgency::today);
            task.until = fed.feedDue;
            task.since = fed.lastFed;
        }
        const Seconds holds = LayerRules{}.levelHolds;
        if (fed.lastFed && (!fed.level || fed.level->at + holds <= today_.end)) {
            Task& task = put(TaskKind::measureLevel, Urgency::today);
            task.since = fed.level ? std::optional{fed.level->at} : std::nullopt;
        }
        if (fed.ready) {
            put(TaskKind::takeOut, Urgency::soon).since = fed.ready->fedTo;
        }
    }

    void findTurnings() {
        for (const auto& open : status_.turnings) {
            if (isToday(open.from) && today_.now <= open.until) {
                Task& task = put(TaskKind::turn, Urgency::today);
                task.until = open.from > today_.now ? std::optional{open.from} : std::nullopt;
                task.detail = open.criterion;
                task.asked = open.asked;
                task.recorded = open.recorded;
            }
        }
    }

    void findCertificate() {
        if (!status_.shown.empty() && !status_.isCertified) {
            put(TaskKind::certify, Urgency::soon).detail = status_.shown.front();
        }
    }

    void findCuring() {
        const auto& care = settings_.care;
        if (outlook_.curingSince) {
            if (isToday(*outlook_.curingSince + care.curing) && !status_.isTestedSinceCuring) {
                put(TaskKind::testCuring, Urgency::soon).since = outlook_.curingSince;
            }
            return;
        }
        const bool hasCooled = outlook_.phase == Phase::cooling && outlook_.targetShown && status_.cooledSince &&
                               outlook_.last->at - *status_.cooledSince >= care.cooled;
        if (hasCooled) {
            Task& task = put(TaskKind::beginCuring, Urgency::soon);
            task.since = status_.cooledSince;
            const auto& turned = status_.turnedSinceCooled;
            task.recorded = turned && outlook_.last->at - *turned >= settings_.remedy ? 1 : 0;
        }
    }

    const BinStatus& status_;
    BinOutlook outlook_;  ///< at this moment
    Today today_;
    const TaskSettings& settings_;
    std::vector<Task> tasks_;
};

/// One task a thermometer, however many bins it is used in.
std::vector<Task> probeTasks(std::span<const BinStatus> bins, Today today, Seconds interval) {
    std::map<ProbeId, ProbeStatus> probes;
    for (const auto& bin : bins) {
        for (const auto& probe : bin.probes) {
            auto& known = probes.try_emplace(probe.probe, probe).first->second;
            known.lastCheck = std::max(known.lastCheck, probe.lastCheck);
        }
    }
    std::vector<Task> tasks;
    for (const auto& [id, probe] : probes) {
        if (!probe.lastCheck || *probe.lastCheck + interval <= today.end) {
            Task task{TaskKind::checkProbe, Urgency::soon, {}, {}, probe.name};
            task.since = probe.lastCheck;
            tasks.push_back(std::move(task));
        }
    }
    return tasks;
}

auto rankOf(const Task& task) {
    return std::tie(task.urgency, task.kind, task.until, task.where, task.detail, task.bin);
}

}  // namespace

std::vector<Task> tasksFor(std::span<const BinStatus> bins, Today today, const TaskSettings& settings) {
    std::vector<Task> all;
    for (const auto& status : bins) {
        auto found = Finder{status, today, settings}.find();
        std::move(found.begin(), found.end(), std::back_inserter(all));
    }
    auto probes = probeTasks(bins, today, settings.care.check);
    std::move(probes.begin(), probes.end(), std::back_inserter(all));
    std::sort(all.begin(), all.end(), [](const Task& a, const Task& b) { return rankOf(a) < rankOf(b); });
    return all;
}

}  // namespace midden
