#include "fuzz/target.h"

#include <cstddef>
#include <cstdint>

/// What libFuzzer calls with each input.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size);

int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    mellowbin::fuzz::targets().front().take({reinterpret_cast<const char*>(bytes), size});
    return 0;
}
