// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/records/batch_record.h"
#include "core/store/sqlite/database.h"
#include "core/thermal/calibration.h"

namespace midden {

/// How the numbers of one series become temperatures: the thermometer's calibration and allowance.
class SeriesCorrection {
  public:
    SeriesCorrection(DatabaseFile& file, std::optional<ProbeId> probe, TemperatureUnit unit);

    Sample operator()(Instant at, std::int32_t tenThousandths) const {
        return {at, calibration_.corrected(toCelsius({tenThousandths, unit_}), at), allowance_};
    }

  private:
    TemperatureUnit unit_;
    Kelvins allowance_ = unknownAccuracy;
    Calibration calibration_;
};

}  // namespace midden
