// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <variant>

#include "core/quantities/time.h"

namespace midden {

/// The clocks went forward over this wall time: it never happened.
struct NoSuchTime {};
/// The clocks went back over this wall time: it happened twice.
struct TwoTimes {
    Moment earlier;
    Moment later;
};
using WallMeaning = std::variant<Moment, NoSuchTime, TwoTimes>;

/// A named time zone of the IANA database, as installed on the system. Cheap to copy.
class TimeZone {
  public:
    /// "Europe/London", "UTC" …
    static Result<TimeZone> named(std::string_view name);
    static TimeZone utc();

    std::string name() const;
    Moment momentAt(Instant at) const;
    WallMeaning meaningOf(const WallTime& wall) const;

  private:
    explicit TimeZone(const void* zone) : zone_{zone} {}
    const void* zone_;
};

}  // namespace midden
