// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/layers/layers_strips.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace midden::ui {

namespace {

/// Thinner than this on the whole, edges between feeds are a grey haze and are left out.
constexpr double thinnestFeed = 2.5;
constexpr double farthestJoined = 2;  // pixels a line may jump and still be one
constexpr double overlap = 0.25;      // of an area with the one before it, or a row of pixels may have neither
constexpr double reachStep = 8;       // pixels over which a reach is told as one

bool hasHours(HeatTone tone, std::size_t contour) {
    return tone != HeatTone::notRaw && static_cast<std::size_t>(tone) >= contour + 2;
}

void append(QPolygonF& line, QPointF point) {
    if (line.isEmpty() || line.back() != point) {
        line.append(point);
    }
}

/// From one column to the next. The layers are those of the first; where something happens at the second they stay as
/// they are up to it.
struct Strip {
    const LayerColumn& first;
    const LayerColumn& second;
    double left;
    double right;

    double leftFrom(std::size_t layer) const { return first.layers[layer].fromLitres; }
    double leftTo(std::size_t layer) const { return first.layers[layer].toLitres; }
    const LayerColumn& end() const { return second.follows ? second : first; }
    double rightFrom(std::size_t layer) const { return end().layers[layer].fromLitres; }
    double rightTo(std::size_t layer) const { return end().layers[layer].toLitres; }
};

class Heap {
  public:
    Heap(LayersPlan& plan, const LayersSource& source) : plan_{plan}, source_{source}, layout_{plan.layout} {}

    void build() {
        const auto& columns = source_.history.columns;
        const bool withSeams = feedsAreThickEnough();
        for (std::size_t i = 0; i + 1 < columns.size(); ++i) {
            const Strip strip{columns[i], columns[i + 1], layout_.xOf(columns[i].at), layout_.xOf(columns[i + 1].at)};
            ++number_;
            tellTones(strip);
            fill(strip);
            outline(strip);
            if (withSeams) {
                sew(strip);
            }
            append(plan_.surface, {strip.left, layout_.yOf(strip.first.surfaceLitres())});
            append(plan_.surface, {strip.right, layout_.yOf(strip.end().surfaceLitres())});
            letGo();
        }
        number_ += 1;
        letGo();
    }

  private:
    using Edge = std::tuple<std::size_t, std::size_t, std::size_t>;  // what of, lower and upper layer
    struct OpenArea {
        QPolygonF upper;
        QPolygonF lower;
        std::size_t strip = 0;
    };
    struct OpenLine {
        QPolygonF line;
        std::size_t strip = 0;
    };

    bool feedsAreThickEnough() const {
        std::size_t feeds = 0;
        double litres = 0;
        for (const LayerColumn& column : source_.history.columns) {
            feeds = std::max(feeds, column.layers.size());
            litres = std::max(litres, column.surfaceLitres());
        }
        const double height = layout_.plot.bottom() - layout_.yOf(litres);
        return feeds > 0 && height / static_cast<double>(feeds) >= thinnestFeed;
    }

    void tellTones(const Strip& strip) {
        before_.swap(tones_);
        tones_.clear();
        for (const LayerThen& layer : strip.first.layers) {
            tones_.push_back(toneOf(layer, source_.history.origins[layer.id]));
        }
    }

    void fill(const Strip& strip) {
        const auto& layers = strip.first.layers;
        for (std::size_t first = 0; first < layers.size();) {
            auto last = first;
            while (last + 1 < layers.size() && tones_[last + 1] == tones_[first]) {
                ++last;
            }
            const Edge key{static_cast<std::size_t>(tones_[first]), layers[first].id, layers[last].id};
            OpenArea& area = areas_[key];
            if (area.upper.isEmpty()) {
                append(area.upper, {strip.left - overlap, layout_.yOf(strip.leftTo(last))});
                append(area.lower, {strip.left - overlap, layout_.yOf(strip.leftFrom(first))});
            }
            append(area.upper, {strip.left, layout_.yOf(strip.leftTo(last))});
            append(area.upper, {strip.right, layout_.yOf(strip.rightTo(last))});
            append(area.lower, {strip.left, layout_.yOf(strip.leftFrom(first))});
            append(area.lower, {strip.right, layout_.yOf(strip.rightFrom(first))});
            area.strip = number_;
            first = last + 1;
        }
    }

    void outline(const Strip& strip) {
        const auto& layers = strip.first.layers;
        const bool sameLayers = strip.first.follows && before_.size() == layers.size();
        for (std::size_t contour = 0; contour < contourHours.size(); ++contour) {
            for (std::size_t i = 0; i < layers.size(); ++i) {
                if (sameLayers && hasHours(tones_[i], contour) != hasHours(before_[i], contour)) {
                    plan_.contours.push_back(
                        {contourHours.at(contour), QPolygonF{{strip.left, layout_.yOf(strip.leftFrom(i))},
                                                             {strip.left, layout_.yOf(strip.leftTo(i))}}});
                }
                const bool isEdge = i > 0 && tones_[i] != HeatTone::notRaw && tones_[i - 1] != HeatTone::notRaw &&
                                    hasHours(tones_[i], contour) != hasHours(tones_[i - 1], contour);
                if (isEdge) {
                    draw({contour, layers[i - 1].id, layers[i].id}, strip, i);
                }
            }
        }
    }

