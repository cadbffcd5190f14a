// Any bytes are a spreadsheet's table of terms or findings, never a crash
// (LibFuzzer); with and without label sets that are named beside it.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "read/read.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace platewright;
  // reinterpret_cast: the fuzzer's bytes are unsigned, texts are not.
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  read::terms(bytes, "fuzz.csv");
  read::terms(bytes, "fuzz.tsv", {{"middle", 7, 10, "en", {}}});
  return 0;
}
