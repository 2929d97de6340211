// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/records/kind_nouns.h"

#include <array>

namespace midden {

Noun nounOf(EntryKind kind) {
    static constexpr std::array<Noun, 10> nouns{{{"reading", "readings"},
                                                 {"addition", "additions"},
                                                 {"aeration", "aerations"},
                                                 {"observation", "observations"},
                                                 {"thermometer check", "thermometer checks"},
                                                 {"batch", "batches"},
                                                 {"bin", "bins"},
                                                 {"probe", "probes"},
                                                 {"position", "positions"},
                                                 {"harvest", "harvests"}}};
    return nouns.at(static_cast<std::size_t>(kind));
}

std::string counted(std::int64_t count, const Noun& noun) {
    return std::to_string(count) + " " + (count == 1 ? noun.one : noun.many);
}

}  // namespace midden
