#include "record/conveyor.hpp"

#include <algorithm>

namespace couplet {

Conveyor::Conveyor(FrameSink& sink)
    : sink_(sink), most_waiting_(static_cast<std::size_t>(std::max(2, sink.threads()))) {
    for (int i = 0; i < sink.threads(); ++i) threads_.emplace_back([this] { work(); });
}

Conveyor::~Conveyor() {
    {
        const std::scoped_lock lock(mutex_);
        waiting_.clear();
    }
    end_threads();
}

void Conveyor::work() {
    std::unique_lock lock(mutex_);
    while (true) {
        changed_.wait(lock, [this] { return over_ || !waiting_.empty(); });
        if (waiting_.empty()) return;
        Load load = std::move(waiting_.front());
        waiting_.pop_front();
        changed_.notify_all();
        if (failure_) continue;
        lock.unlock();
        std::exception_ptr failure;
        try {
            sink_.take(load.frame, load.image);
        } catch (...) {
            failure = std::current_exception();
        }
        lock.lock();
        if (failure && !failure_) failure_ = failure;
        if (spares_.size() < most_waiting_) spares_.push_back(std::move(load.image));
        changed_.notify_all();
    }
}

void Conveyor::throw_failure() {
    if (failure_) std::rethrow_exception(failure_);
}

void Conveyor::put(int frame, Image image) {
    std::unique_lock lock(mutex_);
    changed_.wait(lock, [this] { return failure_ || waiting_.size() < most_waiting_; });
    throw_failure();
    waiting_.push_back({frame, std::move(image)});
    changed_.notify_all();
}

Image Conveyor::spare() {
    const std::scoped_lock lock(mutex_);
    if (spares_.empty()) return {};
    Image image = std::move(spares_.back());
    spares_.pop_back();
    return image;
}

void Conveyor::end_threads() {
    {
        const std::scoped_lock lock(mutex_);
        over_ = true;
    }
    changed_.notify_all();
    for (std::thread& thread : threads_) thread.join();
    threads_.clear();
}

void Conveyor::finish() {
    end_threads();
    throw_failure();
}

}  // namespace couplet
