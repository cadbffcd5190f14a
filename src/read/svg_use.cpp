#include "read/svg_use.hpp"

#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "base/number.hpp"
#include "base/quote.hpp"
#include "read/svg_css.hpp"
#include "read/svg_root.hpp"

namespace platewright::read {
namespace {

// Of <use> within <use>; drawings have one or two.
constexpr int deepest_reuse = 32;

class ReferenceCheck {
 public:
  ReferenceCheck(const SvgDocument& document, const IdMap& ids, const Limits& limits,
                 Findings& findings)
      : document_(document), ids_(ids), limits_(limits), findings_(findings) {}

  bool run() {
    const std::size_t total = cost(document_.root(), 0);
    if (!failed_ && total > limits_.elements)
      fail(error("use-explosion", document_.at(largest_),
                 "with every reuse counted, the figure draws more than " +
                     std::to_string(limits_.elements) + " elements",
                 "reuse less within what is itself reused"));
    return !failed_;
  }

 private:
  struct Known {
    bool open = false;  // being counted further up: a cycle
    std::size_t cost = 0;
  };

  void fail(Finding finding) {
    if (!failed_) findings_.push_back(std::move(finding));
    failed_ = true;
  }

  std::size_t plus(std::size_t a, std::size_t b) const {
    return std::min(a + b, limits_.elements + 1);
  }

  void note_largest(const pugi::xml_node& node, std::size_t cost) {
    if (cost <= largest_cost_) return;
    largest_cost_ = cost;
    largest_ = node;
  }

  std::size_t referenced(const pugi::xml_node& from, std::string_view id, int depth, bool by_use) {
    const auto target = ids_.find(id);
    if (target == ids_.end() && by_use && missing_.emplace(id).second)
      findings_.push_back(warning("use-missing", document_.at(from),
                                  "<use> of " + in_quotes("#" + std::string(id)) +
                                      " draws nothing, since nothing in the figure has that id",
                                  "draw it, or remove the <use>"));
    if (target == ids_.end() || failed_) return 0;
    if (depth >= deepest_reuse) {
      fail(error("use-deep", document_.at(from),
                 "reuse is nested more than " + std::to_string(deepest_reuse) + " deep",
                 "draw it with less nesting"));
      return 0;
    }
    const pugi::xml_node node = target->second;
    Known& known = known_[node.hash_value()];
    if (known.open) {
      // Paint servers and masks that refer to themselves draw nothing and harm nothing.
      if (by_use)
        fail(error("use-cycle", document_.at(from),
                   "<use> of " + in_quotes("#" + std::string(id)) + " stands within what it reuses",
                   "let it refer to something else"));
      return 0;
    }
    if (known.cost == 0) {
      known.open = true;
      const std::size_t counted = cost(node, depth + 1);
      Known& again = known_[node.hash_value()];  // the map may have grown
      again.open = false;
      again.cost = counted;
      return counted;
    }
    return known.cost;
  }

  std::size_t cost(const pugi::xml_node& node, int depth) {
    std::size_t sum = 1;
    const std::string_view target = href_target(node);
    if (!target.empty()) {
      const std::size_t more =
          referenced(node, target, depth, std::string_view(node.name()) == "use");
      note_largest(node, more);
      sum = plus(sum, more);
    }
    for (const pugi::xml_attribute a : node.attributes()) {
      const std::string_view value = a.value();
      if (value.find("url(") == std::string_view::npos) continue;
      ids_in_urls(value, [&](std::string_view id) {
        const std::size_t more = referenced(node, id, depth, false);
        note_largest(node, more);
        sum = plus(sum, more);
      });
    }
    for (const pugi::xml_node child : node.children()) {
      if (failed_ || sum > limits_.elements) break;
      if (child.type() == pugi::node_element) sum = plus(sum, cost(child, depth));
    }
    return sum;
  }

