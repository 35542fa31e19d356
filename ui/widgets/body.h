#pragma once

#include <memory>
#include <type_traits>
#include <utility>

namespace mellowbin::ui {

template <class Signature> class FunctionRef;

/// A borrowed callable: lives no longer than the call it is passed to, allocates nothing. So a screen writes
/// `panel("Delivery", [&] { … });` and a container can never be left open. Write the lambda in the call
/// itself, or give it a name first; a description kept in a variable must not hold a lambda written in its
/// braces, which is gone by then.
template <class R, class... Args> class FunctionRef<R(Args...)> {
public:
    FunctionRef() = default;
    template <class F>
    requires(!std::is_same_v<std::remove_cvref_t<F>, FunctionRef> && std::is_invocable_r_v<R, F&, Args...>)
        FunctionRef(F&& f)
        : object_(const_cast<void*>(static_cast<const void*>(std::addressof(f)))),
          call_([](void* object, Args... args) -> R {
              return (*static_cast<std::remove_reference_t<F>*>(object))(std::forward<Args>(args)...);
          }) {}

    explicit operator bool() const { return call_ != nullptr; }
    R operator()(Args... args) const { return call_(object_, std::forward<Args>(args)...); }

private:
    void* object_ = nullptr;
    R (*call_)(void*, Args...) = nullptr;
};

/// What stands inside a container.
using Body = FunctionRef<void()>;

} // namespace mellowbin::ui
