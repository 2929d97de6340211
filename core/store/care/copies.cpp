// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/care/copies.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <fstream>
#include <system_error>

#include "core/files/naming.h"
#include "core/store/files/book_copy.h"
#include "core/store/logbook.h"

namespace midden {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view copyEnd = ".midden";
/// Says which book the copies in a folder are of.
constexpr std::string_view titleFile = "book.txt";
constexpr std::size_t longestStem = 40;

/// FNV-1a, 64 bits (IETF draft-eastlake-fnv): spreads paths, keeps no secret.
std::string digits(std::string_view text) {
    std::uint64_t hash = 0xcbf29ce484222325U;
    for (const char byte : text) {
        hash = (hash ^ static_cast<unsigned char>(byte)) * 0x100000001b3U;
    }
    std::string shown;
    for (int i = 0; i < 16; ++i, hash >>= 4U) {
        shown += "0123456789abcdef"[hash & 15U];
    }
    return shown;
}

std::string utf8(const fs::path& path) {
    const auto text = path.u8string();
    return {text.begin(), text.end()};
}

fs::path ofUtf8(const std::string& text) {
    return fs::path{std::u8string{text.begin(), text.end()}};
}

/// "2026-03-04T08.10.00Z.midden": colons are not for file names.
std::string copyName(Instant made) {
    std::string name = isoUtc(made);
    std::replace(name.begin(), name.end(), ':', '.');
    return name + std::string{copyEnd};
}

std::optional<Instant> madeOf(const fs::path& file) {
    std::string text = fileName(file);
    if (!text.ends_with(copyEnd)) {
        return std::nullopt;
    }
    text.resize(text.size() - copyEnd.size());
    std::replace(text.begin(), text.end(), '.', ':');
    const auto time = parseIsoTime(text);
    if (!time || !time->hasOffset) {
        return std::nullopt;
    }
    const Instant made = instantOf(time->wall, time->offset);
    return copyName(made) == fileName(file) ? std::optional{made} : std::nullopt;
}

/// Where SQLite counts changes and names its own version: nothing of the book.
bool isCounter(std::uintmax_t at) {
    return (at >= 24 && at < 28) || (at >= 40 && at < 44) || (at >= 92 && at < 100);
}

bool holdTheSame(const fs::path& one, const fs::path& other) {
    std::error_code problem;
    if (fs::file_size(one, problem) != fs::file_size(other, problem) || problem) {
        return false;
    }
    std::ifstream a{one, std::ios::binary};
    std::ifstream b{other, std::ios::binary};
    std::array<char, 65'536> pageA{};
    std::array<char, 65'536> pageB{};
    for (std::uintmax_t start = 0; a && b; start += pageA.size()) {
        a.read(pageA.data(), pageA.size());
        b.read(pageB.data(), pageB.size());
        for (std::size_t i = 0; i < static_cast<std::size_t>(a.gcount()); ++i) {
            if (pageA.at(i) != pageB.at(i) && !isCounter(start + i)) {
                return false;
            }
        }
    }
    return a.eof() && b.eof();
}

/// How earlier versions called what they had not finished.
constexpr std::string_view passingEnd = ".part";

/// What an earlier version that was stopped half way left behind, a day or more before `fresh` was written.
void tidyUp(const fs::path& folder, const fs::path& fresh) {
    std::error_code problem;
    const auto now = fs::last_write_time(fresh, problem);
    for (const auto& entry : fs::directory_iterator{folder, problem}) {
        const bool passing = fileName(entry.path()).ends_with(passingEnd);
        if (passing && entry.last_write_time(problem) + std::chrono::hours{24} < now) {
            fs::remove(entry.path(), problem);
        }
    }
}

void dropOld(const fs::path& folder, Instant made) {
    std::vector<Instant> all;
    for (const KeptCopy& copy : keptCopies(folder)) {
        all.push_back(copy.made);
    }
    for (const Instant old : copiesToDrop(all, made)) {
        std::error_code ignored;
        fs::remove(folder / copyName(old), ignored);
    }
}

void writeTitle(const fs::path& folder, const fs::path& book) {
    std::ofstream{folder / titleFile, std::ios::binary} << utf8(book);
}

void makeFolder(const fs::path& folder) {
    std::error_code problem;
    fs::create_directories(folder, problem);
    if (problem) {
        throw LogbookError{LogbookError::Kind::readOnly, "the folder of copies " + utf8(folder) + " cannot be made"};
    }
    // Copies are as private as the book may be.
    fs::permissions(folder, fs::perms::owner_all, problem);
}

}  // namespace

std::string copyFolderName(const fs::path& book) {
    std::error_code ignored;
    const fs::path whole = fs::weakly_canonical(fs::absolute(book), ignored);
    const std::string path = utf8(ignored ? book : whole);
    std::string stem = utf8(book.stem()).substr(0, longestStem);
    std::erase_if(stem, [](char byte) { return static_cast<unsigned char>(byte) < ' '; });
    while (!stem.empty() && (static_cast<unsigned char>(stem.back()) & 0x80U) != 0) {
        stem.pop_back();  // never half a letter
    }
    return stem + (stem.empty() ? "" : "-") + digits(path);
}

std::vector<KeptCopy> keptCopies(const fs::path& folder) {
    std::vector<KeptCopy> copies;
    std::error_code problem;
    for (const auto& entry : fs::directory_iterator{folder, problem}) {
        const auto made = madeOf(entry.path());
        if (made && entry.is_regular_file(problem)) {
            copies.push_back({*made, entry.path(), entry.file_size(problem)});
        }
    }
    std::sort(copies.begin(), copies.end(), [](const auto& a, const auto& b) { return a.made > b.made; });
    return copies;
}

std::vector<CopiedBook> copiedBooks(const fs::path& place) {
    std::vector<CopiedBook> books;
    std::error_code problem;
    for (const auto& entry : fs::directory_iterator{place, problem}) {
        std::ifstream title{entry.path() / titleFile, std::ios::binary};
        const std::string path{std::istreambuf_iterator<char>{title}, {}};
        if (!path.empty() && !keptCopies(entry.path()).empty()) {
            books.push_back({ofUtf8(path), entry.path()});
        }
    }
    std::sort(books.begin(), books.end(), [](const auto& a, const auto& b) { return a.book < b.book; });
    return books;
}

std::optional<KeptCopy> keepCopy(const fs::path& book, const fs::path& folder, Instant now) {
    const auto logbook = Logbook::open(book, Logbook::Mode::readOnly);
    makeFolder(folder);
    const auto workplace = asLogbookError([&] { return Workplace{folder / "copy"}; });
    logbook.backUpTo(workplace.making());
    const auto before = keptCopies(folder);
    if (!before.empty() && holdTheSame(before.front().file, workplace.making())) {
        return std::nullopt;
    }
    Instant made = now;
    while (!asLogbookError([&] { return giveName(workplace.making(), folder / copyName(made)); })) {
        made = made + Seconds{1};
    }
    writeTitle(folder, logbook.file());
    dropOld(folder, made);
    tidyUp(folder, folder / copyName(made));
    return KeptCopy{made, folder / copyName(made), fs::file_size(folder / copyName(made))};
}

}  // namespace midden
