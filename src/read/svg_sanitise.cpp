#include "read/svg_sanitise.hpp"

#include <algorithm>
#include <array>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "base/quote.hpp"
#include "base/utf8.hpp"
#include "read/image_inline.hpp"
#include "read/svg_css.hpp"
#include "read/svg_dropped.hpp"

namespace platewright::read {
namespace {

constexpr std::string_view svg_uri = "http://www.w3.org/2000/svg";
constexpr std::string_view xlink_uri = "http://www.w3.org/1999/xlink";

// Sorted. What draws, and what drawing refers to (SVG 1.1 and SVG 2).
constexpr std::array<std::string_view, 54> kept = {"a",
                                                   "circle",
                                                   "clipPath",
                                                   "defs",
                                                   "desc",
                                                   "ellipse",
                                                   "feBlend",
                                                   "feColorMatrix",
                                                   "feComponentTransfer",
                                                   "feComposite",
                                                   "feConvolveMatrix",
                                                   "feDiffuseLighting",
                                                   "feDisplacementMap",
                                                   "feDistantLight",
                                                   "feDropShadow",
                                                   "feFlood",
                                                   "feFuncA",
                                                   "feFuncB",
                                                   "feFuncG",
                                                   "feFuncR",
                                                   "feGaussianBlur",
                                                   "feImage",
                                                   "feMerge",
                                                   "feMergeNode",
                                                   "feMorphology",
                                                   "feOffset",
                                                   "fePointLight",
                                                   "feSpecularLighting",
                                                   "feSpotLight",
                                                   "feTile",
                                                   "feTurbulence",
                                                   "filter",
                                                   "g",
                                                   "image",
                                                   "line",
                                                   "linearGradient",
                                                   "marker",
                                                   "mask",
                                                   "path",
                                                   "pattern",
                                                   "polygon",
                                                   "polyline",
                                                   "radialGradient",
                                                   "rect",
                                                   "stop",
                                                   "style",
                                                   "svg",
                                                   "switch",
                                                   "symbol",
                                                   "text",
                                                   "textPath",
                                                   "title",
                                                   "tspan",
                                                   "use"};

constexpr std::array<std::string_view, 7> animations = {
    "animate", "animateColor", "animateMotion", "animateTransform", "discard", "mpath", "set"};
constexpr std::array<std::string_view, 7> media = {"audio",  "canvas", "embed", "iframe",
                                                   "object", "source", "video"};
// Known, and nothing is missed without them.
constexpr std::array<std::string_view, 16> silent = {
    "altGlyph",      "altGlyphDef",    "color-profile", "cursor",    "font",          "font-face",
    "font-face-src", "font-face-name", "glyph",         "hkern",     "missing-glyph", "metadata",
    "view",          "vkern",          "solidcolor",    "solidColor"};

template <std::size_t N>
bool among(const std::array<std::string_view, N>& names, std::string_view name) {
  return std::ranges::find(names, name) != names.end();
}

bool is_kept(std::string_view name) { return std::ranges::binary_search(kept, name); }

bool plain_name(std::string_view name) {
  return !name.empty() &&
         std::ranges::all_of(name,
                             [](char c) {
                               return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                                      (c >= '0' && c <= '9') || c == '-' || c == '_' || c == '.' ||
                                      static_cast<unsigned char>(c) >= 0x80;
                             }) &&
         !(name[0] >= '0' && name[0] <= '9') && name[0] != '-' && name[0] != '.';
}

// Case does not hide a script: browsers read XHTML names as they stand, HTML ones in any case.
class Sanitiser {
 public:
  Sanitiser(SvgDocument& document, const Limits& limits, Findings& findings)
      : document_(document), limits_(limits), findings_(findings) {}

  void run() {
    pugi::xml_node root = document_.root();
    for (pugi::xml_node child = document_.tree.first_child(); child;) {
      const pugi::xml_node here = child;
      child = child.next_sibling();
      if (here == root) continue;
      if (here.type() == pugi::node_pi) drop(Dropped::instruction, root);
      document_.tree.remove_child(here);
    }
    const std::size_t scope = bindings_.size();
    bind(root);
    const auto [uri, local] = resolve(root.name());
    if (local != "svg" || (uri != svg_uri && !uri.empty())) {
      findings_.push_back(error("svg-missing", document_.at(root),
                                "the root element is <" + escaped(root.name()) + ">, not <svg>",
                                "give a file that is an SVG drawing"));
      return;
    }
    if (uri.empty()) {
      no_namespace_ = true;
      findings_.push_back(warning("svg-namespace", document_.at(root),
                                  "the root element declares no namespace",
                                  "write xmlns=\"" + std::string(svg_uri) + "\""));
    }
    bindings_.resize(scope);
    element(root, false);
    root.remove_attribute("xmlns");
    root.prepend_attribute("xmlns").set_value(std::string(svg_uri).c_str());
    dropped_.report(findings_);
  }

