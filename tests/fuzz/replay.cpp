// SPDX-License-Identifier: GPL-3.0-or-later
// Runs a target without libFuzzer: every seed as it is, then mutations of the seeds that are the same on every machine.
// Usage: fuzz_TARGET SEEDS_FOLDER MUTATIONS [NUMBER], where another number gives other mutations.
// A broken law, a crash or a sanitizer's word ends it with a failure.
#include <algorithm>
#include <fstream>
#include <iostream>
#include <iterator>
#include <vector>

#include "tests/fuzz/fuzz_input.h"

namespace {

/// Marsaglia's xorshift with 64 bits: the same numbers everywhere.
class Chance {
  public:
    explicit Chance(std::uint64_t number) : state_{0x9E3779B97F4A7C15U + number} {}
    std::size_t below(std::size_t limit) {
        state_ ^= state_ << 13U;
        state_ ^= state_ >> 7U;
        state_ ^= state_ << 17U;
        return limit == 0 ? 0 : static_cast<std::size_t>(state_ % limit);
    }

  private:
    std::uint64_t state_;  ///< never 0
};

using Seeds = std::vector<std::string>;
constexpr std::size_t longest = 1 << 16U;

Seeds seedsIn(const std::filesystem::path& folder) {
    std::vector<std::filesystem::path> files{std::filesystem::directory_iterator{folder}, {}};
    std::sort(files.begin(), files.end());
    Seeds seeds;
    for (const auto& file : files) {
        std::ifstream in{file, std::ios::binary};
        seeds.emplace_back(std::istreambuf_iterator<char>{in}, std::istreambuf_iterator<char>{});
    }
    return seeds;
}

/// Bytes that texts and numbers turn on.
constexpr std::string_view telling{"\0\n\r\t \"',;=+-@.:/\\0189TZ\x7f\x80\xff\xc3\x1e{}[]", 33};

void mutateOnce(std::string& text, const Seeds& seeds, Chance& chance) {
    const auto at = chance.below(text.size() + 1);
    const auto length = chance.below(8) + 1;
    switch (chance.below(6)) {
        case 0:
            text.erase(at, length);
            break;
        case 1:
            text.insert(at, 1, telling[chance.below(telling.size())]);
            break;
        case 2:
            text.insert(at, text.substr(at, length));
            break;
        case 3: {
            const auto& other = seeds[chance.below(seeds.size())];
            text.insert(at, other.substr(chance.below(other.size() + 1), length * 4));
            break;
        }
        case 4:
            text.resize(at);
            break;
        default:
            if (at < text.size()) {
                text[at] = static_cast<char>(chance.below(256));
            }
    }
}

void run(const std::string& text) {
    LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(text.data()), text.size());
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 3 && argc != 4) {
        std::cerr << "Usage: " << argv[0] << " SEEDS_FOLDER MUTATIONS [NUMBER]\n";
        return 2;
    }
    const auto seeds = seedsIn(argv[1]);
    midden::fuzz::expect(!seeds.empty(), "there are seeds");
    std::for_each(seeds.begin(), seeds.end(), run);
    const auto mutations = std::stoul(argv[2]);
    Chance chance{argc == 4 ? std::stoul(argv[3]) : 0};
    for (std::size_t trial = 0; trial < mutations; ++trial) {
        auto text = seeds[trial % seeds.size()];
        for (auto changes = chance.below(6) + 1; changes > 0; --changes) {
            mutateOnce(text, seeds, chance);
        }
        run(text.substr(0, longest));
    }
    std::cout << seeds.size() << " seeds and " << mutations << " mutations of them were run.\n";
}
