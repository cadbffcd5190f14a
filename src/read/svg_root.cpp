#include "read/svg_root.hpp"

#include <cmath>
#include <string>
#include <vector>

#include "base/number.hpp"
#include "base/quote.hpp"

namespace platewright::read {
namespace {

// Beyond these, single-precision readers and cairo's 24.8 fixed point lose the drawing.
constexpr double smallest_side = 1e-3;
constexpr double largest_side = 1e6;
constexpr double largest_offset = 1e7;
constexpr double largest_ratio = 2000;

// Numbers separated by white space or commas; nothing when anything else stands there.
std::optional<std::vector<double>> numbers(std::string_view text) {
  std::vector<double> values;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t start = text.find_first_not_of(" \t\r\n,", i);
    if (start == std::string_view::npos) break;
    std::size_t end = text.find_first_of(" \t\r\n,", start);
    if (end == std::string_view::npos) end = text.size();
    std::string_view word = text.substr(start, end - start);
    if (word.starts_with('+')) word.remove_prefix(1);
    const auto value = parse_number(word);
    if (!value) return std::nullopt;
    values.push_back(*value);
    i = end;
  }
  return values;
}

// Declarations without those of a size, which would win over the attributes.
std::string without_size(std::string_view css) {
  std::string out;
  for (std::size_t i = 0; i < css.size();) {
    const std::size_t end = std::min(css.find(';', i), css.size());
    const std::string_view declaration = css.substr(i, end - i);
    i = end + 1;
    if (declaration.starts_with("width:") || declaration.starts_with("height:")) continue;
    if (!out.empty()) out += ';';
    out += declaration;
  }
  return out;
}

std::string decimal(double value) { return format_number(value, 6); }

}  // namespace

std::optional<double> user_units(std::string_view text) {
  text = trimmed(text);
  struct Unit {
    std::string_view name;
    double px;
  };
  static constexpr Unit units[] = {{"px", 1},           {"pt", 96.0 / 72},    {"pc", 16},
                                   {"mm", 96.0 / 25.4}, {"cm", 960.0 / 25.4}, {"in", 96},
                                   {"Q", 24.0 / 25.4},  {"em", 16},           {"ex", 8}};
  double factor = 1;
  for (const Unit& unit : units)
    if (text.ends_with(unit.name)) {
      factor = unit.px;
      text.remove_suffix(unit.name.size());
      break;
    }
  if (text.starts_with('+')) text.remove_prefix(1);
  const auto value = parse_number(text);
  if (!value) return std::nullopt;
  return *value * factor;
}

RootSize root_size(const SvgDocument& document, Findings& findings) {
  const pugi::xml_node root = document.root();
  const SourcePosition at = document.at(root);
  const std::string_view view = trimmed(root.attribute("viewBox").value());
  if (!view.empty()) {
    const auto values = numbers(view);
    if (!values || values->size() != 4) {
      findings.push_back(error("viewbox-invalid", at, "viewBox is " + in_quotes(view),
                               "write four numbers: left, top, width, height"));
      return {};
    }
    return {FigureBox{(*values)[0], (*values)[1], (*values)[2], (*values)[3]}, false};
  }
  const std::string_view width = trimmed(root.attribute("width").value());
  const std::string_view height = trimmed(root.attribute("height").value());
  const auto relative = [](std::string_view text) {
    return text.empty() || text == "auto" ||
           (text.ends_with('%') && parse_number(text.substr(0, text.size() - 1)));
  };
  if (relative(width) || relative(height)) return {std::nullopt, true};
  const auto w = user_units(width), h = user_units(height);
  if (!w || !h) {
    findings.push_back(
        error("figure-size", at,
              (!w ? "width is " + in_quotes(width) : "height is " + in_quotes(height)) +
                  ", which is no length",
              "write a viewBox of four numbers"));
    return {};
  }
  return {FigureBox{0, 0, *w, *h}, false};
}

bool check_view(const FigureBox& box, const SourcePosition& at, Findings& findings) {
  const bool finite =
      std::isfinite(box.x) && std::isfinite(box.y) && std::isfinite(box.w) && std::isfinite(box.h);
  if (!finite || box.w <= 0 || box.h <= 0) {
    findings.push_back(error("figure-size", at,
                             finite ? "the figure is " + decimal(box.w) + " by " + decimal(box.h) +
                                          " units; both must be more than 0"
                                    : std::string("the figure's size is not a finite number"),
                             "correct the viewBox"));
    return false;
  }
  const double least = std::min(box.w, box.h), most = std::max(box.w, box.h);
  if (least < smallest_side || most > largest_side || most / least > largest_ratio ||
      std::abs(box.x) > largest_offset || std::abs(box.y) > largest_offset) {
    findings.push_back(
        error("figure-size", at,
              "the figure is " + decimal(box.w) + " by " + decimal(box.h) + " units at " +
                  decimal(box.x) + ", " + decimal(box.y) +
                  "; sides from 0.001 to 1000000 units, at most 1 to 2000, are drawn",
              "correct the viewBox"));
    return false;
  }
  return true;
}

void set_root(SvgDocument& document, const FigureBox& box) {
  pugi::xml_node root = document.root();
  const auto set = [&](const char* name, const std::string& value) {
    pugi::xml_attribute attribute = root.attribute(name);
    if (!attribute) attribute = root.append_attribute(name);
    attribute.set_value(value.c_str());
  };
  set("viewBox",
      decimal(box.x) + " " + decimal(box.y) + " " + decimal(box.w) + " " + decimal(box.h));
  set("width", decimal(box.w));
  set("height", decimal(box.h));
  root.remove_attribute("preserveAspectRatio");
  if (pugi::xml_attribute style = root.attribute("style")) {
    const std::string rest = without_size(style.value());
    if (rest.empty())
      root.remove_attribute(style);
    else
      style.set_value(rest.c_str());
  }
  root.remove_attribute("x");
  root.remove_attribute("y");
}

}  // namespace platewright::read
