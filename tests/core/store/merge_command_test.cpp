// SPDX-License-Identifier: GPL-3.0-or-later
// Two copies of a book brought together from the command line.
#include <sys/wait.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "tests/core/store/stewards.h"

using namespace midden;
using namespace midden::trial;

namespace {

struct Ran {
    int status = -1;
    std::string out;
    std::string err;
};

std::string textOfFile(const std::filesystem::path& file) {
    std::ostringstream text;
    text << std::ifstream{file}.rdbuf();
    return text.str();
}

Ran merge(const Stewards& stewards, const std::string& arguments) {
    const auto line = "cd '" + stewards.folder.path().string() + "' && '" MIDDENBOOK_BINARY "' merge " + arguments +
                      " >out.txt 2>err.txt";
    const int status = std::system(line.c_str());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, textOfFile(stewards.folder / "out.txt"),
            textOfFile(stewards.folder / "err.txt")};
}

void correctFirst(Logbook book, double celsius) {
    const ReadingId id{{book.binNamed("North")->id, "core"}, at(1).at};
    auto reading = *book.reading(id);
    reading.written = degrees(celsius);
    book.apply(Amend<Reading>{id, reading, "misread"});
}

WrittenTemperature first(const Logbook& book) {
    return book.reading({{book.binNamed("North")->id, "core"}, at(1).at})->written;
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("merge says what came and how each conflict was decided") {
    const Stewards stewards;
    correctFirst(stewards.ada(), 57);
    correctFirst(stewards.grace(), 56);  // ten hours later
    {
        auto grace = stewards.grace();
        putReading(grace, grace.binNamed("North")->id, "core", 24, 60);
    }
    const auto dry = merge(stewards, "ada.midden grace.midden --dry-run");
    CHECK(dry.status == 0);
    CHECK(contains(dry.out, "1 reading is new here; 1 entry changes to what the other copy says."));
    CHECK(first(stewards.ada()) == degrees(57));

    const auto ran = merge(stewards, "ada.midden grace.midden");
    CHECK(ran.status == 0);
    CHECK(ran.err.empty());
    CHECK(contains(ran.out, "1 entry differs; the value that does not stand is kept as an amendment:"));
    CHECK(contains(ran.out, "  before:     55 °C\n  this book:  57 °C, ada, "));
    CHECK(contains(ran.out, "  other copy: 56 °C, grace, "));
    CHECK(ran.out.ends_with("(stands)\n"));
    CHECK(first(stewards.ada()) == degrees(56));
    CHECK(merge(stewards, "ada.midden grace.midden").out == "Nothing is new here.\n");
}

TEST_CASE("merge lets this book or the other stand where it is told to and the other copy follows") {
    const Stewards stewards;
    correctFirst(stewards.ada(), 57);
    correctFirst(stewards.grace(), 56);
    CHECK(merge(stewards, "ada.midden grace.midden --stands this").status == 0);
    CHECK(first(stewards.ada()) == degrees(57));
    const auto back = merge(stewards, "grace.midden ada.midden");
    CHECK_FALSE(contains(back.out, "differs"));
    CHECK(first(stewards.grace()) == degrees(57));
    CHECK(everything(stewards.ada()) == everything(stewards.grace()));
    CHECK(merge(stewards, "ada.midden grace.midden --stands nobody").status == 2);
}

TEST_CASE("merge refuses the book of another group and a file that is not there") {
    const Stewards stewards;
    stewards.ada().setSetting(setting::group, "Ferry Lane");
    stewards.grace().setSetting(setting::group, "Mill Field");
    const auto before = everything(stewards.ada());
    const auto ran = merge(stewards, "ada.midden grace.midden");
    CHECK(ran.status == 3);
    CHECK(contains(ran.err, "the other book is that of “Mill Field”, this one that of “Ferry Lane”"));
    CHECK(everything(stewards.ada()) == before);
    CHECK(merge(stewards, "ada.midden nowhere.midden").status == 3);
    CHECK(merge(stewards, "nowhere.midden ada.midden --dry-run").status == 3);
    CHECK_FALSE(std::filesystem::exists(stewards.folder / "nowhere.midden"));
    CHECK(contains(merge(stewards, "ada.midden ada.midden").out, "one and the same file"));
}

TEST_CASE("review says in text and in JSON how many entries were amended and how many were late") {
    const Stewards stewards;
    correctFirst(stewards.ada(), 57);
    {
        auto ada = stewards.ada();  // its clock stands 70 hours after the start
        putReading(ada, ada.binNamed("North")->id, "core", 24, 60);
        putReading(ada, ada.binNamed("North")->id, "core", 60, 61);
    }
    const auto review = [&](const std::string& options) {
        const auto line = "cd '" + stewards.folder.path().string() + "' && '" MIDDENBOOK_BINARY "' review ada.midden" +
                          options + " >out.txt";
        REQUIRE(std::system(line.c_str()) == 0);
        return textOfFile(stewards.folder / "out.txt");
    };
    CHECK(contains(review(""), "1 entry amended, 1 entry late"));
    CHECK(contains(review(" --json"), "\"amended_entries\": 1"));
    CHECK(contains(review(" --json"), "\"late_entries\": 1"));
}
