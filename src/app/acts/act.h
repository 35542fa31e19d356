#pragma once

namespace mellowbin {
template <class T> class Result;
}

namespace mellowbin::app {

struct State;
struct Told;

} // namespace mellowbin::app
