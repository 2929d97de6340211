// SPDX-License-Identifier: GPL-3.0-or-later
// The commands `certificate` and `verify`, as a script would call them, with no display.
#include <sys/wait.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <string>

#include "core/store/logbook.h"
#include "tests/core/exchange/scratch.h"

using namespace midden;
using midden::testing::Scratch;

namespace {

struct Ran {
    int status = -1;
    std::string out;
    std::string err;
};

/// Two books with the same record, imported one after the other.
class Shell {
  public:
    Shell() {
        scratch.write("r.csv",
                      "time,temperature,position\n"
                      "2026-03-02T08:00,60,core\n2026-03-02T08:00,58,side\n2026-03-03T08:00,63.4,core\n"
                      "2026-03-03T08:00,60,side\n2026-03-04T08:10,63.4,core\n2026-03-04T08:10,60,side\n"
                      "2026-03-05T08:00,62,core\n2026-03-05T08:00,59.5,side\n2026-03-06T08:00,60,core\n"
                      "2026-03-06T08:00,57,side\n");
        for (const auto* book : {"a.midden", "b.midden"}) {
            const std::string options = " --batch Spring --bin North --readings r.csv --zone Europe/London";
            REQUIRE(run("import " + (book + options)).status == 0);
        }
    }
    Ran run(const std::string& arguments, const std::string& with = {}) const {
        const auto line = "cd '" + scratch.folder().string() +
                          "' && env -u DISPLAY -u WAYLAND_DISPLAY -u QT_QPA_PLATFORM -u XDG_RUNTIME_DIR " + with +
                          " '" + MIDDENBOOK_BINARY + "' " + arguments + " >out.txt 2>err.txt";
        const int status = std::system(line.c_str());
        return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, read("out.txt"), read("err.txt")};
    }
    Ran certify(const std::string& book, const std::string& output) const {
        return run("certificate " + book + ".midden --batch Spring --issued 2026-03-20T10:00 --paper a4 --output " +
                   output);
    }
    std::string read(const char* name) const { return Scratch::read(scratch.path(name)); }

    Scratch scratch;
};

std::string withoutLineEnd(std::string line) {
    REQUIRE(line.ends_with('\n'));
    line.pop_back();
    REQUIRE(line.find('\n') == std::string::npos);
    return line;
}

}  // namespace

TEST_CASE("certificate prints its number alone and writes the same bytes for the same record") {
    const Shell shell;
    const auto first = shell.certify("a", "1.pdf");
    CHECK(first.status == 0);
    CHECK(first.err.empty());
    const auto number = withoutLineEnd(first.out);
    CHECK(number.starts_with("20260302-"));
    CHECK(shell.certify("a", "2.pdf").out == first.out);
    CHECK(shell.certify("b", "3.pdf").out == first.out);
    CHECK(shell.read("1.pdf").starts_with("%PDF-1.4"));
    CHECK(shell.read("1.pdf") == shell.read("2.pdf"));
    CHECK(shell.read("1.pdf") == shell.read("3.pdf"));
}

