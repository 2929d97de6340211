// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/sqlite/damage_words.h"

#include <algorithm>
#include <array>
#include <cctype>

namespace midden {

namespace {

struct Kind {
    std::string_view table;
    const char* many;
};

constexpr std::array<Kind, 17> kinds{{{"reading", "readings"},
                                      {"reading_more", "notes and times of entry of readings"},
                                      {"series", "places and ways of reading"},
                                      {"addition", "additions"},
                                      {"aeration", "turnings and other airings"},
                                      {"observation", "observations"},
                                      {"harvest", "harvests"},
                                      {"thermometer_check", "thermometer checks"},
                                      {"certificate", "certificates"},
                                      {"amendment", "corrections"},
                                      {"batch", "batches"},
                                      {"move", "moves of batches"},
                                      {"bin", "bins"},
                                      {"probe", "thermometers"},
                                      {"place_setting", "positions of bins"},
                                      {"setting", "settings"},
                                      {"hand", "notes of who writes"}}};

/// The name at the end of the text, or before a dot there: "bin" in "NULL value in bin.name".
std::string_view tableAtEndOf(std::string_view found) {
    const auto blank = found.find_last_of(' ');
    const auto last = blank == std::string_view::npos ? found : found.substr(blank + 1);
    return last.substr(0, last.find('.'));
}

bool isOf(std::string_view found, std::initializer_list<std::string_view> signs) {
    return std::any_of(signs.begin(), signs.end(),
                       [&](std::string_view sign) { return found.find(sign) != std::string_view::npos; });
}

}  // namespace

std::string kindWords(std::string_view table) {
    const auto found = std::find_if(kinds.begin(), kinds.end(), [&](const Kind& kind) { return kind.table == table; });
    return found == kinds.end() ? "entries" : found->many;
}

std::string foreignValueAmong(std::string_view table) {
    return "among the " + kindWords(table) + " is a value that no logbook holds";
}

// The texts are those of SQLite 3.40: src/pragma.c, "PragTyp_INTEGRITY_CHECK", and src/btree.c, checkAppendMsg().
std::string damageWords(std::string_view found) {
    if (isOf(found, {" value in ", "CHECK constraint failed in "})) {
        return foreignValueAmong(tableAtEndOf(found));
    }
    if (isOf(found,
             {"missing from index", "entries in index", "entry in index", "PRIMARY KEY order", "end-of-record"})) {
        return "some of its entries and the lists that find them do not agree";
    }
    return "parts of it cannot be read";
}

}  // namespace midden