    void sew(const Strip& strip) {
        const auto& layers = strip.first.layers;
        const auto& origins = source_.history.origins;
        for (std::size_t i = 1; i < layers.size(); ++i) {
            const auto& lower = origins[layers[i - 1].id];
            const auto& upper = origins[layers[i].id];
            if (lower.fedTo != upper.fedTo || lower.since != upper.since) {
                draw({contourHours.size(), layers[i - 1].id, layers[i].id}, strip, i);
            }
        }
    }

    /// Goes on along the lower edge of layer number `layer`. Where that jumps, as in a harvest, another line begins.
    void draw(const Edge& edge, const Strip& strip, std::size_t layer) {
        OpenLine& open = lines_[edge];
        const QPointF left{strip.left, layout_.yOf(strip.leftFrom(layer))};
        if (!open.line.isEmpty() && std::abs(open.line.back().y() - left.y()) > farthestJoined) {
            end(edge, std::move(open.line));
            open.line = {};
        }
        append(open.line, left);
        append(open.line, {strip.right, layout_.yOf(strip.rightFrom(layer))});
        open.strip = number_;
    }

    void end(const Edge& edge, QPolygonF line) {
        const auto contour = std::get<0>(edge);
        if (contour < contourHours.size()) {
            plan_.contours.push_back({contourHours.at(contour), std::move(line)});
        } else {
            plan_.seams.push_back(std::move(line));
        }
    }

    /// What did not go on ends.
    void letGo() {
        for (auto area = areas_.begin(); area != areas_.end();) {
            if (area->second.strip == number_) {
                ++area;
                continue;
            }
            QPolygonF outline = area->second.upper;
            std::ranges::reverse_copy(area->second.lower, std::back_inserter(outline));
            plan_.areas.push_back({static_cast<HeatTone>(std::get<0>(area->first)), std::move(outline)});
            area = areas_.erase(area);
        }
        for (auto line = lines_.begin(); line != lines_.end();) {
            if (line->second.strip == number_) {
                ++line;
                continue;
            }
            end(line->first, std::move(line->second.line));
            line = lines_.erase(line);
        }
    }

    LayersPlan& plan_;
    const LayersSource& source_;
    const LayersLayout& layout_;
    std::map<Edge, OpenArea> areas_;
    std::map<Edge, OpenLine> lines_;
    std::vector<HeatTone> tones_;   ///< of the strip's layers
    std::vector<HeatTone> before_;  ///< of those of the strip before
    std::size_t number_ = 0;
};

/// How far a thermometer shows layers to be hot, and those can be credited: in every few pixels on the average, for two
/// readings a day would make a saw of it.
class Reach {
  public:
    Reach(LayersPlan& plan, std::size_t look, double height, double perCm)
        : plan_{plan}, reach_{look, {}, {}}, height_{height}, perCm_{perCm} {}

    void add(double left, double right, double farCm) {
        if (right - begin_ > reachStep || wide_ == 0) {
            step();
            begin_ = left;
        }
        sum_ += farCm * (right - left);
        wide_ += right - left;
        end_ = right;
    }
    void step() {
        const double far = wide_ > 0 ? sum_ / wide_ : 0;
        if (far > 0) {
            const double middle = (begin_ + end_) / 2;
            reach_.upper.append({middle, plan_.layout.yOf((height_ + far) * perCm_)});
            reach_.lower.append({middle, plan_.layout.yOf(std::max(0.0, height_ - far) * perCm_)});
        } else {
            finish();
        }
        sum_ = wide_ = 0;
    }
    void finish() {
        if (!reach_.upper.isEmpty()) {
            plan_.reaches.push_back(reach_);
        }
        reach_.upper.clear();
        reach_.lower.clear();
    }

  private:
    LayersPlan& plan_;
    LayersReach reach_;
    double height_;
    double perCm_;
    double begin_ = 0;
    double end_ = 0;
    double sum_ = 0;
    double wide_ = 0;
};

void planReach(LayersPlan& plan, const LayersSource& source, std::size_t position) {
    const auto& columns = source.history.columns;
    Reach reach{plan, source.positions[position].look, *source.positions[position].heightCm, *source.litresPerCm};
    for (std::size_t i = 0; i + 1 < columns.size(); ++i) {
        reach.add(plan.layout.xOf(columns[i].at), plan.layout.xOf(columns[i + 1].at),
                  columns[i].trusted ? columns[i].reachesCm[position] : 0);
    }
    reach.step();
    reach.finish();
}

}  // namespace

void planHeap(LayersPlan& plan, const LayersSource& source) {
    Heap{plan, source}.build();
    for (std::size_t i = 0; i < source.positions.size(); ++i) {
        if (source.positions[i].heightCm && source.litresPerCm) {
            planReach(plan, source, i);
        }
    }
}

}  // namespace midden::ui
