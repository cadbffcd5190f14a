// The kinds of sheet, and what a person asks for.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "platewright/layout.hpp"
#include "platewright/result.hpp"

namespace platewright {

enum class SheetKind { poster, worksheet, copywork, key, colouring, numbered };

struct SheetKindInfo {
  SheetKind kind;
  std::string_view name;     // as on the command line
  std::string_view summary;  // one line
};
// In the order that help lists them.
const std::vector<SheetKindInfo>& sheet_kinds();
std::string_view name_of(SheetKind kind);
// Error `kind-unknown` with the known names.
Result<SheetKind> find_sheet_kind(std::string_view name);

}  // namespace platewright
