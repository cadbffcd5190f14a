#include "emit/svg_figure.hpp"

#include <algorithm>
#include <array>
#include <set>
#include <string_view>
#include <vector>

#include "base/number.hpp"
#include "emit/css.hpp"
#include "emit/art.hpp"
#include "emit/css_scope.hpp"
#include "emit/xml_text.hpp"

namespace platewright::emit {
namespace {

using css::lower;
using Prefixes = std::set<std::string, std::less<>>;

std::string_view local_name(std::string_view name) {
  const std::size_t colon = name.find(':');
  return colon == std::string_view::npos ? name : name.substr(colon + 1);
}
std::string_view prefix_of(std::string_view name) {
  const std::size_t colon = name.find(':');
  return colon == std::string_view::npos ? std::string_view{} : name.substr(0, colon);
}

std::vector<std::string> words(std::string_view text, std::string_view separators) {
  std::vector<std::string> result;
  while (!text.empty()) {
    const std::size_t cut = text.find_first_of(separators);
    if (cut != 0) result.emplace_back(text.substr(0, cut));
    text = cut == std::string_view::npos ? std::string_view{} : text.substr(cut + 1);
  }
  return result;
}

template <class Change>
std::string changed_words(std::string_view text, std::string_view separators,
                          std::string_view between, Change change) {
  std::string result;
  for (const std::string& word : words(text, separators)) {
    if (!result.empty()) result += between;
    result += change(word);
  }
  return result;
}

// SMIL timing: "heart.click; arm.end+1s". Times and bare events stay.
std::string timing(std::string_view text, const css::Scope& scope) {
  return changed_words(text, ";", ";", [&](const std::string& item) {
    const std::size_t begin = std::min(item.find_first_not_of(" \t\r\n"), item.size());
    const std::size_t dot = item.find('.', begin);
    if (dot == std::string::npos || item[begin] == '+' || item[begin] == '-' ||
        (item[begin] >= '0' && item[begin] <= '9'))
      return item;
    return scope.id_of(std::string_view(item).substr(begin, dot - begin)) + item.substr(dot);
  });
}

// A link that stays inside the figure or carries its own data.
std::optional<std::string> link(std::string_view target, const css::Scope& scope) {
  const std::size_t begin = std::min(target.find_first_not_of(" \t\r\n"), target.size());
  target = target.substr(begin);
  if (target.starts_with('#')) return "#" + scope.id_of(target.substr(1));
  if (lower(target.substr(0, 11)) == "data:image/") return std::string(target);
  return std::nullopt;
}

bool names_ids(std::string_view attribute) {
  static constexpr std::array<std::string_view, 8> names = {
      "aria-labelledby", "aria-describedby",      "aria-controls", "aria-owns",
      "aria-flowto",     "aria-activedescendant", "aria-details",  "aria-errormessage"};
  return std::find(names.begin(), names.end(), attribute) != names.end();
}

bool animates(std::string_view element) {
  return element == "set" || element.starts_with("animate");
}

bool unwanted(const pugi::xml_node& node) {
  if (node.type() == pugi::node_comment || node.type() == pugi::node_pi ||
      node.type() == pugi::node_doctype || node.type() == pugi::node_declaration)
    return true;
  if (node.type() != pugi::node_element) return false;
  const std::string element = lower(local_name(node.name()));
  if (element == "script" || element == "foreignobject" || element == "iframe" ||
      element == "handler" || element == "listener")
    return true;
  if (element == "style") {
    const std::string type = lower(node.attribute("type").as_string("text/css"));
    return !type.empty() && type != "text/css";
  }
  if (animates(element)) {  // an animation that would write a handler
    const std::string target = lower(local_name(node.attribute("attributeName").value()));
    return target.starts_with("on");
  }
  return false;
}

class Rewriter {
 public:
  explicit Rewriter(css::Scope scope) : scope_(std::move(scope)) {}

  void element(pugi::xml_node node, const Prefixes& prefixes, bool root) {
    const std::string name = lower(local_name(node.name()));
    for (pugi::xml_attribute a = node.first_attribute(); a;) {
      const pugi::xml_attribute next = a.next_attribute();
      const std::string_view prefix = prefix_of(a.name());
      const bool declared = prefix.empty() || prefix == "xml" || prefix == "xmlns" ||
                            prefixes.find(prefix) != prefixes.end();
      const std::optional<std::string> value =
          declared ? attribute(node, name, a, root) : std::nullopt;
      if (value)
        a.set_value(xml_text(*value).c_str());
      else
        node.remove_attribute(a);
      a = next;
    }
    if (name == "style") style_sheet(node);
  }

