// SPDX-License-Identifier: GPL-3.0-or-later
// The program itself, as a script would call it.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <string>

#include "tests/core/exchange/shell.h"

namespace {

using midden::testing::comesBackFrom;
using midden::testing::Scratch;
using midden::testing::Shell;

constexpr const char* twoReadings = "time,temperature\n2026-03-02T08:00Z,55\n2026-03-03T08:00Z,60\n";

}  // namespace

TEST_CASE("a good import ends with 0 and says what it did") {
    const Shell shell;
    shell.scratch.write("r.csv", twoReadings);
    const auto ran = shell.run("import b.midden --batch Spring --bin North --readings r.csv");
    CHECK(ran.status == 0);
    CHECK(ran.out ==
          "Began batch \"Spring\" in bin \"North\", started 2 March 2026 08:00.\nNew bin: \"North\".\n2 readings "
          "added.\n");
    CHECK(ran.err.empty());
    CHECK(shell.run("import b.midden --batch Spring --readings r.csv").out ==
          "Batch \"Spring\" in bin \"North\".\n2 readings already there, nothing new.\n");
}

TEST_CASE("a dry run says the same and writes nothing") {
    const Shell shell;
    shell.scratch.write("r.csv", twoReadings);
    const auto absent = shell.run("import b.midden --batch Spring --bin North --readings r.csv --dry-run");
    CHECK(absent.status == 0);
    CHECK(absent.out.find("2 readings would be added.") != std::string::npos);
    CHECK_FALSE(shell.exists("b.midden"));
    REQUIRE(shell.run("import b.midden --batch Spring --bin North --readings r.csv").status == 0);
    const auto before = Scratch::read(shell.scratch.path("b.midden"));
    shell.scratch.write("r.csv", "time,temperature\n2026-03-04T08:00Z,58\n");
    const auto ran = shell.run("import b.midden --batch Spring --readings r.csv --dry-run");
    CHECK(ran.status == 0);
    CHECK(ran.out.find("1 reading would be added.") != std::string::npos);
    CHECK(Scratch::read(shell.scratch.path("b.midden")) == before);
}

TEST_CASE("bad input ends with 3 names file and line and leaves nothing behind") {
    const Shell shell;
    shell.scratch.write("r.csv", "time,temperature\n2026-03-02T08:00Z,55\n2026-03-03T08:00Z,5000\n");
    const auto ran = shell.run("import b.midden --batch Spring --bin North --readings r.csv");
    CHECK(ran.status == 3);
    CHECK(ran.out.empty());
    CHECK(ran.err == "r.csv:3: 5000 is no temperature of a heap; expected a value from -60 to 150 °C\n");
    CHECK_FALSE(shell.exists("b.midden"));
    CHECK(shell.run("import b.midden --batch Spring --bin North --readings absent.csv").status == 3);
    CHECK_FALSE(shell.exists("b.midden"));
}

TEST_CASE("an import refused by the book leaves its bytes as they were") {
    const Shell shell;
    shell.scratch.write("r.csv", twoReadings);
    REQUIRE(shell.run("import b.midden --batch Spring --bin North --readings r.csv").status == 0);
    const auto before = Scratch::read(shell.scratch.path("b.midden"));
    shell.scratch.write("r.csv", "time,temperature\n2026-03-01T08:00Z,50\n2026-03-02T08:00Z,56\n");
    const auto ran = shell.run("import b.midden --batch Spring --readings r.csv");
    CHECK(ran.status == 3);
    CHECK(ran.err.starts_with("r.csv:3: 56 °C here, but the logbook holds 55 °C"));
    CHECK(Scratch::read(shell.scratch.path("b.midden")) == before);
}

TEST_CASE("wrong usage ends with 2") {
    const Shell shell;
    shell.scratch.write("r.csv", "time,temperature\n2026-03-02T08:00,55\n");
    for (const char* arguments :
         {"import", "import b.midden", "import b.midden --batch Spring --readings r.csv --zone Europe/London",
          "import b.midden --batch Spring --bin North --readings r.csv",
          "import b.midden --batch Spring --bin North --readings r.csv --zone Nowhere/Land",
          "import b.midden --batch Spring --bin North --readings r.csv --zone UTC --unit k",
          "import b.midden --batch Spring --bin North --start yesterday",
          "import b.midden --batch Spring --bin North --start 2026-03-01T08:00",
          "import b.midden --batch Spring --bin North", "import b.midden --batch '' --bin North",
          "import b.midden --nonsense", "export b.midden", "no such command", "--nonsense"}) {
        INFO(arguments);
        const auto ran = shell.run(arguments);
        CHECK(ran.status == 2);
        CHECK(ran.out.empty());
        CHECK_FALSE(ran.err.empty());
        CHECK_FALSE(shell.exists("b.midden"));
    }
}

TEST_CASE("a word that is no command is named") {
    CHECK(Shell{}.run("imprt b.midden --batch Spring").err ==
          "\"imprt\" is no command.\nRun with --help for more information.\n");
}

TEST_CASE("help and version end with 0 on standard output") {
    const Shell shell;
    for (const char* arguments : {"--help", "--version", "import --help", "export --help", "-h"}) {
        const auto ran = shell.run(arguments);
        CHECK(ran.status == 0);
        CHECK_FALSE(ran.out.empty());
        CHECK(ran.err.empty());
    }
}

