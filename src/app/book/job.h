#pragma once

#include <chrono>
#include <future>
#include <stop_token>
#include <thread>
#include <utility>

namespace mellowbin::app {

/// Long work on a thread of its own. It is given a copy of all it needs (never the book, never a view), is
/// asked once a frame whether it is done, and is stopped by its token and by going out of scope. Its
/// exception flies where the result is taken.
template <class T> class Job {
public:
    Job() = default;
    template <class Work> explicit Job(Work work) {
        std::promise<T> promise;
        result_ = promise.get_future();
        thread_ = std::jthread(
            [work = std::move(work), promise = std::move(promise)](std::stop_token stop) mutable {
                try {
                    promise.set_value(work(stop));
                } catch (...) {
                    promise.set_exception(std::current_exception());
                }
            });
    }

    [[nodiscard]] bool is_running() const { return result_.valid(); }
    [[nodiscard]] bool is_done() const {
        return result_.valid() && result_.wait_for(std::chrono::seconds{0}) == std::future_status::ready;
    }
    void stop() { thread_.request_stop(); }
    void wait() const {
        if (result_.valid())
            result_.wait();
    }
    /// The result, or the exception; the job is empty afterwards.
    T take() { return result_.get(); }

private:
    std::future<T> result_;
    std::jthread thread_; // last: joined before the rest goes
};

} // namespace mellowbin::app
