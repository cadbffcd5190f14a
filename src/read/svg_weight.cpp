#include "read/svg_weight.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "base/number.hpp"
#include "base/quote.hpp"
#include "read/svg_ids.hpp"

namespace platewright::read {
namespace {

constexpr double most_octaves = 8;
constexpr std::size_t most_kernel_numbers = 225;
// Of the larger side. Morphology costs the square of its radius for each pixel.
constexpr double largest_blur = 0.05;
constexpr double largest_morphology = 0.01;
constexpr std::size_t most_primitives = 500;

// Bytes of one text (setting it takes the square of its length: 1.3 s for
// 10,000) and of all texts together.
constexpr std::size_t longest_text = 5'000;
constexpr std::size_t most_text = 50'000;

// Measured with librsvg 2.54 on 640 x 640 pixels: 0.13 ms for a translucent
// group, 2 ms for a filter, 3 ms for a mask. The limit is some 1.5 s a drawing.
constexpr std::size_t weight_of_opacity = 1;
constexpr std::size_t weight_of_filter = 16;
constexpr std::size_t weight_of_mask = 24;
// With turbulence, morphology, convolution or lighting a filter takes some 100 ms.
constexpr std::size_t slow_filter = 40;
constexpr std::size_t most_weight = 12'000;

std::vector<double> number_list(std::string_view text) {
  std::vector<double> values;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t start = text.find_first_not_of(" \t\r\n,", i);
    if (start == std::string_view::npos) break;
    const std::size_t end = std::min(text.find_first_of(" \t\r\n,", start), text.size());
    if (const auto value = parse_number(text.substr(start, end - start))) values.push_back(*value);
    i = end;
  }
  return values;
}

bool kernel_fits(const pugi::xml_node& node) {
  std::vector<double> order = number_list(node.attribute("order").value());
  if (order.empty()) order = {3};
  if (order.size() == 1) order.push_back(order[0]);
  const auto fits = [](double v) {
    return v >= 1 && v <= static_cast<double>(most_kernel_numbers);
  };
  if (!fits(order[0]) || !fits(order[1])) return false;
  const double wanted = order[0] * order[1];
  const auto given =
      static_cast<double>(number_list(node.attribute("kernelMatrix").value()).size());
  return wanted == given && wanted <= static_cast<double>(most_kernel_numbers);
}

bool lower(pugi::xml_node node, const char* name, double most) {
  pugi::xml_attribute attribute = node.attribute(name);
  const std::vector<double> values = number_list(attribute.value());
  if (std::ranges::all_of(values, [&](double v) { return v <= most; })) return false;
  std::string text;
  for (const double v : values)
    text.append(text.empty() ? "" : " ").append(format_number(std::min(v, most), 6));
  attribute.set_value(text.c_str());
  return true;
}

std::size_t weight_of(std::string_view property, std::string_view value) {
  value = trimmed(value);
  if (value == "none" || value == "inherit") return 0;
  if (property == "filter") return weight_of_filter;
  if (property == "mask") return weight_of_mask;
  if (property == "mix-blend-mode") return value == "normal" ? 0 : weight_of_opacity;
  if (property == "opacity") return value == "1" || value == "100%" ? 0 : weight_of_opacity;
  return 0;
}

std::size_t weight_of_declarations(std::string_view css) {
  std::size_t sum = 0;
  for (std::size_t i = 0; i < css.size();) {
    const std::size_t end = std::min(css.find(';', i), css.size());
    const std::string_view declaration = css.substr(i, end - i);
    i = end + 1;
    const std::size_t colon = declaration.find(':');
    if (colon != std::string_view::npos)
      sum += weight_of(trimmed(declaration.substr(0, colon)), declaration.substr(colon + 1));
  }
  return sum;
}

// The class, or else the element name or "*", that an element must have for the
// last part of a selector: enough to count how many a rule may meet.
std::string subject(std::string_view selector) {
  const std::size_t part = trimmed(selector).find_last_of(" >+~");
  std::string_view last = trimmed(selector);
  if (part != std::string_view::npos) last.remove_prefix(part + 1);
  if (last.find('#') != std::string_view::npos) return {};  // one element
  const std::size_t dot = last.find('.');
  if (dot != std::string_view::npos)
    return std::string(last.substr(dot, last.find_first_of(".:[", dot + 1) - dot));
  const std::string_view name = last.substr(0, last.find_first_of(":["));
  return name.empty() ? "*" : std::string(name);
}

// Weight by what `subject` gives, of all rules of a style sheet.
void add_rules(std::string_view css, std::map<std::string, std::size_t>& weights) {
  for (std::size_t i = 0; i < css.size();) {
    const std::size_t open = css.find('{', i), close = css.find('}', i);
    if (open == std::string_view::npos || close == std::string_view::npos || close < open) return;
    if (const std::size_t weight = weight_of_declarations(css.substr(open + 1, close - open - 1))) {
      std::string_view selectors = css.substr(i, open - i);
      while (!selectors.empty()) {
        const std::size_t comma = std::min(selectors.find(','), selectors.size());
        weights[subject(selectors.substr(0, comma))] += weight;
        selectors.remove_prefix(std::min(comma + 1, selectors.size()));
      }
    }
    i = close + 1;
  }
}

std::size_t text_length(const pugi::xml_node& node) {
  std::size_t sum = 0;
  for (const pugi::xml_node child : node.children())
    sum += child.type() == pugi::node_pcdata ? std::string_view(child.value()).size()
                                             : text_length(child);
  return sum;
}

bool check_text(const SvgDocument& document, Findings& findings) {
  std::size_t longest = 0, total = 0;
  pugi::xml_node where;
  each_element(document.root(), [&](const pugi::xml_node& node) {
    if (std::string_view(node.name()) != "text") return;
    const std::size_t length = text_length(node);
    total += length;
    if (length > longest) {
      longest = length;
      where = node;
    }
  });
  if (longest <= longest_text && total <= most_text) return true;
  findings.push_back(error("figure-heavy", document.at(where),
                           "the figure's texts hold " + std::to_string(total) +
                               " bytes, the longest " + std::to_string(longest) + "; at most " +
                               std::to_string(most_text) + " and " + std::to_string(longest_text) +
                               " are set",
                           "leave labels to the terms file"));
  return false;
}

std::size_t weight_by_rules(const pugi::xml_node& node,
                            const std::map<std::string, std::size_t>& weights) {
  const auto weight = [&](const std::string& key) {
    const auto found = weights.find(key);
    return found == weights.end() ? std::size_t{0} : found->second;
  };
  std::size_t sum = weight("*") + weight(node.name());
  const std::string_view words = node.attribute("class").value();
  for (std::size_t i = 0; i < words.size();) {
    const std::size_t end = std::min(words.find_first_of(" \t\r\n", i), words.size());
    if (end > i) sum += weight("." + std::string(words.substr(i, end - i)));
    i = end + 1;
  }
  return sum;
}

}  // namespace