TEST_CASE("absent foreign and empty files are what they are") {
    const Shell shell;
    shell.scratch.write("r.csv", twoReadings);
    CHECK(shell.run("export absent.midden --directory out").status == 3);
    CHECK_FALSE(shell.exists("out"));
    shell.scratch.write("foreign.midden", "This is a letter to the allotment committee, and no logbook at all.\n");
    const auto foreign = shell.run("import foreign.midden --batch Spring --bin North --readings r.csv");
    CHECK(foreign.status == 3);
    CHECK(Scratch::read(shell.scratch.path("foreign.midden")).starts_with("This is a letter"));
    shell.scratch.write("empty.midden", "");
    CHECK(shell.run("import empty.midden --batch Spring --bin North --readings r.csv").status == 0);
    CHECK(shell.run("export empty.midden --directory out").status == 0);
    const auto again = shell.run("export empty.midden --directory out");
    CHECK(again.status == 3);
    CHECK(again.err == "out is there already; expected a new or an empty folder\n");
}

TEST_CASE("an export imports by the lines of its own README") {
    const Shell shell;
    shell.scratch.write(
        "r.csv",
        "time,temperature_f,position,probe,ambient,note\n2026-03-02T08:00+02:00,131,core,Dial,41,\"=1+1, "
        "'quoted'\"\n2026-03-06T08:00Z,140.25,-side,,,\n");
    shell.scratch.write("a.csv", "time,material,mass_kg,raw\n2026-03-01T08:00Z,@Straw,0.000001,no\n");
    shell.scratch.write("t.csv", "time,kind\n2026-03-03T08:00Z,turned\n");
    shell.scratch.write("m.csv", "time,bin\n2026-03-05T08:00Z,South\n");
    shell.scratch.write("p.csv", "probe,accuracy\nDial,0.5\n");
    shell.scratch.write("c.csv", "time,probe,kind,read,altitude_m\n2026-03-01T08:00Z,Dial,boiling,99,300.5\n");
    REQUIRE(shell
                .run("import b.midden --batch 'It'\\''s /spring/' --bin North --readings r.csv --additions a.csv "
                     "--aerations t.csv --moves m.csv --probes p.csv --checks c.csv")
                .status == 0);
    REQUIRE(shell.run("export b.midden --directory one/deep").status == 0);
    const auto readme = Scratch::read(shell.scratch.path("one/deep/README.txt"));
    CHECK(readme.find("'It'\\''s /spring/'") != std::string::npos);
    CHECK(Scratch::read(shell.scratch.path("one/deep/It_s _spring_/readings.csv")).find("\"'=1+1, 'quoted'\"") !=
          std::string::npos);
    CHECK(comesBackFrom(shell, "one/deep"));
}

TEST_CASE("what is declared and not used yet comes back from an export") {
    const Shell shell;
    shell.scratch.write("bins.csv", "bin,retired,note\nNorth,no,\nOld,yes,\nShed,no,by the gate\n");
    shell.scratch.write("positions.csv", "bin,position,spot_check\nNorth,core,no\nNorth,side,no\nShed,lid,yes\n");
    shell.scratch.write("probes.csv", "probe,accuracy,note\nDial,0.5,the long one\nStick,,\n");
    shell.scratch.write("outside.csv", "time,temperature\n2026-03-01T08:00Z,5\n");
    shell.scratch.write("r.csv", "time,temperature,bin,position\n2026-03-02T08:00Z,55,North,core\n");
    const std::string ofNoBatch =
        "import b.midden --bins bins.csv --positions positions.csv --probes probes.csv --outside outside.csv "
        "--readings r.csv --group 'Lane End' --zone Europe/London";
    REQUIRE(shell.run(ofNoBatch).status == 0);
    const bool hasBatch = GENERATE(false, true);
    if (hasBatch) {
        REQUIRE(shell.run("import b.midden --batch Spring --bin North --start 2026-03-01T08:00Z").status == 0);
    }
    REQUIRE(shell.run("export b.midden --directory one").status == 0);
    CHECK(Scratch::read(shell.scratch.path("one/positions.csv")) ==
          "bin,position,spot_check\nNorth,core,no\nNorth,side,no\nShed,lid,yes\n");
    CHECK(Scratch::read(shell.scratch.path("one/README.txt")).find("--group 'Lane End'") != std::string::npos);
    CHECK(comesBackFrom(shell, "one"));
}

TEST_CASE("bins that no batch and no reading names come back from an export") {
    const Shell shell;
    shell.scratch.write("bins.csv", "bin\nNorth\nShed\n");
    REQUIRE(shell.run("import b.midden --bins bins.csv").status == 0);
    REQUIRE(shell.run("export b.midden --directory one").status == 0);
    CHECK(comesBackFrom(shell, "one"));
    CHECK(Scratch::read(shell.scratch.path("one/bins.csv")).find("Shed") != std::string::npos);
}

TEST_CASE("what belongs to a batch is not taken in without one") {
    const Shell shell;
    shell.scratch.write("a.csv", "time,kind\n2026-03-03T08:00Z,turned\n");
    shell.scratch.write("r.csv", "time,temperature,bin\n2026-03-02T08:00Z,55,North\n2026-03-03T08:00Z,55,\n");
    for (const char* arguments : {"--aerations a.csv", "--readings r.csv", "--bin North", "--note hot", "--unit f"}) {
        INFO(arguments);
        const auto ran = shell.run(std::string{"import b.midden "} + arguments);
        CHECK(ran.status == 2);
        CHECK(ran.err.find("--batch") != std::string::npos);
        CHECK_FALSE(shell.exists("b.midden"));
    }
}
