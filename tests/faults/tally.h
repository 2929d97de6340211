// SPDX-License-Identifier: GPL-3.0-or-later
// What the programs of this folder report: how much was tried, and what was lost. tests/faults/run makes one table of
// the lines that start with "tally".
#pragma once

#include <cstdint>
#include <iostream>
#include <map>
#include <string>
#include <vector>

namespace midden::faults {

/// Counts trials of one program. Whatever is lost is said at once, and the program ends with a failure.
class Tally {
  public:
    void add(const std::string& kind, std::int64_t count = 1) {
        if (counts_.find(kind) == counts_.end()) {
            order_.push_back(kind);
        }
        counts_[kind] += count;
    }
    /// A law that must hold after every fault.
    bool expect(bool holds, const std::string& what) {
        if (!holds) {
            ++lost_;
            std::cerr << "LOST: " << what << '\n';
        }
        return holds;
    }
    std::int64_t of(const std::string& kind) const {
        const auto found = counts_.find(kind);
        return found == counts_.end() ? 0 : found->second;
    }
    /// Prints the counts; the program's exit status.
    int tell() const {
        for (const auto& kind : order_) {
            std::cout << "tally\t" << kind << '\t' << counts_.at(kind) << '\n';
        }
        std::cout << "tally\tthings lost or harmed\t" << lost_ << '\n';
        return lost_ == 0 ? 0 : 1;
    }

  private:
    std::map<std::string, std::int64_t> counts_;
    std::vector<std::string> order_;
    std::int64_t lost_ = 0;
};

}  // namespace midden::faults
