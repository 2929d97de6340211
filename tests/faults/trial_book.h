// SPDX-License-Identifier: GPL-3.0-or-later
// Small books to do harm to, and what they hold in words that can be compared.
#pragma once

#include <filesystem>
#include <string>

#include "core/exchange/plan/import.h"
#include "core/store/logbook.h"

namespace midden::faults {

/// A folder of its own, gone afterwards. In memory where asked, since thousands of trials wear a disk.
class Folder {
  public:
    enum class Where { onDisk, inMemory };
    explicit Folder(Where where = Where::onDisk);
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    ~Folder();
    std::filesystem::path operator/(const std::string& name) const { return path_ / name; }
    const std::filesystem::path& path() const { return path_; }
    /// Takes everything out of it again.
    void clear() const;

  private:
    std::filesystem::path path_;
};

/// Noon of 1 March 2026 UTC.
constexpr Instant noon{1'772'366'400};

Reading readingAt(BinId bin, std::int64_t minute, std::int32_t tenThousandths, const std::string& note = {});

/// Makes a book with a bin, a probe, a batch and a day of readings in it.
void makeBook(const std::filesystem::path& file);

/// Everything a person entered, as text: two books of the same entries give the same text, whatever random names and
/// row numbers they use. Opens the file by itself, read only, and throws LogbookError where it cannot.
std::string entriesOf(const std::filesystem::path& file);

/// Nothing, or what a check of the whole book found.
std::string faultsOf(const std::filesystem::path& file);

std::string bytesOf(const std::filesystem::path& file);
void write(const std::filesystem::path& file, const std::string& bytes);

/// A file of so many rows of one position, a minute apart, from `minute` on.
void writeReadings(const std::filesystem::path& file, std::int64_t minute, int rows);
/// Imports it into batch "spring" of bin "North". Throws what the machine refuses.
void importReadings(Logbook& book, const std::filesystem::path& file);

}  // namespace midden::faults
