// SPDX-License-Identifier: GPL-3.0-or-later
// What makes a file a logbook of ours: its marks, its tables, and the steps from one format to the next.
#pragma once

#include <array>

#include "core/logbook/database.h"

namespace midden {

/// The bytes "Midn" at offset 68 of the file, where SQLite keeps the application's own mark.
constexpr std::int64_t applicationId = 0x4D69646E;
/// The format this program writes: the number of migration steps.
constexpr std::int64_t newestFormat = 1;

/// The step that leads from format n to n + 1, as SQL; the texts of core/logbook/migrations, in order.
extern const std::array<const char*, newestFormat> migrations;

/// Everything that makes a connection safe to use on a file of unknown origin, and durable to write through.
void setUpConnection(DatabaseFile& file);
/// SQLite's own json_object() may not be used by triggers while the schema is not trusted (SQLite 3.40 marks it unsafe,
/// though it is harmless). This puts one of ours in its place on this connection; other programs use SQLite's.
void provideJsonObject(DatabaseFile& file);
/// Brings the file from `format` to the newest, each step a transaction of its own.
void climb(DatabaseFile& file, std::int64_t format);
/// Refuses a file whose tables, indexes or triggers are not exactly those of its format.
void expectOurSchema(DatabaseFile& file);

}  // namespace midden