 private:
  struct Binding {
    std::string prefix;
    std::string uri;
  };

  void drop(Dropped kind, const pugi::xml_node& at) { dropped_.add(kind, document_.at(at)); }

  void bind(const pugi::xml_node& node) {
    for (const pugi::xml_attribute a : node.attributes()) {
      const std::string_view name = a.name();
      if (name == "xmlns") bindings_.push_back({"", a.value()});
      if (name.starts_with("xmlns:")) bindings_.push_back({std::string(name.substr(6)), a.value()});
    }
  }

  // Namespace and local name of an element or, with `attribute`, of an attribute.
  std::pair<std::string_view, std::string_view> resolve(std::string_view name,
                                                        bool attribute = false) const {
    const std::size_t colon = name.find(':');
    const std::string_view prefix = colon == std::string_view::npos ? "" : name.substr(0, colon);
    const std::string_view local = colon == std::string_view::npos ? name : name.substr(colon + 1);
    if (attribute && prefix.empty()) return {"", local};
    for (auto b = bindings_.rbegin(); b != bindings_.rend(); ++b)
      if (b->prefix == prefix) return {b->uri, local};
    // Prefixes that everybody writes alike are understood undeclared.
    if (prefix == "svg") return {svg_uri, local};
    if (prefix == "xlink") return {xlink_uri, local};
    return {prefix, local};
  }

  bool drawn_namespace(std::string_view uri) const {
    return uri == svg_uri || (no_namespace_ && uri.empty());
  }

  // Removes `node` from its parent when nothing of it stays.
  void element(pugi::xml_node node, bool in_text) {
    const std::size_t scope = bindings_.size();
    bind(node);
    const auto [uri, name] = resolve(node.name());
    if (!keep(node, uri, name)) {
      bindings_.resize(scope);
      node.parent().remove_child(node);
      return;
    }
    const std::string local(name == "a" ? "g" : name);
    attributes(node, std::string(name));
    if (local != node.name()) node.set_name(local.c_str());
    if (local == "style") {
      style_sheet(node);
    } else {
      children(node, in_text || local == "text");
    }
    bindings_.resize(scope);
  }

  bool keep(const pugi::xml_node& node, std::string_view uri, std::string_view name) {
    const std::string small = small_letters(name);
    if (small == "script" || small == "handler" || small == "listener") {
      drop(Dropped::script, node);
    } else if (among(media, small)) {
      drop(Dropped::media, node);
    } else if (!drawn_namespace(uri)) {
      if (uri == "http://www.w3.org/1999/xhtml") drop(Dropped::foreign, node);
    } else if (name == "foreignObject") {
      drop(Dropped::foreign, node);
    } else if (among(animations, name)) {
      drop(Dropped::animation, node);
    } else if (is_kept(name)) {
      return true;
    } else if (!among(silent, name)) {
      drop(Dropped::unknown_element, node);
    }
    return false;
  }

  void children(pugi::xml_node node, bool in_text) {
    const std::string_view name = node.name();
    const bool words = in_text || name == "title" || name == "desc";
    for (pugi::xml_node child = node.first_child(); child;) {
      const pugi::xml_node here = child;
      child = child.next_sibling();
      if (here.type() == pugi::node_element) {
        element(here, in_text);
      } else if (here.type() == pugi::node_pi) {
        drop(Dropped::instruction, node);
        node.remove_child(here);
      } else if (here.type() != pugi::node_pcdata || !words) {
        node.remove_child(here);
      }
    }
  }

  void style_sheet(pugi::xml_node node) {
    const std::string_view type = node.attribute("type").value();
    std::string css;
    for (const pugi::xml_node child : node.children()) css += child.value();
    while (node.first_child()) node.remove_child(node.first_child());
    const std::string clean = type.empty() || type == "text/css"
                                  ? clean_style_sheet(css, [&](Dropped kind) { drop(kind, node); })
                                  : std::string();
    node.append_child(pugi::node_pcdata).set_value(clean.c_str());
  }

