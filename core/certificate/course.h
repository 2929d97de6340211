// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/certificate/certificate.h"

namespace midden {

/// Turnings and other air, gaps, stalls, thermometers: what happened to the batch and its readings.
std::vector<Fact> courseOf(const CertificateInput& input);

}  // namespace midden
