// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <tl/expected.hpp>

namespace midden {

/// What was wrong with something a person or a file gave us, and what would have been right, both in words.
struct Problem {
    std::string wrong;
    std::string expected;

    /// "wrong; expected ...": the one line a person reads.
    std::string sentence() const { return expected.empty() ? wrong : wrong + "; expected " + expected; }
};

/// A value, or the reason there is none.
template <class T>
using Result = tl::expected<T, Problem>;

inline tl::unexpected<Problem> refused(std::string wrong, std::string expected = {}) {
    return tl::unexpected<Problem>(Problem{std::move(wrong), std::move(expected)});
}

}  // namespace midden
