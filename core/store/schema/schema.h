// SPDX-License-Identifier: GPL-3.0-or-later
// What makes a file a logbook of ours: its marks, its tables, and the steps from one format to the next.
#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>

#include "core/store/sqlite/database.h"

namespace midden {

/// The bytes "Midn" at offset 68 of the file, where SQLite keeps the application's own mark.
constexpr std::int64_t applicationId = 0x4D69646E;
/// The format this program writes: the number of migration steps.
constexpr std::int64_t newestFormat = 1;

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
constexpr std::string_view schemaDigestOfOurs = "4bf79181ab8b0a05c7498f655a49ee8d4d8d81af65c03e4b2ab3b2a742e19338";
/// Refuses a file whose tables, indexes or triggers are not exactly those after the last of the steps.
void expectOurSchema(DatabaseFile& file, Migrations steps = migrations);
/// Refuses a file that holds what its own rules forbid, as only other hands can have written it. Readings are left out:
/// there are millions of them, and each is looked at when it is read (the columns of Query).
void expectSoundRows(DatabaseFile& file);

}  // namespace midden
