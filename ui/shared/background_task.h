// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <atomic>
#include <functional>
#include <memory>

namespace midden::ui {

/// One piece of work beside the window's own thread. Starting another, or going away, asks the work to stop and drops
/// what it brings, without waiting for it; only the end of the program waits.
class BackgroundTask {
    struct Job;

  public:
    /// What the work knows of the window. May be told how far the work has come; says whether to go on.
    class TaskProgress {
      public:
        bool operator()(double share) const;
        bool isUnwanted() const;

      private:
        friend class BackgroundTask;
        explicit TaskProgress(std::shared_ptr<Job> job) : job_{std::move(job)} {}
        std::shared_ptr<Job> job_;
    };
    /// What is done with the result, in the window's thread.
    using Delivery = std::function<void()>;
    /// Runs elsewhere: shares nothing with the window, and throws nothing.
    using Work = std::function<Delivery(const TaskProgress&)>;

    BackgroundTask() = default;
    BackgroundTask(const BackgroundTask&) = delete;
    BackgroundTask& operator=(const BackgroundTask&) = delete;
    ~BackgroundTask() { drop(); }

    void start(Work work);
    void drop();
    bool isRunning() const { return job_ != nullptr; }
    double share() const;  ///< of the work that is done, 0 to 1

  private:
    void deliver(const std::shared_ptr<Job>& job);

    struct Job {
        std::atomic<bool> unwanted = false;
        std::atomic<double> share = 0;
        Delivery delivery;  ///< written by the work, then read by the window
    };
    std::shared_ptr<Job> job_;
};

}  // namespace midden::ui
