#include "read/svg_transform.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/number.hpp"
#include "base/quote.hpp"
#include "read/svg_root.hpp"

namespace platewright::read {
namespace {

constexpr double radians_in_degree = 3.14159265358979323846 / 180;

// Numbers with whatever unit follows them left out.
std::vector<double> arguments(std::string_view text) {
  std::vector<double> values;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t start = text.find_first_of("+-.0123456789", i);
    if (start == std::string_view::npos) break;
    std::size_t end = start + 1;
    bool point = text[start] == '.';
    while (end < text.size()) {
      const char c = text[end];
      const bool exponent =
          (c == 'e' || c == 'E') && end + 1 < text.size() &&
          (text[end + 1] == '-' || (text[end + 1] >= '0' && text[end + 1] <= '9'));
      const bool sign = (c == '-' || c == '+') && (text[end - 1] == 'e' || text[end - 1] == 'E');
      if (c == '.' && point) break;
      if (c == '.') point = true;
      if (!(c >= '0' && c <= '9') && c != '.' && !exponent && !sign) break;
      ++end;
    }
    std::string_view word = text.substr(start, end - start);
    if (word.starts_with('+')) word.remove_prefix(1);
    if (const auto value = parse_number(word)) values.push_back(*value);
    i = end;
  }
  return values;
}

double determinant(std::string_view name, const std::vector<double>& v) {
  if (name == "matrix" && v.size() == 6) return v[0] * v[3] - v[1] * v[2];
  if (name == "scale" && !v.empty()) return v[0] * (v.size() > 1 ? v[1] : v[0]);
  if ((name == "scaleX" || name == "scaleY") && !v.empty()) return v[0];
  if (name == "skew" && v.size() == 2)
    return 1 - std::tan(v[0] * radians_in_degree) * std::tan(v[1] * radians_in_degree);
  return 1;  // translate, rotate, skewX, skewY
}

// The property in a style attribute, which wins over the attribute.
std::string_view transform_property(std::string_view css) {
  for (std::size_t i = 0; i < css.size();) {
    const std::size_t end = std::min(css.find(';', i), css.size());
    const std::string_view declaration = trimmed(css.substr(i, end - i));
    i = end + 1;
    if (declaration.starts_with("transform:")) return declaration.substr(10);
  }
  return {};
}

double viewport_scale(const pugi::xml_node& node) {
  const std::vector<double> box = arguments(node.attribute("viewBox").value());
  const auto w = user_units(node.attribute("width").value());
  const auto h = user_units(node.attribute("height").value());
  if (box.size() != 4 || box[2] <= 0 || box[3] <= 0 || !w || !h || *w <= 0 || *h <= 0) return 1;
  const std::string_view fit = node.attribute("preserveAspectRatio").value();
  const double x = *w / box[2], y = *h / box[3];
  if (fit.find("none") != std::string_view::npos) return std::sqrt(x * y);
  return fit.find("slice") != std::string_view::npos ? std::max(x, y) : std::min(x, y);
}

}  // namespace

double transform_scale(std::string_view transform) {
  double product = 1;
  for (std::size_t i = 0; i < transform.size();) {
    const std::size_t open = transform.find('(', i);
    if (open == std::string_view::npos) break;
    const std::size_t close = transform.find(')', open);
    if (close == std::string_view::npos) break;
    std::string_view name = transform.substr(i, open - i);
    while (!name.empty() && (name.front() == ',' || name.front() == ' ' || name.front() == '\n' ||
                             name.front() == '\t' || name.front() == '\r'))
      name.remove_prefix(1);
    product *= determinant(trimmed(name), arguments(transform.substr(open + 1, close - open - 1)));
    i = close + 1;
  }
  const double scale = std::sqrt(std::abs(product));
  return std::isfinite(scale) && scale > 0 ? scale : 1;
}

double accumulated_scale(pugi::xml_node node) {
  double scale = 1;
  for (; node.parent().type() == pugi::node_element; node = node.parent()) {
    const std::string_view property = transform_property(node.attribute("style").value());
    scale *= transform_scale(
        property.empty() ? std::string_view(node.attribute("transform").value()) : property);
    if (std::string_view(node.name()) == "svg") scale *= viewport_scale(node);
  }
  return scale;
}

}  // namespace platewright::read
