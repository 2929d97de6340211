// SPDX-License-Identifier: GPL-3.0-or-later
// What the system does to the whole program, settled before anything else is done.
#pragma once

#include <cstddef>

namespace midden::app {

/// Gives closed standard streams something to stand on, so that no file opened later gets their numbers and is written
/// to by accident; turns limits on files and readers that went away from signals into errors; and sees to it that a
/// lack of memory nobody could catch ends in words and exit status 3.
void prepareProcess();

/// May anything be written to the standard output? Not when the caller closed it.
bool standardOutputIsOpen();

/// Throws std::bad_alloc when so many bytes cannot be had. For work of others that would end in a signal without them.
void expectMemory(std::size_t bytes);

/// The words of last resort: needs no memory, ends the program.
[[noreturn]] void endWithoutMemory() noexcept;

}  // namespace midden::app
