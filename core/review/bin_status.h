// SPDX-License-Identifier: GPL-3.0-or-later
// How one bin stands, reduced to the few facts that today's tasks are found from. A function of the record alone.
#pragma once

#include <span>

#include "core/criteria/judgement.h"
#include "core/review/fed_status.h"
#include "core/review/outlook.h"

namespace midden {

/// A rule in force asks for more turnings inside its hold, and that hold is running.
struct TurningsOpen {
    std::string criterion;  ///< its title
    int asked = 0;
    int recorded = 0;
    Instant from;   ///< turned earlier it would not count; the hold's start where the rule asks for no spacing
    Instant until;  ///< the hold breaks when no reading is taken by then
};

/// A thermometer the batch was read with.
struct ProbeStatus {
    ProbeId probe{};
    std::string name;
    std::optional<Instant> lastCheck;
};

struct BinStatus {
    Bin bin;
    std::optional<Batch> batch;  ///< no value: nothing stands in it
    BinOutlook outlook;
    std::vector<TurningsOpen> turnings;
    std::vector<std::string> shown;    ///< titles of the criteria in force whose figures the readings reached
    bool isFinished = false;           ///< it stands there no longer: all that is left to do is paper
    bool isCertified = false;          ///< filled in by whoever knows the book's certificates
    bool isTestedSinceCuring = false;  ///< a self-heating or seed test was recorded after curing began
    /// The first reading since which every one was below the line of curing; no value: the last was not.
    std::optional<Instant> cooledSince;
    std::optional<Instant> turnedSinceCooled;  ///< the first turning or forking after that
    std::vector<ProbeStatus> probes;           ///< by name
    std::optional<FedStatus> fed;              ///< of a fed batch
};

/// Borders of what is due later than a round: curing and thermometers.
struct CareSettings {
    /// From here on compost is said to cure when turning does not re-heat it: below 40 °C by handbook, from memory,
    /// unverified (NRAES-54).
    Celsius cured = Celsius::ofTenThousandths(400'000);
    /// It has stayed below for so long before curing is proposed. Common practice, no source.
    Seconds cooled = days(3);
    /// Cured this long it may be tested: a month or more by handbook, from memory, unverified.
    Seconds curing = days(30);
    /// A thermometer is checked at least this often. Common practice, no source.
    Seconds check = days(90);
};

/// `inForce`: what the batch is judged by: the book's target and whatever its certificates are to say.
BinStatus statusOf(const BatchRecord& record, BinOutlook outlook, std::span<const Judgement> inForce,
                   const CareSettings& care = {});

}  // namespace midden
