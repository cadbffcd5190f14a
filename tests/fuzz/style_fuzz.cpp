// Any bytes as a style: findings or a style, never a crash.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "read/encoding.hpp"
#include "read/style_values.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace platewright;
  // reinterpret_cast: the fuzzer's bytes are unsigned, texts are not.
  const auto text = read::text_from({reinterpret_cast<const char*>(data), size}, "fuzz.yaml");
  if (!text) return 0;
  read::Reading reading{"fuzz.yaml", {}};
  const read::YamlNode root = read::parse_yaml(*text, reading);
  Style style;
  if (!has_error(reading.findings) && root.is_map()) read::apply_style(root, style, reading);
  if (style.ages.empty()) std::abort();  // promised by style.hpp
  return 0;
}