  void attributes(pugi::xml_node node, const std::string& name) {
    std::set<std::string, std::less<>> seen;
    std::string href;
    bool has_href = false, has_plain_href = false;
    for (pugi::xml_attribute a = node.first_attribute(); a;) {
      pugi::xml_attribute here = a;
      a = a.next_attribute();
      const auto [uri, local] = resolve(here.name(), true);
      if (local == "href" && (uri.empty() || uri == xlink_uri)) {
        // SVG 2, 16.1.2: href wins over xlink:href.
        if (uri.empty() ? !has_plain_href : !has_href) href = here.value();
        has_plain_href = has_plain_href || uri.empty();
        has_href = true;
        node.remove_attribute(here);
      } else if (!seen.insert(here.name()).second || !attribute_stays(node, here)) {
        node.remove_attribute(here);
      }
    }
    if (has_href) reference(node, name, href);
    identify(node);
  }

  bool attribute_stays(const pugi::xml_node& node, pugi::xml_attribute attribute) {
    const std::string_view name = attribute.name();
    const std::string_view value = attribute.value();
    if (name == "xml:space" || name == "xml:lang") return true;
    if (!plain_name(name)) return false;  // xmlns:*, xlink:*, and what programs keep for themselves
    const std::string small = small_letters(name);
    if (small.starts_with("on")) {
      drop(Dropped::handler, node);
      return false;
    }
    if (small == "xmlns" || small == "src" || small == "srcdoc" || small == "action" ||
        small == "formaction" || small == "ping" || small == "target" || small == "base")
      return false;
    if (name == "style") {
      const std::string clean = clean_declarations(value, [&](Dropped kind) { drop(kind, node); });
      if (clean != value) attribute.set_value(clean.c_str());
      return !clean.empty();
    }
    if (name == "class") {
      without_own_classes(attribute);
      return true;
    }
    if (name == "id" || name.starts_with("data-") || name == "d" || name == "points") return true;
    if (!harmless_value(value)) {
      drop(Dropped::css_value, node);
      return false;
    }
    return true;
  }

  // Classes beginning with "pw-" are the program's own, on labels and leaders.
  static void without_own_classes(pugi::xml_attribute attribute) {
    const std::string_view value = attribute.value();
    if (value.find("pw-") == std::string_view::npos) return;
    std::string out;
    for (std::size_t i = 0; i < value.size();) {
      const std::size_t end = std::min(value.find_first_of(" \t\r\n", i), value.size());
      const std::string_view word = value.substr(i, end - i);
      i = end + 1;
      if (word.empty() || word.starts_with("pw-")) continue;
      if (!out.empty()) out += ' ';
      out += word;
    }
    attribute.set_value(out.c_str());
  }

  void reference(pugi::xml_node node, const std::string& name, const std::string& href) {
    if (name == "a") {
      drop(Dropped::link, node);
      return;
    }
    const std::string_view target = trimmed(href);
    if (name == "image" || (name == "feImage" && !target.starts_with('#'))) {
      const std::string uri = inlined_image(target, document_.source.path, document_.at(node),
                                            limits_, budget_, dropped_, findings_);
      if (!uri.empty()) node.append_attribute("href").set_value(uri.c_str());
      return;
    }
    if (target.starts_with('#')) {
      node.append_attribute("href").set_value(std::string(target).c_str());
    } else if (!target.empty()) {
      drop(Dropped::reference, node);
    }
  }

  // Ids are unique in XML; one that names an anchor's marker is judged with the anchors.
  void identify(pugi::xml_node node) {
    const pugi::xml_attribute id = node.attribute("id");
    if (!id) return;
    const std::string_view value = id.value();
    if (ids_.insert(std::string(value)).second || value.starts_with("anchor-")) return;
    drop(Dropped::duplicate_id, node);
    node.remove_attribute(id);
  }

  SvgDocument& document_;
  const Limits& limits_;
  Findings& findings_;
  DropCount dropped_;
  ImageBudget budget_;
  std::vector<Binding> bindings_;
  std::set<std::string, std::less<>> ids_;
  bool no_namespace_ = false;
};

}  // namespace

void sanitise(SvgDocument& document, const Limits& limits, Findings& findings) {
  Sanitiser(document, limits, findings).run();
}

}  // namespace platewright::read
