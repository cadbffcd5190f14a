// Web addresses as codes to scan: QR code, ISO/IEC 18004. libqrencode stays in
// code.cpp.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace platewright::text {

// White modules that must be kept free around a code (ISO/IEC 18004, 9.1).
inline constexpr int quiet_modules = 4;

struct Code {
  int side = 0;              // modules, 17 + 4 * version
  std::vector<bool> dark;    // row by row
  bool at(int column, int row) const {
    return dark[static_cast<std::size_t>(row) * static_cast<std::size_t>(side) +
                static_cast<std::size_t>(column)];
  }
};

// The smallest code of error correction level M (15 %); nothing for an empty or
// overlong text.
std::optional<Code> code_of(std::string_view text);

}  // namespace platewright::text