  const SvgDocument& document_;
  const IdMap& ids_;
  const Limits& limits_;
  Findings& findings_;
  std::map<std::size_t, Known> known_;  // by the node's address: looked up, never walked
  std::set<std::string, std::less<>> missing_;  // told once
  pugi::xml_node largest_;
  std::size_t largest_cost_ = 0;
  bool failed_ = false;
};

class Expansion {
 public:
  Expansion(const IdMap& ids, bool all) : ids_(ids), all_(all) {}

  void walk(pugi::xml_node node) {
    for (pugi::xml_node child = node.first_child(); child;) {
      pugi::xml_node here = child;
      child = child.next_sibling();
      if (here.type() != pugi::node_element || is_definition(here.name())) continue;
      if (here.attribute(marker_attribute)) continue;
      if (std::string_view(here.name()) == "use" && holds_target(here)) here = replaced(here);
      walk(here);
    }
  }

 private:
  bool holds_target(const pugi::xml_node& use) {
    const auto target = ids_.find(href_target(use));
    if (target == ids_.end()) return false;
    if (all_) return true;
    const std::size_t key = target->second.hash_value();
    if (const auto known = holds_.find(key); known != holds_.end()) return known->second;
    holds_.emplace(key, false);
    const bool yes = holds(target->second);
    holds_[key] = yes;
    return yes;
  }

  bool holds(const pugi::xml_node& node) {
    if (node.attribute(origin_attribute)) return true;
    if (std::string_view(node.name()) == "use" && holds_target(node)) return true;
    for (const pugi::xml_node child : node.children())
      if (child.type() == pugi::node_element && holds(child)) return true;
    return false;
  }

  // What the <use> draws, in its place (SVG 2, 5.6.1 and 5.6.2).
  pugi::xml_node replaced(pugi::xml_node use) {
    const pugi::xml_node target = ids_.find(href_target(use))->second;
    pugi::xml_node parent = use.parent();
    pugi::xml_node group = parent.insert_child_before("g", use);
    for (const pugi::xml_attribute a : use.attributes()) {
      const std::string_view name = a.name();
      if (name != "x" && name != "y" && name != "width" && name != "height" && name != "href")
        group.append_copy(a);
    }
    pugi::xml_node inner = group;
    const double x = user_units(use.attribute("x").value()).value_or(0);
    const double y = user_units(use.attribute("y").value()).value_or(0);
    if (x != 0 || y != 0) {
      inner = group.append_child("g");
      inner.append_attribute("transform")
          .set_value(
              ("translate(" + format_number(x, 6) + " " + format_number(y, 6) + ")").c_str());
    }
    pugi::xml_node copy = inner.append_copy(target);
    const std::string_view name = target.name();
    if (name == "symbol" || name == "svg") {
      if (name == "symbol") copy.set_name("svg");
      for (const char* side : {"width", "height"}) {
        const pugi::xml_attribute own = use.attribute(side);
        if (!own && name == "svg") continue;
        copy.remove_attribute(side);
        copy.append_attribute(side).set_value(own ? own.value() : "100%");
      }
    }
    each_element(copy, [](pugi::xml_node node) { node.remove_attribute("id"); });
    parent.remove_child(use);
    return group;
  }

  const IdMap& ids_;
  bool all_;
  std::map<std::size_t, bool> holds_;
};

}  // namespace

bool is_definition(std::string_view name) {
  for (const std::string_view kind :
       {"defs", "symbol", "clipPath", "mask", "pattern", "marker", "linearGradient",
        "radialGradient", "filter", "style", "title", "desc"})
    if (name == kind) return true;
  return false;
}

bool check_references(const SvgDocument& document, const IdMap& ids, const Limits& limits,
                      Findings& findings) {
  return ReferenceCheck(document, ids, limits, findings).run();
}

void expand_uses(pugi::xml_node root, const IdMap& ids) { Expansion(ids, false).walk(root); }

void expand_all_uses(pugi::xml_node root, const IdMap& ids) { Expansion(ids, true).walk(root); }

}  // namespace platewright::read