void tame_filters(SvgDocument& document, const FigureBox& view, Findings& findings) {
  const double side = std::max(view.w, view.h);
  std::size_t changed = 0;
  SourcePosition first;
  const auto note = [&](const pugi::xml_node& node) {
    if (changed++ == 0) first = document.at(node);
  };
  std::vector<pugi::xml_node> broken;
  each_element(document.root(), [&](pugi::xml_node node) {
    const std::string_view name = node.name();
    if (!name.starts_with("fe")) return;
    if (name == "feTurbulence" && lower(node, "numOctaves", most_octaves)) note(node);
    if (name == "feMorphology" && lower(node, "radius", largest_morphology * side)) note(node);
    if (name == "feGaussianBlur" || name == "feDropShadow")
      if (lower(node, "stdDeviation", largest_blur * side)) note(node);
    if (name == "feConvolveMatrix" && !kernel_fits(node)) {
      note(node);
      broken.push_back(node);
    }
  });
  for (pugi::xml_node node : broken) node.parent().remove_child(node);
  if (changed > 0)
    findings.push_back(warning("svg-filter", first,
                               std::to_string(changed) +
                                   (changed == 1 ? " filter reaches" : " filters reach") +
                                   " farther than can be drawn and is cut back",
                               "use small radii and kernels"));
}

bool check_weight(const SvgDocument& document, Findings& findings) {
  if (!check_text(document, findings)) return false;
  std::map<std::string, std::size_t> rules;
  each_element(document.root(), [&](const pugi::xml_node& node) {
    if (std::string_view(node.name()) == "style") add_rules(node.child_value(), rules);
  });
  std::size_t weight = 0, primitives = 0, filters = 0;
  bool slow = false;
  each_element(document.root(), [&](const pugi::xml_node& node) {
    const std::string_view name = node.name();
    if (name.starts_with("fe")) ++primitives;
    slow = slow || name == "feTurbulence" || name == "feMorphology" || name == "feConvolveMatrix" ||
           name.ends_with("Lighting");
    for (const char* property : {"opacity", "filter", "mask", "mix-blend-mode"})
      if (const pugi::xml_attribute a = node.attribute(property))
        weight += weight_of(property, a.value());
    const std::size_t before = weight;
    weight += weight_of_declarations(node.attribute("style").value());
    if (!rules.empty()) weight += weight_by_rules(node, rules);
    if (node.attribute("filter") || weight - before >= weight_of_filter) ++filters;
  });
  if (slow) weight += filters * weight_of_filter * slow_filter;
  if (weight <= most_weight && primitives <= most_primitives) return true;
  findings.push_back(error("figure-heavy", document.at(document.root()),
                           "the figure has more translucent groups, filters and masks than can be "
                           "drawn in reasonable time",
                           "merge groups of the same opacity, or turn effects into plain shapes"));
  return false;
}

}  // namespace platewright::read
