// Numbers read and written the same way in every locale.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace platewright {

// All of `text` as a finite number with a decimal point ("12", "-0.5", "1e3"),
// or nothing.
std::optional<double> parse_number(std::string_view text);
std::optional<int> parse_integer(std::string_view text);

// At most `decimals` decimals, trailing zeros dropped, never "-0". Finite values only.
std::string format_number(double value, int decimals = 3);

}  // namespace platewright
