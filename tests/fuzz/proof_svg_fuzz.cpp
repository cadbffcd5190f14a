// Any bytes are a finished SVG sheet that proof can look at, or findings, never
// a crash (LibFuzzer).
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "read/finished.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  // reinterpret_cast: the fuzzer's bytes are unsigned, texts are not.
  platewright::read::finished_svg({reinterpret_cast<const char*>(data), size}, "fuzz.svg");
  return 0;
}
