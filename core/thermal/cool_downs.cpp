// SPDX-License-Identifier: GPL-3.0-or-later
// τ from the bin's own cool-downs. For every τ the best start and rate of a stretch are a linear least-squares
// problem, so only τ itself has to be searched for.
#include <algorithm>
#include <cmath>

#include "core/thermal/heat_balance.h"
#include "core/thermal/heat_response.h"

namespace midden {

namespace {

/// Readings of one falling stretch and the outside temperature between each and the next.
struct Stretch {
    std::vector<double> temperatures;
    std::vector<OutsidePath> outside;
};

/// Enough to know the bin by; the latest are kept.
constexpr std::size_t mostStretches = 20;
/// A logger's readings closer than this add work but no knowledge of τ.
constexpr Seconds spacing = hours(3);

/// Takes readings as long as they fall, and keeps the stretches that fall far enough.
class StretchFinder {
  public:
    StretchFinder(const HeatSeries& series, const HeatSettings& settings) : series_{series}, settings_{settings} {}

    std::vector<Stretch> find() {
        for (const auto& point : series_.bin) {
            if (before_ && point.at - before_->at < spacing) {
                continue;
            }
            if (!before_ || !extend(*before_, point)) {
                keep();
                current_ = {{point.celsius}, {}};
                lowest_ = point.celsius;
            }
            before_ = point;
        }
        keep();
        if (found_.size() > mostStretches) {
            found_.erase(found_.begin(), found_.end() - mostStretches);
        }
        return std::move(found_);
    }

  private:
    bool extend(const HeatPoint& before, const HeatPoint& point) {
        const auto [from, was] = before;
        const auto [to, now] = point;
        // One reading may stand a little above the one before by scatter alone; the first must be the highest.
        const bool isFalling = current_.temperatures.size() == 1 ? now < was : now <= lowest_ + 2 * settings_.scatter;
        if (!isFalling || to - from > settings_.maxGap || isDisturbed(series_, from, to)) {
            return false;
        }
        const auto path = outsidePath(series_, from, to, settings_.outsideReach);
        if (!path) {
            return false;
        }
        current_.temperatures.push_back(now);
        current_.outside.push_back(*path);
        lowest_ = std::min(lowest_, now);
        return true;
    }

    void keep() {
        const auto& temperatures = current_.temperatures;
        if (temperatures.size() >= settings_.leastReadings &&
            temperatures.front() - temperatures.back() >= settings_.leastFall) {
            found_.push_back(std::move(current_));
        }
    }

    const HeatSeries& series_;
    const HeatSettings& settings_;
    std::optional<HeatPoint> before_;
    Stretch current_;
    double lowest_ = 0;
    std::vector<Stretch> found_;
};

/// Sums of a straight fit  y = a·start + b·rate.
struct Normal {
    double aa = 0, ab = 0, bb = 0, ay = 0, by = 0, yy = 0;

