// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/logbook/database.h"

namespace midden {

/// How the numbers of one series become temperatures: the thermometer's calibration and allowance.
class SeriesCorrection {
  public:
    SeriesCorrection(DatabaseFile& file, std::optional<ProbeId> probe, TemperatureUnit unit);

    Sample operator()(Instant at, std::int32_t tenThousandths) const {
        return {at, toCelsius({tenThousandths, unit_}), allowance_};
    }

  private:
    TemperatureUnit unit_;
    Kelvins allowance_ = unknownAccuracy;
};

}  // namespace midden
