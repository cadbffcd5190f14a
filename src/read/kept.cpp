#include "read/kept.hpp"

#include <algorithm>

#include "base/number.hpp"
#include "read/yaml.hpp"

namespace platewright::read {
namespace {

// JSON is YAML's flow style; a report is read as that. Whatever is missing or of the wrong
// kind makes the whole no report.
class Fields {
 public:
  explicit Fields(bool& sound) : sound_(sound) {}

  const YamlNode& at(const YamlNode& map, std::string_view key) const {
    static const YamlNode none;
    for (const YamlEntry& entry : map.entries)
      if (entry.key.text == key) return entry.value;
    sound_ = false;
    return none;
  }
  double number(const YamlNode& node) const {
    const auto value = node.is_scalar() ? parse_number(node.text) : std::nullopt;
    if (!value) sound_ = false;
    return value.value_or(0);
  }
  double number(const YamlNode& map, std::string_view key) const { return number(at(map, key)); }
  double item(const YamlNode& list, std::size_t k) const {
    if (k < list.items.size()) return number(list.items[k]);
    sound_ = false;
    return 0;
  }
  PagePoint point(const YamlNode& list) const { return {item(list, 0), item(list, 1)}; }
  std::string text(const YamlNode& map, std::string_view key) const { return at(map, key).text; }
  bool flag(const YamlNode& map, std::string_view key) const { return text(map, key) == "true"; }
  Side side(const YamlNode& map) const {
    const std::string name = text(map, "side");
    for (const auto& [known, side] :
         {std::pair{"left", Side::left}, {"right", Side::right}, {"top", Side::top},
          {"bottom", Side::bottom}, {"inside", Side::inside}})
      if (name == known) return side;
    sound_ = false;
    return Side::left;
  }

 private:
  bool& sound_;
};

}  // namespace

std::optional<KeptSheet> kept_sheet(std::string_view bytes) {
  Reading reading;
  const YamlNode report = parse_yaml(bytes, reading);
  if (!reading.findings.empty() || !report.is_map()) return std::nullopt;
  bool sound = true;
  const Fields f(sound);
  KeptSheet kept;
  kept.figure = f.text(report, "figure");
  const YamlNode* kept_node = nullptr;
  for (const YamlNode& sheet : f.at(report, "sheets").items)
    for (const YamlEntry& entry : sheet.entries)
      if (entry.key.text == "kept" && kept_node == nullptr) {
        kept_node = &entry.value;
        kept.set = f.text(sheet, "set");
        for (const YamlNode& step : f.at(sheet, "fallbacks").items)
          kept.fallbacks.push_back({f.text(step, "step"), f.text(step, "witness")});
      }
  if (kept_node == nullptr) return std::nullopt;
  const YamlNode& k = *kept_node;
  kept.style = f.text(k, "style");
  const PagePoint paper = f.point(f.at(k, "paper"));
  kept.width = paper.x;
  kept.height = paper.y;
  kept.figure_to_page = {f.number(k, "scale"), f.point(f.at(k, "origin"))};
  kept.text_pt = f.number(k, "text_pt");
  kept.blanks_beside = f.flag(k, "blanks_beside");
  kept.copy_beside = f.flag(k, "copy_beside");
  kept.blank_lines = static_cast<int>(std::clamp(f.number(k, "blank_lines"), 1.0, 2.0));
  kept.list_height = f.number(k, "list_height");
  Certificate& c = kept.certificate;
  c.cost = f.number(k, "cost");
  c.bound = f.number(k, "bound");
  c.gap = f.number(k, "gap");
  c.status = f.flag(k, "optimal") ? SolveStatus::optimal : SolveStatus::feasible;
  c.polished_cost = f.number(k, "polished_cost");
  c.continuous_bound = f.number(k, "continuous_bound");
  c.continuous_gap = f.number(k, "continuous_gap");
  for (const YamlNode& node : f.at(k, "labels").items) {
    PlacedLabel label;
    label.anchor = f.text(node, "anchor");
    label.text = f.text(node, "text");
    label.side = f.side(node);
    label.port = f.point(f.at(node, "port"));
    label.targets = {f.point(f.at(node, "target"))};
    const YamlNode& size = f.at(node, "size");
    label.box = {0, 0, f.item(size, 0), f.item(size, 1)};
    label.as_number = f.flag(node, "as_number");
    kept.labels.push_back(std::move(label));
  }
  if (!sound || !(kept.figure_to_page.scale > 0) || kept.labels.empty()) return std::nullopt;
  return kept;
}

}  // namespace platewright::read