TEST_CASE("verify says yes and after an amendment of a tenth says no and names the reading") {
    const Shell shell;
    const auto number = withoutLineEnd(shell.certify("a", "1.pdf").out);
    const auto before = shell.run("verify a.midden --certificate " + number);
    CHECK(before.status == 0);
    CHECK(before.out.find("The record is still the one it was issued on.") != std::string::npos);
    {
        auto book = Logbook::open(shell.scratch.path("a.midden"), Logbook::Mode::readWrite);
        const auto batch = book.batchNamed("Spring")->id;
        const auto all = book.readings(batch, {{0}, {4'000'000'000}}, false, 100);
        auto reading = all.at(4);
        reading.written.tenThousandths += 1'000;
        book.apply(Amend<Reading>{reading.id(), reading, "misread"});
    }
    const auto after = shell.run("verify a.midden --certificate " + number);
    CHECK(after.status == 1);
    CHECK(after.out.find("core in North, 4 March 2026 08:10: 63.5 °C was 63.4 °C") != std::string::npos);
}

TEST_CASE("what cannot be certified is refused and nothing is written") {
    const Shell shell;
    CHECK(shell.run("certificate a.midden --batch Summer --output x.pdf").status == 2);
    CHECK(shell.run("certificate a.midden --batch Spring --output x.pdf --criterion none").status == 2);
    CHECK(shell.run("certificate a.midden --batch Spring --output x.pdf --issued yesterday").status == 2);
    CHECK(shell.run("certificate absent.midden --batch Spring --output x.pdf").status == 3);
    CHECK(shell.run("certificate a.midden --batch Spring --output nowhere/x.pdf").status == 3);
    CHECK(shell.run("verify a.midden --certificate 1").status == 2);
    CHECK_FALSE(std::filesystem::exists(shell.scratch.path("x.pdf")));
    const auto book = Logbook::open(shell.scratch.path("a.midden"), Logbook::Mode::readOnly);
    CHECK(book.certificates(book.batchNamed("Spring")->id).empty());
}

TEST_CASE("a number that stays in the book though its page could not be saved is said, with exit status 4") {
    const Shell shell;
    const auto failed = shell.run("certificate a.midden --batch Spring --issued 2026-03-20T10:00 --output x.pdf",
                                  "ASAN_OPTIONS=verify_asan_link_order=0 LD_PRELOAD='" FAILING_DISK "'");
    CHECK(failed.status == 4);
    CHECK(failed.out.empty());
    CHECK_FALSE(std::filesystem::exists(shell.scratch.path("x.pdf")));
    const auto book = Logbook::open(shell.scratch.path("a.midden"), Logbook::Mode::readOnly);
    const auto kept = book.certificates(book.batchNamed("Spring")->id);
    REQUIRE(kept.size() == 1);
    CHECK(failed.err.find("the certificate's number stays in the book: " + kept[0].number) != std::string::npos);
    CHECK(shell.run("certificate a.midden --batch Spring --issued 2026-03-20T10:00 --output x.pdf").out ==
          kept[0].number + "\n");
}

namespace {

/// A fed bin of 25 dm², read hot at one height, emptied by 20 L at noon of the 28th.
class FedShell : public Shell {
  public:
    FedShell() {
        scratch.write("bins.csv", "bin,volume_l,height_cm\nGate,250,100\n");
        scratch.write("positions.csv", "bin,position,spot_check,height_cm\nGate,low,no,8\n");
        scratch.write("feeds.csv",
                      "time,material,mass_kg,volume_l,raw\n2026-03-01T09:00,Kitchen scraps,12,30,yes\n"
                      "2026-03-08T09:00,Kitchen scraps,12,30,yes\n2026-03-15T09:00,Kitchen scraps,12,30,yes\n");
        scratch.write("levels.csv", "time,kind,value\n2026-03-15T10:00,level,28\n2026-03-27T10:00,level,24\n");
        scratch.write("harvests.csv", "time,volume_l\n2026-03-28T12:00:30,20\n");
        std::string readings = "time,temperature,position\n";
        for (int day = 16; day <= 28; ++day) {
            readings += "2026-03-" + std::to_string(day) + "T08:00,69,low\n";
        }
        scratch.write("hot.csv", readings);
        REQUIRE(run("import fed.midden --batch Gate --bin Gate --fed --zone Etc/UTC --bins bins.csv --positions "
                    "positions.csv --additions feeds.csv --observations levels.csv --harvests harvests.csv "
                    "--readings hot.csv")
                    .status == 0);
    }
    Ran record(const std::string& options) const {
        return run("certificate fed.midden --batch Gate --issued 2026-03-30T10:00 --output h.pdf " + options);
    }
};

}  // namespace

TEST_CASE("the record of a harvest is issued by its time, verified, and stands while the bin is fed on") {
    const FedShell shell;
    const auto issued = shell.record("--harvest 2026-03-28T12:00");
    CHECK(issued.status == 0);
    const auto number = withoutLineEnd(issued.out);
    CHECK(shell.read("h.pdf").starts_with("%PDF-1.4"));
    CHECK(shell.record("--harvest 2026-03-28T12:00:30Z").out == issued.out);

    shell.scratch.write("more.csv", "time,material,mass_kg,volume_l,raw\n2026-03-29T09:00,Kitchen scraps,12,30,yes\n");
    REQUIRE(shell.run("import fed.midden --batch Gate --zone Etc/UTC --additions more.csv").status == 0);
    const auto after = shell.run("verify fed.midden --certificate " + number);
    CHECK(after.status == 0);
    CHECK(after.out.starts_with("Harvest record " + number + " of Gate, taken out 2026-03-28T12:00:30Z"));

    shell.scratch.write("cold.csv", "time,temperature,position\n2026-03-27T20:00,20,low\n");
    REQUIRE(shell.run("import fed.midden --batch Gate --zone Etc/UTC --readings cold.csv").status == 0);
    CHECK(shell.run("verify fed.midden --certificate " + number).status == 1);
}

TEST_CASE("the record of a harvest that was not taken, or of a filled batch, is wrong usage") {
    const FedShell shell;
    for (const char* options : {"--harvest 2026-03-28T12:01", "--harvest 2026-03-28T12:00:29Z", "--harvest noon",
                                "--harvest 2026-03-28T12:00 --criterion target"}) {
        const auto ran = shell.record(options);
        CAPTURE(options);
        CHECK(ran.status == 2);
        CHECK(ran.out.empty());
        CHECK(shell.read("h.pdf").empty());
    }
    const auto filled = shell.run("certificate a.midden --batch Spring --harvest 2026-03-04T08:10 --output h.pdf");
    CHECK(filled.status == 2);
    CHECK(filled.err.find("is not fed") != std::string::npos);
}
