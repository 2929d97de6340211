// SPDX-License-Identifier: GPL-3.0-or-later
// shapes/shapes.txt: invented logs and the flags each must raise, and no other.
#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>
#include <set>
#include <sstream>

#include "core/review/outlook.h"
#include "made_record.h"

using namespace midden;
using namespace midden::testing;

namespace {

using Flags = std::set<std::string>;

struct Shape {
    std::string name;
    Flags flags;
    BatchRecord record;
};

std::vector<std::string> wordsIn(const std::string& text) {
    std::istringstream in{text};
    return {std::istream_iterator<std::string>{in}, {}};
}

Points pointsIn(const std::string& text) {
    Points points;
    double day = 0;
    for (const auto& word : wordsIn(text)) {
        const auto colon = word.find(':');
        if (colon != std::string::npos) {
            points.emplace_back(std::stod(word.substr(0, colon)), std::stod(word.substr(colon + 1)));
        } else if (word != "-") {
            points.emplace_back(24 * day, std::stod(word));
        }
        ++day;
    }
    return points;
}

void handle(BatchRecord& record, const std::string& word) {
    static const std::vector<std::string> kinds{"turned", "forked", "poked", "opened", "watered"};
    const auto at = word.find('@');
    const std::string what = word.substr(0, at);
    const double hour = std::stod(word.substr(at + 1));
    const auto kind = std::find(kinds.begin(), kinds.end(), what);
    if (kind != kinds.end()) {
        aerate(record, hour, static_cast<AerationKind>(kind - kinds.begin()));
    } else {
        add(record, hour, what == "add");
    }
}

std::string trimmed(const std::string& text) {
    const auto first = text.find_first_not_of(' ');
    return first == std::string::npos ? "" : text.substr(first, text.find_last_not_of(' ') - first + 1);
}

Shape shapeIn(const std::string& line) {
    std::vector<std::string> fields;
    std::istringstream in{line};
    for (std::string field; std::getline(in, field, '|');) {
        fields.push_back(trimmed(field));
    }
    fields.resize(4);
    Shape shape{fields[0], {}, coreRecord(pointsIn(fields[2]))};
    for (const auto& flag : wordsIn(fields[1])) {
        shape.flags.insert(flag);
    }
    for (const auto& word : wordsIn(fields[3])) {
        handle(shape.record, word);
    }
    return shape;
}

std::vector<Shape> shapes() {
    std::ifstream in{std::string{MIDDENBOOK_SOURCE_DIR} + "/tests/core/review/shapes/shapes.txt"};
    REQUIRE(in);
    std::vector<Shape> all;
    for (std::string line; std::getline(in, line);) {
        if (!line.empty() && line[0] != '#') {
            all.push_back(shapeIn(line));
        }
    }
    return all;
}

Flags raisedBy(const BatchRecord& record) {
    Flags raised;
    const auto stalls = stallsOf(record);
    for (const auto& stall : stalls) {
        raised.insert(nameOf(stall.kind));
    }
    for (const auto& due : outlookOf(record, stalls).due) {
        if (due.kind == DueKind::openUp) {
            raised.insert("open-up");
        } else if (due.kind == DueKind::holdWillBreak) {
            raised.insert("hold-will-break");
        } else if (due.kind == DueKind::willGoCold) {
            raised.insert("will-go-cold");
        }
    }
    return raised;
}

std::string joined(const Flags& flags) {
    std::string text;
    for (const auto& flag : flags) {
        text += flag + " ";
    }
    return text;
}

std::size_t common(const Flags& a, const Flags& b) {
    Flags both;
    std::set_intersection(a.begin(), a.end(), b.begin(), b.end(), std::inserter(both, both.end()));
    return both.size();
}

}  // namespace

TEST_CASE("invented log shapes raise the flags they must and no other") {
    std::size_t right = 0;
    std::size_t raisedCount = 0;
    std::size_t due = 0;
    std::string wrong;
    const auto all = shapes();
    for (const auto& shape : all) {
        const auto raised = raisedBy(shape.record);
        wrong += raised == shape.flags ? "" : "\n" + shape.name + ": raised " + joined(raised);
        right += common(raised, shape.flags);
        raisedCount += raised.size();
        due += shape.flags.size();
    }
    const double precision = static_cast<double>(right) / static_cast<double>(raisedCount);
    const double recall = static_cast<double>(right) / static_cast<double>(due);
    WARN(all.size() << " shapes: precision " << precision << ", recall " << recall << wrong);
    CHECK(all.size() >= 40);
    CHECK(precision == 1);
    CHECK(recall == 1);
}
