#include "platewright/length.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <utility>

#include "base/number.hpp"
#include "base/quote.hpp"

namespace platewright {
namespace {

struct Unit {
  std::string_view name;
  Length (*make)(double);
};

constexpr std::array<Unit, 6> units = {{{"mm", &Length::mm},
                                        {"cm", &Length::cm},
                                        {"m", &Length::m},
                                        {"in", &Length::in},
                                        {"ft", &Length::ft},
                                        {"pt", &Length::pt}}};

Finding invalid(std::string_view text, std::string_view why, std::string advice) {
  return error("length-invalid", {}, in_quotes(text) + " is not a length: " + std::string(why),
               std::move(advice));
}

}  // namespace

Result<Length> parse_length(std::string_view text) {
  const std::string_view all = trimmed(text);
  double number = 0.0;
  const char* const end = all.data() + all.size();
  const auto [rest, fault] = std::from_chars(all.data(), end, number);
  if (fault == std::errc::result_out_of_range)
    return invalid(text, "its number is out of range", "write a size that fits on a page");
  if (fault != std::errc{})
    return invalid(text, "it has no number", "write a number and a unit, such as 12 mm");
  if (!std::isfinite(number))
    return invalid(text, "its number is not finite", "write a number and a unit, such as 12 mm");
  const std::string_view unit =
      trimmed(std::string_view(rest, static_cast<std::size_t>(end - rest)));
  if (unit.empty()) return invalid(text, "it has no unit", "add mm, cm, m, in, ft or pt");
  if (unit.front() == ',')
    return invalid(text, "it has a comma", "write a decimal point, such as 1.5 cm");
  for (const Unit& known : units) {
    if (unit != known.name) continue;
    const Length length = known.make(number);
    if (!std::isfinite(length.mm()))
      return invalid(text, "its number is out of range", "write a size that fits on a page");
    return length;
  }
  return invalid(text, "unknown unit " + in_quotes(unit), "use mm, cm, m, in, ft or pt");
}

std::string format_mm(Length length, int decimals) {
  return format_number(length.mm(), decimals) + " mm";
}

}  // namespace platewright
