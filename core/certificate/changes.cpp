// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/changes.h"

#include <fmt/core.h>

#include <algorithm>
#include <cctype>
#include <map>
#include <optional>

#include "core/certificate/canonical.h"

namespace midden {

namespace {

using Fields = std::vector<CanonicalLine::Field>;

/// What makes an entry the same entry in both texts, in the order sentences are given.
struct EntryKey {
    int order = 0;
    std::string at;       ///< UTC instant, or empty
    std::string subject;  ///< what it is, in words

    auto operator<=>(const EntryKey&) const = default;
};

struct Entry {
    std::string offset;
    Fields fields;  ///< all that can change

    auto operator<=>(const Entry&) const = default;
};
/// Several may have one key: two turnings within one second, one material added twice.
using Entries = std::map<EntryKey, std::vector<Entry>>;

/// Which fields of a kind of line say which entry it is; the others are what it holds.
struct Kind {
    const char* word;
    const char* at;
    std::vector<std::string> subject;
};

const std::vector<Kind>& kinds() {
    static const std::vector<Kind> all{{"batch", "", {}},
                                       {"stay", "since", {}},
                                       {"bin", "", {"name"}},
                                       {"position", "", {"name"}},
                                       {"probe", "", {"name"}},
                                       {"check", "at", {"probe", "in"}},
                                       {"addition", "at", {"material"}},
                                       {"aeration", "at", {}},
                                       {"observation", "at", {"kind", "subject"}},
                                       {"harvest", "at", {}}};
    return all;
}
constexpr int readingOrder = 100;

bool isIn(const std::vector<std::string>& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

std::string whenInWords(const std::string& iso, const std::string& offset) {
    const auto time = parseIsoTime(iso);
    if (!time) {
        return iso;
    }
    const auto zone = parseIsoTime("2000-01-01T00:00:00" + (offset.empty() ? "+00:00" : offset));
    return longDateTime({instantOf(time->wall, time->offset), zone ? zone->offset : UtcOffset{}});
}

/// Reads the entries of one text, line by line; a reading belongs to the series above it.
class Reader {
  public:
    explicit Reader(std::string_view text) {
        while (!text.empty()) {
            const auto end = text.find('\n');
            take(text.substr(0, end));
            text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
        }
    }
    Entries entries;

  private:
    void take(std::string_view line) {
        if (!line.empty() && std::isdigit(static_cast<unsigned char>(line.front())) != 0) {
            takeReading(line);
            return;
        }
        auto parsed = CanonicalLine::parse(line);
        if (parsed.word() == "series") {
            series_ = std::move(parsed);
            return;
        }
        for (std::size_t i = 0; i < kinds().size(); ++i) {
            if (parsed.word() == kinds()[i].word) {
                takeEntry(parsed, static_cast<int>(i));
            }
        }
    }

    void takeReading(std::string_view line) {
        const auto space = line.find(' ');
        const auto position = series_.field("position");
        const auto bin = series_.field("bin");
        const auto subject = (position.empty() ? "outside air" : position) + (bin.empty() ? "" : " in " + bin);
        Fields fields{{"", std::string{line.substr(space + 1)} + " " + series_.field("unit")}};
        for (const auto* name : {"probe", "by"}) {
            if (const auto value = series_.field(name); !value.empty()) {
                fields.emplace_back(name, value);
            }
        }
        const EntryKey key{readingOrder, std::string{line.substr(0, space)}, subject};
        entries[key] = {Entry{series_.field("offset"), std::move(fields)}};
    }

    void takeEntry(const CanonicalLine& line, int order) {
        const auto& kind = kinds()[static_cast<std::size_t>(order)];
        EntryKey key{order, line.field(kind.at), kind.word};
        Fields fields;
        for (const auto& [name, value] : line.fields()) {
            if (isIn(kind.subject, name)) {
                key.subject += (key.subject == kind.word ? " of " : ", ") + value;
            } else if (name != kind.at && name != "offset") {
                fields.emplace_back(name, value);
            }
        }
        entries[key].push_back({line.field("offset"), std::move(fields)});
    }

    CanonicalLine series_{"series"};
};

std::string nameOf(const EntryKey& key, const Entry& entry) {
    return key.at.empty() ? key.subject : key.subject + ", " + whenInWords(key.at, entry.offset);
}

std::string listOf(const Fields& fields) {
    std::string text;
    for (const auto& [name, value] : fields) {
        text += fmt::format("{}{}{}{}", text.empty() ? "" : ", ", name, name.empty() ? "" : " ", value);
    }
    return text;
}

/// The first value under that name, or a word for nothing.
std::string valueIn(const Fields& fields, const std::string& name) {
    for (const auto& [other, value] : fields) {
        if (other == name) {
            return value;
        }
    }
    return "not given";
}

std::string differenceOf(const Entry& was, const Entry& is) {
    std::string text;
    const auto tell = [&](const std::string& name) {
        const auto before = valueIn(was.fields, name);
        const auto after = valueIn(is.fields, name);
        if (before != after) {
            text +=
                fmt::format("{}{}{}{} was {}", text.empty() ? "" : ", ", name, name.empty() ? "" : " ", after, before);
        }
    };
    for (const auto& [name, value] : is.fields) {
        tell(name);
    }
    for (const auto& [name, value] : was.fields) {
        if (valueIn(is.fields, name) == "not given") {
            tell(name);
        }
    }
    return text.empty() && was.offset != is.offset ? fmt::format("UTC offset {} was {}", is.offset, was.offset) : text;
}

/// What of `entries` is not in `others`, each counted as often as it stands there.
std::vector<Entry> withoutThose(std::vector<Entry> entries, std::vector<Entry> others) {
    std::sort(entries.begin(), entries.end());
    std::sort(others.begin(), others.end());
    std::vector<Entry> left;
    std::set_difference(entries.begin(), entries.end(), others.begin(), others.end(), std::back_inserter(left));
    return left;
}

std::ptrdiff_t alikeness(const Entry& a, const Entry& b) {
    return std::count_if(a.fields.begin(), a.fields.end(), [&](const auto& field) {
        return std::find(b.fields.begin(), b.fields.end(), field) != b.fields.end();
    });
}

/// Takes out of `entries` the one that says most of the same.
std::optional<Entry> takeLikest(std::vector<Entry>& entries, const Entry& to) {
    constexpr std::ptrdiff_t mostCompared = 64;  // whatever a crafted record holds
    const auto end = entries.begin() + std::min(std::ssize(entries), mostCompared);
    const auto likest = std::max_element(
        entries.begin(), end, [&](const Entry& a, const Entry& b) { return alikeness(a, to) < alikeness(b, to); });
    if (likest == end) {
        return std::nullopt;
    }
    Entry taken = std::move(*likest);
    entries.erase(likest);
    return taken;
}

std::string withFields(const Entry& entry) {
    const auto list = listOf(entry.fields);
    return list.empty() ? list : list + ", ";
}

/// What became of the entries of one key. Those that say the same in both texts are left alone first, so that a change
/// of one of several is told of that one.
void tellKey(const EntryKey& key, std::vector<Entry> before, std::vector<Entry> after,
             std::vector<std::string>& sentences) {
    const std::vector<Entry> gone = withoutThose(before, after);
    std::vector<Entry> come = withoutThose(std::move(after), std::move(before));
    for (const Entry& was : gone) {
        if (const auto is = takeLikest(come, was)) {
            const auto difference = differenceOf(was, *is);
            sentences.push_back(difference.empty() ? "" : fmt::format("{}: {}", nameOf(key, *is), difference));
        } else {
            sentences.push_back(fmt::format("{}: {}no longer there", nameOf(key, was), withFields(was)));
        }
    }
    for (const Entry& is : come) {
        sentences.push_back(fmt::format("{}: {}entered since", nameOf(key, is), withFields(is)));
    }
}

}  // namespace

std::vector<std::string> changesBetween(std::string_view stored, std::string_view now) {
    auto before = Reader{stored}.entries;
    auto after = Reader{now}.entries;
    for (const auto& [key, entries] : after) {
        before.try_emplace(key);
    }
    std::vector<std::string> sentences;
    for (auto& [key, entries] : before) {
        tellKey(key, std::move(entries), std::move(after[key]), sentences);
    }
    std::erase(sentences, std::string{});
    return sentences;
}

}  // namespace midden
