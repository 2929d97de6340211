// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string_view>

namespace midden {

/// Removes a certificate that was stored a moment ago and whose page could not be saved, so that it never went out: the
/// only case in which a book lets one go. Throws LogbookError.
void takeBackCertificate(const std::filesystem::path& book, std::string_view number);

}  // namespace midden
