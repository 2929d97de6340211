// SPDX-License-Identifier: GPL-3.0-or-later
// Several entries of one second: a recipe writes such groups.
#include "tests/ui/history/opened_history.h"

using namespace midden;
using namespace midden::ui;
using namespace midden::testing;

namespace {

Addition added(const char* material, double kilograms) {
    Addition addition;
    addition.when = {afterHours(1), {}};
    addition.material = material;
    addition.massKilograms = kilograms;
    return addition;
}

int lineOf(Opened& opened, const QString& start) {
    const QStringList lines = opened.lines();
    for (int row = 0; row < lines.size(); ++row) {
        if (lines[row].startsWith(start)) {
            return row;
        }
    }
    FAIL("no line begins with " << start.toStdString());
    return -1;
}

}  // namespace

TEST_CASE("one ingredient of several of a second amended is the only one struck through") {
    const NoQtWarnings quiet;
    BatchRecord record = madeRecord();
    record.additions = {added("leaves", 3), added("straw", 5), added("straw", 6)};
    Opened opened{record};
    opened.amend(lineOf(opened, "straw 5 kg"), EntriesModel::typed, "4");
    QStringList lines = opened.lines();
    lines.sort();  // within one second they stand in any order
    CHECK(lines == QStringList{"leaves 3 kg", "straw 4 kg (was 5 kg straw)", "straw 6 kg"});
    CHECK(opened.chosen().startsWith("straw 4 kg"));
}

TEST_CASE("one ingredient of several of a second withdrawn leaves the others as they are") {
    const NoQtWarnings quiet;
    BatchRecord record = madeRecord();
    record.additions = {added("leaves", 3), added("straw", 5)};
    Opened opened{record};
    opened.amend(lineOf(opened, "leaves"), EntriesModel::typed, "2");
    opened.withdraw(lineOf(opened, "leaves"));
    CHECK(opened.lines().filter("straw") == QStringList{"straw 5 kg"});
    CHECK(opened.lines().contains("withdrawn addition (was 2 kg leaves)"));
    // What it was before that is told too, for no line of the entry's own is left to show it.
    CHECK(opened.lines().contains("amended addition 2 kg leaves (was 3 kg leaves)"));
}

TEST_CASE("of a turning and a watering of one second only the amended one says so") {
    const NoQtWarnings quiet;
    BatchRecord record = madeRecord();
    for (const AerationKind kind : {AerationKind::turned, AerationKind::watered}) {
        Aeration aeration;
        aeration.when = {afterHours(2), {}};
        aeration.kind = kind;
        record.aerations.push_back(aeration);
    }
    for (const char* smell : {"sour", "earthy"}) {
        Observation observation;
        observation.when = {afterHours(2), {}};
        observation.kind = ObservationKind::smell;
        observation.value = smell;
        record.observations.push_back(observation);
    }
    Opened opened{record};
    opened.amend(lineOf(opened, "watered"), EntriesModel::note, "two cans");
    CHECK(opened.lines().filter("was") == QStringList{"watered (was watered)"});
    opened.amend(lineOf(opened, "smell: earthy"), EntriesModel::note, "after rain");
    CHECK(opened.lines().filter("was") == QStringList{"watered (was watered)", "smell: earthy (was smell: earthy)"});
}

TEST_CASE("of readings of one second only the amended one says so, however alike their places are called") {
    const NoQtWarnings quiet;
    BatchRecord record = madeRecord();
    for (const char* position : {"core", "core, North", "outside air"}) {
        record.tracks.push_back({position, false, {sampleAt(3, 50)}});
    }
    record.outside = {sampleAt(3, 7)};
    Opened opened{record};
    REQUIRE(opened.book->change(
        Put<Reading>{{.place = {}, .when = {afterHours(3), {}}, .written = {90'000, TemperatureUnit::celsius}}},
        "air"));
    opened.settle();
    opened.amend(lineOf(opened, "reading core, North"), EntriesModel::typed, "51");
    CHECK(opened.lines().filter("was") == QStringList{"reading core, North 51 (was 50 °C)"});
    opened.amend(lineOf(opened, "reading outside 7"), EntriesModel::typed, "8");
    CHECK(opened.lines().filter("outside").filter("was") == QStringList{"reading outside 8 (was 7 °C)"});
    CHECK(opened.lines().contains("reading outside 9"));
    CHECK(opened.lines().contains("reading outside air 50"));
}
