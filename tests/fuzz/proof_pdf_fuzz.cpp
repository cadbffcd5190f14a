// Any bytes are a finished PDF that proof can look at, or findings, never a
// crash (LibFuzzer). qpdf and poppler come from the system, so new paths are
// seen in our own reader only.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "read/finished.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  // reinterpret_cast: the fuzzer's bytes are unsigned, texts are not.
  platewright::read::finished_pdf({reinterpret_cast<const char*>(data), size}, "fuzz.pdf");
  return 0;
}
