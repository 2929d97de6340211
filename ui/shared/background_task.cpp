// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/background_task.h"

#include <QCoreApplication>
#include <QPointer>
#include <QThreadPool>

namespace midden::ui {

namespace {

/// Not those of QThreadPool::globalInstance(): Qt 6.4 paints large areas with them, and while long work holds them all
/// the window waits for it. They go with the application, which waits for what they do.
QThreadPool& threads() {
    static QPointer<QThreadPool> pool;
    if (pool.isNull()) {
        pool = new QThreadPool{QCoreApplication::instance()};
    }
    return *pool;
}

}  // namespace

bool BackgroundTask::TaskProgress::operator()(double share) const {
    job_->share = share;
    return !isUnwanted();
}

bool BackgroundTask::TaskProgress::isUnwanted() const {
    return job_->unwanted;
}

void BackgroundTask::start(Work work) {
    drop();
    job_ = std::make_shared<Job>();
    threads().start([this, job = job_, work = std::move(work)] {
        job->delivery = work(TaskProgress{job});
        if (QCoreApplication* program = QCoreApplication::instance(); program != nullptr && !job->unwanted) {
            QMetaObject::invokeMethod(
                program, [this, job] { deliver(job); }, Qt::QueuedConnection);
        }
    });
}

/// `this` is there as long as the job is wanted.
void BackgroundTask::deliver(const std::shared_ptr<Job>& job) {
    if (!job->unwanted) {
        job_.reset();
        job->delivery();
    }
}

void BackgroundTask::drop() {
    if (job_) {
        job_->unwanted = true;
        job_.reset();
    }
}

double BackgroundTask::share() const {
    return job_ ? job_->share.load() : 0;
}

}  // namespace midden::ui
