// SPDX-License-Identifier: GPL-3.0-or-later
// What makes a file a logbook of ours: its marks, its tables, and the steps from one format to the next.
#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/store/sqlite/database.h"

namespace midden {

/// The bytes "Midn" at offset 68 of the file, where SQLite keeps the application's own mark.
constexpr std::int64_t applicationId = 0x4D69646E;
/// The format this program writes: the number of migration steps.
constexpr std::int64_t newestFormat = 2;

/// The step that leads from format n to n + 1, as SQL; the texts of core/store/schema/migrations, in order.
extern const std::array<const char*, newestFormat> migrations;

/// The steps of a file format, in order. There is one besides ours in the tests, with a step more.
using Migrations = std::span<const char* const>;

/// Everything that makes a connection safe to use on a file of unknown origin, and durable to write through.
void setUpConnection(DatabaseFile& file);
/// Brings the file from the format it has to the last of the steps, each step a transaction of its own.
void migrate(DatabaseFile& file, Migrations steps = migrations);
/// SHA-256 of what the file has for tables, indexes and triggers.
std::string schemaDigest(DatabaseFile& file);
/// That of a book of the newest format. A test says what it should be when a step changes.
constexpr std::string_view schemaDigestOfOurs = "4bf7eb255e0ad23e6958c9ca1b506c1bb01b1ac8e19020dfe3fa0114c66c8e2e";
/// Refuses a file whose tables, indexes or triggers are not exactly those after the last of the steps.
void expectOurSchema(DatabaseFile& file, Migrations steps = migrations);
/// The tables with an entry of a kind that no program of this format writes. The file's own rules do not say how many
/// kinds there are.
std::vector<std::string> tablesOfUnknownKinds(DatabaseFile& file);
/// Refuses a file that holds what its own rules forbid, as only other hands can have written it. Readings are left out:
/// there are millions of them, and each is looked at when it is read (the columns of Query).
void expectSoundRows(DatabaseFile& file);

}  // namespace midden
