// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/recipe_file.h"

#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <catch2/catch.hpp>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

using namespace midden;

namespace {

/// A file of the test's own, gone with it.
class RecipeText {
  public:
    explicit RecipeText(const std::string& text)
        : file_{std::filesystem::temp_directory_path() / ("recipe-" + std::to_string(getpid()) + ".csv")} {
        std::ofstream{file_} << text;
    }
    ~RecipeText() { std::filesystem::remove(file_); }
    RecipeText(const RecipeText&) = delete;
    RecipeText& operator=(const RecipeText&) = delete;
    const std::filesystem::path& file() const { return file_; }

  private:
    std::filesystem::path file_;
};

struct Ran {
    int status = -1;
    std::string output;
    std::string complaint;
};

Ran recipe(const std::string& text, const std::string& options) {
    const RecipeText csv{text};
    const auto errors = csv.file().string() + ".err";
    const auto command =
        std::string{MIDDENBOOK_BINARY} + " recipe " + csv.file().string() + " " + options + " 2>" + errors;
    Ran ran;
    FILE* pipe = popen(command.c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::array<char, 4096> part{};
    for (std::size_t got = 0; (got = fread(part.data(), 1, part.size(), pipe)) > 0;) {
        ran.output.append(part.data(), got);
    }
    ran.status = WEXITSTATUS(pclose(pipe));
    std::ifstream file{errors};
    std::getline(file, ran.complaint);
    std::filesystem::remove(errors);
    return ran;
}

const std::string header = "material,mass_kg,moisture_percent,carbon_nitrogen,nitrogen_percent\n";
const std::string grass = "grass,10,77,18.75,2.4\n";

}  // namespace

TEST_CASE("one unknown mass and one goal come out as printed") {
    // Cornell, "Moisture content": 6.8 kg of leaves at 35 % bring 10 kg of grass at 77 % to 60 %.
    const auto ran = recipe(header + grass + "leaves,,35,66.6667,0.75\n", "--moisture 60 --json");
    CHECK(ran.status == 0);
    const auto json = nlohmann::json::parse(ran.output);
    CHECK(json["format"] == "middenbook.recipe/1");
    CHECK(json["feasible"] == true);
    CHECK(json["why"] == "");
    CHECK(json["materials"][1]["material"] == "leaves");
    CHECK(json["materials"][1]["mass_kg"].get<double>() == Approx(6.8).epsilon(1e-9));
    CHECK(json["mixture"]["wet_mass_kg"].get<double>() == Approx(16.8));
    CHECK(json["mixture"]["moisture_percent"].get<double>() == Approx(60));
}

TEST_CASE("two unknown masses meet both goals and water is a row of its own") {
    const auto ran = recipe(header + "hen manure,10,69,6,8\nstraw,,12,80,0.7\nwater,,100,,\n",
                            "--moisture 60 --carbon-nitrogen 30 --json");
    CHECK(ran.status == 0);
    const auto json = nlohmann::json::parse(ran.output);
    CHECK(json["materials"][1]["mass_kg"].get<double>() == Approx(5.952 / 0.308));
    CHECK(json["materials"][2]["mass_kg"].get<double>() == Approx(20.94).margin(0.005));
}

TEST_CASE("given masses alone are mixed with figures from the list where none are written") {
    const auto ran = recipe("material;mass_kg\nstraw;2,5\nWATER;2,5\n", "--json");
    CHECK(ran.status == 0);
    const auto json = nlohmann::json::parse(ran.output);
    CHECK(json["mixture"]["moisture_percent"].get<double>() == Approx(56));
    CHECK(json["mixture"]["carbon_nitrogen"].get<double>() == Approx(80));
}

TEST_CASE("what cannot be reached ends with 1 and the reason and the nearest") {
    const auto ran = recipe(header + grass + "leaves,,35,66.6667,0.75\n", "--moisture 85 --json");
    CHECK(ran.status == 1);
    const auto json = nlohmann::json::parse(ran.output);
    CHECK(json["feasible"] == false);
    CHECK(json["why"].get<std::string>().find("cannot be reached") != std::string::npos);
    CHECK(json["materials"][1]["mass_kg"].get<double>() == 0);
    CHECK(json["mixture"]["moisture_percent"].get<double>() == Approx(77));
}

TEST_CASE("one unknown mass and two goals are not both reachable") {
    const auto ran = recipe(header + grass + "leaves,,35,66.6667,0.75\n", "--moisture 60 --carbon-nitrogen 30");
    CHECK(ran.status == 1);
    CHECK(ran.output.find("not both at once") != std::string::npos);
}

TEST_CASE("an unknown mass without a goal is wrong usage") {
    CHECK(recipe(header + grass + "leaves,,35,66,0.75\n", "").status == 2);
    CHECK(recipe(header + grass, "--moisture wet").status == 2);
    CHECK(recipe(header + grass, "--moisture 101").status == 2);
    CHECK(recipe(header + grass, "--carbon-nitrogen 0").status == 2);
}

TEST_CASE("a wrong recipe file is refused with its line") {
    struct Case {
        const char* rows;
        const char* where;
    };
    const auto c = GENERATE(Case{"grass,10,77,18.75,2.4\nmoon dust,3,,20,1\n", ".csv:3: moisture_percent"},
                            Case{"moon dust,3,50,20,\n", ".csv:2: nitrogen_percent"},
                            Case{"moon dust,3,50,,2\n", ".csv:2: carbon_nitrogen"},
                            Case{"grass,-1,77,18.75,2.4\n", ".csv:2: mass_kg"},
                            Case{"grass,nan,77,18.75,2.4\n", ".csv:2: mass_kg"},
                            Case{"grass,10,120,18.75,2.4\n", ".csv:2: moisture_percent"}, Case{"grass,10\n", ".csv:2"},
                            Case{",10,77,18.75,2.4\n", ".csv:2: material"}, Case{"", ".csv"});
    const auto ran = recipe(header + c.rows, "--moisture 60");
    INFO(ran.complaint);
    CHECK(ran.status == 3);
    CHECK(ran.complaint.find(c.where) != std::string::npos);
    CHECK(ran.output.empty());
}
