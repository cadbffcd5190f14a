#include "engine/fields.hpp"

#include <algorithm>

#include "base/number.hpp"

namespace platewright {

void put(std::string& out, std::string_view field) {
  out += std::to_string(field.size()) + ':';
  out += field;
}
void put(std::string& out, int value) { put(out, std::string_view(std::to_string(value))); }
void put(std::string& out, double value) { put(out, std::string_view(format_number(value, 6))); }

std::string_view Fields::text() {
  const std::size_t colon = rest_.find(':');
  const auto size = parse_integer(rest_.substr(0, std::min(colon, rest_.size())));
  if (!good_ || colon == std::string_view::npos || !size || *size < 0 ||
      static_cast<std::size_t>(*size) > rest_.size() - colon - 1) {
    good_ = false;
    return {};
  }
  const std::string_view field = rest_.substr(colon + 1, static_cast<std::size_t>(*size));
  rest_.remove_prefix(colon + 1 + field.size());
  return field;
}

int Fields::integer() {
  const auto value = parse_integer(text());
  good_ = good_ && value;
  return value.value_or(0);
}

double Fields::number() {
  const auto value = parse_number(text());
  good_ = good_ && value;
  return value.value_or(0);
}

int Fields::count() {
  const int value = integer();
  if (value >= 0 && static_cast<std::size_t>(value) <= rest_.size() / 2) return value;
  good_ = false;
  return 0;
}

}  // namespace platewright
