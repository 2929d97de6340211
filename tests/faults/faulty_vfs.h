// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace midden::faults {

class FaultyDisk;

/// Puts the disk before the system's own VFS and makes it SQLite's default.
void installFaultyVfs(FaultyDisk& disk);

}  // namespace midden::faults
