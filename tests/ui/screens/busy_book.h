// SPDX-License-Identifier: GPL-3.0-or-later
// An invented book with something on every screen: a hold that runs, a stall, a finished batch that went cold, checks,
// notes and material.
#pragma once

#include <string>

#include "core/store/logbook.h"
#include "tests/ui/shell/desk.h"

namespace midden::testing {

/// "North", or, where names are to be long, as many letters as `letters` says, beginning with it.
struct Namer {
    std::size_t letters = 0;  ///< 0 = as it is

    std::string operator()(std::string name) const {
        const std::string more = " of the long row by the old orchard wall behind the big water tank";
        while (name.size() < letters) {
            name += more.substr(0, letters - name.size());
        }
        return name;
    }
};

class BusyBook {
  public:
    BusyBook(const QString& path, Namer name)
        : book_{Logbook::open(path.toStdString(), Logbook::Mode::createIfAbsent)}, name_{name} {
        book_.setSetting(setting::zone, "Europe/London");
        book_.setSetting(setting::group, name("Fernhill Lane (invented)"));
        book_.setSetting(setting::who, name("Ada"));
        const auto probe = addProbe();
        const BinId north = addBin("North");
        const BinId shed = addBin("Shed");
        const BinId hedge = addBin("Hedge");
        const Instant today = fourthOfMarch;
        addBatch("North, spring", north, today - days(40), today - days(20));
        read(north, today - days(38), {20, 58, 60, 44, 38, 33, 30, 28}, probe);
        addBatch("North, summer", north, today - days(6), {});
        read(north, today - days(5), {30, 48, 58, 60, 61}, probe);
        addBatch("Shed, summer", shed, today - days(9), {});
        read(shed, today - days(8), {20, 58, 60, 44, 38, 33, 30, 28}, probe);
        addBatch("Hedge, summer", hedge, today - days(3), {});
        read(hedge, today - days(3), {66, 68, 71}, probe);
    }

  private:
    ProbeId addProbe() {
        const auto probe = std::get<ProbeId>(
            book_.apply(Put<Probe>{{.name = name_("Long stem"), .accuracy = Kelvins::ofTenThousandths(10'000)}}).id);
        ThermometerCheck check{.probe = probe, .when = {fourthOfMarch - days(30), {}}};
        check.read = {5'000};
        book_.apply(Put<ThermometerCheck>{check});
        check.kind = CheckKind::boiling;
        check.read = {1'000'000};
        check.altitudeMetres = 1'060;
        check.when.at = check.when.at + Seconds{1'200};
        check.appliesFrom = fourthOfMarch - days(60);
        book_.apply(Put<ThermometerCheck>{check});
        return probe;
    }

    BinId addBin(const std::string& name) {
        const auto bin = std::get<BinId>(book_.apply(Put<Bin>{{.name = name_(name)}}).id);
        for (const char* position : {"core", "front left", "back right"}) {
            book_.apply(
                Put<PlaceSetting>{{.place = {bin, position == std::string{"core"} ? position : name_(position)}}});
        }
        return bin;
    }

    void addBatch(const std::string& name, BinId bin, Instant start, std::optional<Instant> finish) {
        Batch batch{.name = name_(name), .started = {start, {}}, .stays = {{start, bin}}};
        if (finish) {
            batch.finished = Moment{*finish, {}};
        }
        const auto id = std::get<BatchId>(book_.apply(Put<Batch>{batch}).id);
        for (const char* material : {"vegetable scraps", "wood chips", "hop draff"}) {
            Addition addition{.batch = id, .when = {start, {}}, .material = name_(material)};
            addition.massKilograms = 123.5;
            book_.apply(Put<Addition>{addition});
        }
        book_.apply(Put<Aeration>{{.batch = id, .when = {start + days(1), {}}}});
        book_.apply(Put<Observation>{{.batch = id, .when = {start + days(2), {}}, .value = name_("It steams")}});
    }

    /// Once a day at every position, and the air outside.
    void read(BinId bin, Instant first, std::initializer_list<int> temperatures, ProbeId probe) {
        Instant at = first;
        for (const int temperature : temperatures) {
            for (const auto& place : book_.places(bin)) {
                Reading reading{
                    .place = place.place, .when = {at, {}}, .written = {temperature * 10'000}, .probe = probe};
                book_.apply(Put<Reading>{reading});
            }
            if (!book_.reading({{}, at})) {
                book_.apply(Put<Reading>{{.when = {at, {}}, .written = {80'000}}});
            }
            at = at + days(1);
        }
    }

    Logbook book_;
    Namer name_;
};

/// A window on such a book, as large as the person has made it.
struct BusyDesk : Desk {
    explicit BusyDesk(QSize size, Namer name = {}) {
        { const BusyBook made{path(QStringLiteral("plot.midden")), name}; }
        REQUIRE(window->openBook(path(QStringLiteral("plot.midden"))));
        resize(size);
    }
    void resize(QSize size) {
        window->resize(size);
        settle();
        settle();
    }
    void show(const char* screen) {
        window->workspace()->showScreen(QLatin1String{screen});
        settle();
        waitForBackgroundWork();
    }
};

}  // namespace midden::testing