    void take(double a, double b, double y) {
        aa += a * a;
        ab += a * b;
        bb += b * b;
        ay += a * y;
        by += b * y;
        yy += y * y;
    }
    /// The least sum of squared residuals with a rate of at least 0.
    double residual() const {
        const double determinant = aa * bb - ab * ab;
        const double rate = determinant > 0 ? (aa * by - ab * ay) / determinant : 0;
        if (rate <= 0) {
            return std::max(0.0, yy - ay * ay / aa);
        }
        const double start = (ay - ab * rate) / aa;
        return std::max(0.0, yy - start * ay - rate * by);
    }
};

double residual(const Stretch& stretch, double tau) {
    HeatResponse soFar;
    Normal normal;
    normal.take(1, 0, stretch.temperatures.front());
    for (std::size_t i = 0; i < stretch.outside.size(); ++i) {
        const auto step = responseOver(stretch.outside[i], tau);
        soFar = {soFar.own * step.own, soFar.fromOutside * step.own + step.fromOutside,
                 soFar.perRate * step.own + step.perRate};
        normal.take(soFar.own, soFar.perRate, stretch.temperatures[i + 1] - soFar.fromOutside);
    }
    return normal.residual();
}

/// Student's t for 97.5 %, by the Cornish–Fisher expansion; for three degrees of freedom and more within 6 %.
double student(double freedom) {
    constexpr double z = 1.959964;
    return z + (z * z * z + z) / (4 * freedom) +
           (5 * std::pow(z, 5) + 16 * z * z * z + 3 * z) / (96 * freedom * freedom);
}

/// The τ between `inside` (not rejected) and `outside` (rejected) where the residual crosses `limit`.
double border(const Stretch& stretch, double inside, double outside, double limit) {
    for (int i = 0; i < 40; ++i) {
        const double middle = std::sqrt(inside * outside);
        (residual(stretch, middle) <= limit ? inside : outside) = middle;
    }
    return inside;
}

/// The τ of least residual: the best of a fine net, then narrowed down.
double bestTau(const Stretch& stretch, const HeatSettings& settings) {
    constexpr int steps = 60;
    const double ratio = std::pow(settings.longest / settings.shortest, 1.0 / steps);
    double best = settings.shortest;
    double least = residual(stretch, best);
    double tau = best;
    for (int i = 0; i < steps; ++i, tau *= ratio) {
        if (const double found = residual(stretch, tau); found < least) {
            best = tau;
            least = found;
        }
    }
    double low = best / ratio;
    double high = best * ratio;
    for (int i = 0; i < 40; ++i) {
        const double left = low + (high - low) / 3;
        const double right = high - (high - low) / 3;
        (residual(stretch, left) < residual(stretch, right) ? high : low) =
            residual(stretch, left) < residual(stretch, right) ? right : left;
    }
    return (low + high) / 2;
}

std::optional<TimeConstant> fit(const Stretch& stretch, const HeatSettings& settings) {
    const auto readings = stretch.temperatures.size();
    const double freedom = static_cast<double>(readings) - 3;  // start, rate and τ are fitted
    const double tau = bestTau(stretch, settings);
    const double least = residual(stretch, tau);
    const double variance = std::max(least / freedom, settings.scatter * settings.scatter);
    const double t = student(std::max(3.0, freedom));
    const double limit = least + variance * t * t;
    const bool isBounded = residual(stretch, settings.shortest) > limit && residual(stretch, settings.longest) > limit;
    if (!isBounded) {
        return std::nullopt;
    }
    return TimeConstant{tau,
                        border(stretch, tau, settings.shortest, limit),
                        border(stretch, tau, settings.longest, limit),
                        TauBasis::coolDowns,
                        1,
                        readings};
}

/// The part of a stretch from one of its readings on.
Stretch tailOf(const Stretch& stretch, std::size_t first) {
    const auto skip = static_cast<std::ptrdiff_t>(first);
    return {{stretch.temperatures.begin() + skip, stretch.temperatures.end()},
            {stretch.outside.begin() + skip, stretch.outside.end()}};
}

/// The best bounded τ of the stretch, starting late enough that heat-making has settled.
std::optional<TimeConstant> fitTails(const Stretch& stretch, const HeatSettings& settings) {
    constexpr std::size_t starts = 12;
    std::optional<TimeConstant> best;
    const auto& temperatures = stretch.temperatures;
    const std::size_t step = std::max<std::size_t>(1, temperatures.size() / starts);
    for (std::size_t first = 0; first + settings.leastReadings <= temperatures.size(); first += step) {
        if (temperatures[first] - temperatures.back() < settings.leastFall) {
            break;
        }
        const auto found = fit(tailOf(stretch, first), settings);
        if (found && (!best || found->high < best->high)) {
            best = found;
        }
    }
    return best;
}

}  // namespace

std::optional<TimeConstant> timeConstantOfCoolDowns(const HeatSeries& series, const HeatSettings& settings) {
    const auto stretches = StretchFinder{series, settings}.find();
    std::optional<TimeConstant> best;
    for (const auto& stretch : stretches) {
        const auto found = fitTails(stretch, settings);
        if (found && (!best || found->high < best->high)) {
            best = found;
        }
    }
    if (best) {
        best->stretches = stretches.size();
    }
    return best;
}

}  // namespace midden
