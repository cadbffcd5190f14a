// Any bytes are a table of terms in YAML or findings, never a crash (LibFuzzer).
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "read/read.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  // reinterpret_cast: the fuzzer's bytes are unsigned, texts are not.
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  platewright::read::terms(bytes, "fuzz.yaml");
  return 0;
}
