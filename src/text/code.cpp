#include "text/code.hpp"

#include <qrencode.h>

#include <memory>

namespace platewright::text {

std::optional<Code> code_of(std::string_view text) {
  if (text.empty()) return std::nullopt;
  const std::unique_ptr<QRcode, decltype(&QRcode_free)> made(
      QRcode_encodeData(static_cast<int>(text.size()),
                        reinterpret_cast<const unsigned char*>(text.data()), 0, QR_ECLEVEL_M),
      QRcode_free);
  if (!made) return std::nullopt;
  Code code;
  code.side = made->width;
  const auto count = static_cast<std::size_t>(made->width) * static_cast<std::size_t>(made->width);
  // The lowest bit of each byte is the module's colour.
  for (std::size_t i = 0; i < count; ++i) code.dark.push_back((made->data[i] & 1U) != 0);
  return code;
}

}  // namespace platewright::text
