// SPDX-License-Identifier: GPL-3.0-or-later
// The chart of History, once the batch is read: its first picture, moving along and zooming in.
#include <QApplication>
#include <algorithm>

#include "tests/bench/faces/parts.h"
#include "tests/bench/row.h"
#include "ui/history/trace_view.h"
#include "ui/history/zoom.h"

namespace midden::bench {

namespace {

struct Loaded {
    ui::LoadedPtr batch;
    double wall = 0;  ///< reading, judging and preparing it, beside the window's own thread
};

Loaded loaded(const QString& path) {
    const double begun = wallNanoseconds();
    const Logbook book = Logbook::open(path.toStdString(), Logbook::Mode::readOnly);
    auto batch = ui::loadBatch(book, book.batchNamed("Long")->id, [](double) { return true; });
    return {std::move(batch), wallNanoseconds() - begun};
}

/// A view as large as History's, painted once.
class Shown {
  public:
    explicit Shown(const ui::LoadedPtr& batch) {
        view_.resize(1'180, 480);
        view_.QWidget::show();
        QApplication::processEvents();
        const double begun = cpuNanoseconds();
        view_.show(batch, {TimeZone::utc(), TemperatureUnit::celsius, {"target"}});
        view_.viewport()->repaint();
        firstPicture_ = cpuNanoseconds() - begun;
    }
    double firstPicture() const { return firstPicture_; }
    double frame(Interval visible) {
        const double begun = cpuNanoseconds();
        view_.look(visible);
        view_.viewport()->repaint();
        return cpuNanoseconds() - begun;
    }

  private:
    ui::TraceView view_;
    double firstPicture_ = 0;
};

struct Frames {
    std::vector<double> first;
    std::vector<double> pan;
    std::vector<double> zoom;

    double slowest() const { return std::max(*std::ranges::max_element(pan), *std::ranges::max_element(zoom)); }
};

void draw(const ui::LoadedPtr& batch, Frames& frames) {
    Shown shown{batch};
    frames.first.push_back(shown.firstPicture());
    const Interval whole = ui::wholeBatch(batch->record);
    Interval visible = whole;
    // From all of it down to a five-hundredth, about a place off the middle.
    const Instant about = whole.from + Seconds{whole.length().count * 3 / 7};
    for (int i = 0; i < 28; ++i) {
        visible = ui::zoomed(visible, whole, about, 0.8);
        frames.zoom.push_back(shown.frame(visible));
    }
    for (const int part : {2, 10, 50}) {
        visible = {about, about + Seconds{whole.length().count / part}};
        for (int i = 0; i < 8; ++i) {
            visible = ui::moved(visible, whole, i < 4 ? 0.07 : -0.11);
            frames.pan.push_back(shown.frame(visible));
        }
    }
}

}  // namespace

void measureHistory(const Books& books) {
    const auto [large, wait] = loaded(books.large);
    const auto small = loaded(books.small).batch;
    Frames own;
    Frames against;
    for (int i = 0; i < books.runs(5); ++i) {
        draw(large, own);
        draw(small, against);
    }
    const auto say = [](const char* name, const std::vector<double>& one, const std::vector<double>& other,
                        const std::string& note) {
        print({.name = name,
               .measured = median(one),
               .against = "the same with the small book",
               .againstMeasured = median(other),
               .goal = 2,
               .note = note});
    };
    say("History: first picture", own.first, against.first,
        fmt::format("once read and judged beside the window, which took {:.2f} s on the clock", wait / 1e9));
    say("History: pan", own.pan, against.pan, {});
    say("History: zoom", own.zoom, against.zoom, {});
    print({.name = "History: our own work on the slowest frame",
           .measured = own.slowest(),
           .goal = 16e6,
           .note = "planned and painted, Qt's drawing included"});
}

}  // namespace midden::bench