 private:
  // The attribute's new value, or nothing when it must go.
  std::optional<std::string> attribute(const pugi::xml_node& node, const std::string& element,
                                       const pugi::xml_attribute& a, bool root) const {
    const std::string name(a.name());
    const std::string local = lower(local_name(name));
    const std::string text(a.value());
    if (prefix_of(name) == "xmlns" || name == "xmlns") return text;
    if (local.starts_with("on")) return std::nullopt;
    if (name == "xml:base") return std::nullopt;
    if (name == "id" || name == "xml:id") return scope_.id_of(text);
    if (local == "href") return link(text, scope_);
    if (name == "class")
      return changed_words(text, " \t\r\n", " ",
                           [&](const std::string& w) { return scope_.class_of(w); });
    if (name == "style") return css::scoped_declarations(text, scope_, root);
    if (names_ids(name))
      return changed_words(text, " \t\r\n", " ",
                           [&](const std::string& w) { return scope_.id_of(w); });
    if (name.starts_with("data-") || name.starts_with("aria-")) return text;
    if (name == "begin" || name == "end") return timing(text, scope_);
    if (animates(element) && (name == "from" || name == "to" || name == "by" || name == "values") &&
        lower(local_name(node.attribute("attributeName").value())) == "href")
      return changed_words(text, ";", ";", [&](const std::string& item) {
        return link(item, scope_).value_or("#" + scope_.id + "-none");
      });
    if (lower(text).find("url") != std::string::npos || text.find('\\') != std::string::npos)
      return css::scoped_value(text, scope_);
    return text;
  }

  void style_sheet(pugi::xml_node node) const {
    std::string text;
    for (const pugi::xml_node& child : node.children())
      if (child.type() == pugi::node_pcdata || child.type() == pugi::node_cdata)
        text += child.value();
    node.remove_children();
    const std::string scoped = xml_text(css::scoped_sheet(text, scope_));
    node.append_child(pugi::node_pcdata).set_value(scoped.c_str());
  }

  css::Scope scope_;
};

Prefixes declared_on(const pugi::xml_node& node, Prefixes known) {
  for (const pugi::xml_attribute& a : node.attributes())
    if (prefix_of(a.name()) == "xmlns") known.emplace(local_name(a.name()));
  return known;
}

void clean_text(pugi::xml_node node) {
  std::string text = xml_text(node.value());
  if (text != node.value()) node.set_value(text.c_str());
}

}  // namespace

std::string append_figure(pugi::xml_node parent, const std::string& svg, const std::string& id,
                          const FigureBox& view_box, const PageBox& at) {
  pugi::xml_document document;
  const pugi::xml_parse_result parsed = document.load_buffer(
      svg.data(), svg.size(), pugi::parse_default | pugi::parse_ws_pcdata, pugi::encoding_utf8);
  if (!parsed) return parsed.description();
  pugi::xml_node root = parent.append_copy(document.document_element());
  if (lower(local_name(root.name())) != "svg") {
    parent.remove_child(root);
    return "the root element is not svg";
  }

  css::Scope scope;
  scope.id = id;
  scope.root_id = root.attribute("id").value();
  scope.root_classes = words(root.attribute("class").value(), " \t\r\n");
  Prefixes outside;
  if (!root.attribute("xmlns:xlink")) {
    root.append_attribute("xmlns:xlink") = "http://www.w3.org/1999/xlink";
  }

  Rewriter rewriter(scope);
  struct Visit {
    pugi::xml_node node;
    Prefixes prefixes;
  };
  std::vector<Visit> open{{root, declared_on(root, outside)}};
  rewriter.element(root, open.back().prefixes, true);
  while (!open.empty()) {
    const Visit visit = std::move(open.back());
    open.pop_back();
    if (lower(local_name(visit.node.name())) == "style") continue;
    for (pugi::xml_node child = visit.node.first_child(); child;) {
      const pugi::xml_node next = child.next_sibling();
      const bool element = child.type() == pugi::node_element;
      Prefixes prefixes = element ? declared_on(child, visit.prefixes) : Prefixes{};
      const std::string_view prefix = prefix_of(child.name());
      if (unwanted(child) ||
          (element && !prefix.empty() && prefixes.count(std::string(prefix)) == 0)) {
        pugi::xml_node(visit.node).remove_child(child);
      } else if (element) {
        rewriter.element(child, prefixes, false);
        open.push_back({child, std::move(prefixes)});
      } else {
        clean_text(child);
      }
      child = next;
    }
  }

  for (const char* name : {"id", "x", "y", "width", "height", "viewBox", "preserveAspectRatio",
                           "overflow", "version", "baseProfile", "zoomAndPan"})
    root.remove_attribute(name);
  const auto number = [&](const char* name, double value) {
    root.append_attribute(name) = format_number(value).c_str();
  };
  root.prepend_attribute("id") = id.c_str();
  number("x", at.x);
  number("y", at.y);
  number("width", at.w);
  number("height", at.h);
  const std::string box = format_number(view_box.x, 6) + " " + format_number(view_box.y, 6) + " " +
                          format_number(view_box.w, 6) + " " + format_number(view_box.h, 6);
  root.append_attribute("viewBox") = box.c_str();
  root.append_attribute("preserveAspectRatio") = "none";
  root.append_attribute("overflow") = "visible";
  if (mixes(svg)) {  // with nothing of the page
    std::string style = root.attribute("style").value();
    root.remove_attribute("style");
    style += style.empty() || style.back() == ';' ? "isolation:isolate" : ";isolation:isolate";
    root.append_attribute("style") = style.c_str();
  }
  return {};
}

}  // namespace platewright::emit
