// Any bytes are a figure or findings (LibFuzzer).
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "read/read.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  const auto figure = platewright::read::figure(bytes, "fuzz.svg", {});
  if (figure.ok()) platewright::read::outline_art(*figure, 1);
  return 0;
}
