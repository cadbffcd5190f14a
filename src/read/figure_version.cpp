#include "read/figure_version.hpp"

#include <algorithm>
#include <set>

#include "base/nearest.hpp"
#include "base/quote.hpp"
#include "read/svg_use.hpp"

namespace platewright::read {
namespace {

std::set<std::string> classes_of(pugi::xml_node root) {
  std::set<std::string> classes;
  each_element(root, [&](pugi::xml_node node) {
    const std::string_view written = node.attribute("class").value();
    for (std::size_t at = 0; at < written.size();) {
      const std::size_t start = written.find_first_not_of(" \t\r\n", at);
      if (start == std::string_view::npos) break;
      const std::size_t end = std::min(written.find_first_of(" \t\r\n", start), written.size());
      classes.emplace(written.substr(start, end - start));
      at = end;
    }
  });
  return classes;
}

// A name as CSS writes it: what is no letter or digit is escaped by its code
// (CSS Syntax Module Level 3, 4.3.7).
std::string css_name(std::string_view name) {
  std::string out;
  for (std::size_t i = 0; i < name.size(); ++i) {
    const auto c = static_cast<unsigned char>(name[i]);
    const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c >= 0x80;
    const bool later = i > 0 && ((c >= '0' && c <= '9') || c == '-');
    if (letter || later) {
      out += name[i];
    } else {
      constexpr std::string_view digits = "0123456789abcdef";
      out += '\\';
      out += digits[c >> 4U];
      out += digits[c & 15U];
      out += ' ';
    }
  }
  return out;
}

Finding unknown(const NamedAt& wanted, const char* code, const char* what,
                const std::vector<std::string_view>& known, const std::string& file) {
  return error(code, wanted.at,
               in_quotes(file) + " has no " + what + ' ' + in_quotes(wanted.name),
               did_you_mean(wanted.name, known,
                            known.empty() ? "the figure has none" : "known: " + listed(known)));
}

std::string tints(pugi::xml_node root, const FigureVersion& version, const std::string& file,
                  Findings& findings) {
  const std::set<std::string> classes = classes_of(root);
  const std::vector<std::string_view> known(classes.begin(), classes.end());
  std::string css;
  for (const auto& [name, colour] : version.tints) {
    if (!classes.contains(name.name)) {
      findings.push_back(unknown(name, "version-class-unknown", "class", known, file));
      continue;
    }
    css += '.' + css_name(name.name) + "{fill:" + to_hex(colour) + " !important}";
  }
  return css;
}

void add_style(pugi::xml_node root, const std::string& css) {
  pugi::xml_node style = root.append_child("style");
  style.append_child(pugi::node_pcdata).set_value(css.c_str());
}

// Takes the anchors of a part that is not shown.
void undeclare(pugi::xml_node part, std::set<std::string>& hidden) {
  constexpr std::string_view prefix = "anchor-";
  each_element(part, [&](pugi::xml_node node) {
    for (const char* attribute : {"data-anchor", "data-anchor-point"})
      if (const pugi::xml_attribute a = node.attribute(attribute)) {
        hidden.emplace(a.value());
        node.remove_attribute(a);
      }
    const std::string_view id = node.attribute("id").value();
    if (id.starts_with(prefix)) {
      hidden.emplace(id.substr(prefix.size()));
      node.attribute("id").set_value(("unseen-" + std::string(id)).c_str());
    }
  });
}

}  // namespace

std::vector<std::string> apply_version(SvgDocument& document, const IdMap& ids,
                                       const FigureVersion& version,
                                       std::vector<AddedAnchor>& added, Findings& findings) {
  std::vector<std::string_view> known_ids;
  for (const auto& [id, node] : ids) known_ids.push_back(id);

  std::string css;
  std::set<std::string> hidden;
  for (const NamedAt& part : version.hide) {
    const auto node = ids.find(part.name);
    if (node == ids.end()) {
      findings.push_back(unknown(part, "version-id-unknown", "element with the id", known_ids,
                                 document.source.path));
      continue;
    }
    css += '#' + css_name(part.name) + "{display:none !important}";
    // Before the part's own anchors go: regions of the terms file may lie in it.
    std::set<std::string> inside;
    each_element(node->second,
                 [&](pugi::xml_node n) { inside.emplace(n.attribute("id").value()); });
    std::erase_if(added, [&](const AddedAnchor& anchor) {
      const bool gone = !anchor.region.empty() && inside.contains(anchor.region);
      if (gone) hidden.insert(anchor.name);
      return gone;
    });
    undeclare(node->second, hidden);
  }
  for (const NamedAt& part : version.show) {
    if (!ids.contains(part.name)) {
      findings.push_back(unknown(part, "version-id-unknown", "element with the id", known_ids,
                                 document.source.path));
      continue;
    }
    css += '#' + css_name(part.name) + "{display:inline !important}";
  }
  css += tints(document.root(), version, document.source.path, findings);
  if (!css.empty()) add_style(document.root(), css);
  return {hidden.begin(), hidden.end()};
}

Result<std::string> tinted_art(const Figure& figure, const FigureVersion& version,
                               const std::string& path) {
  Findings findings;
  SvgDocument document;
  if (!document.tree.load_buffer(figure.svg.data(), figure.svg.size(), pugi::parse_default | pugi::parse_ws_pcdata))
    return error("figure-undrawable", {path, 0, 0}, "the figure cannot be tinted");
  const std::string css = tints(document.root(), version, path, findings);
  if (has_error(findings)) return findings;
  if (!css.empty()) add_style(document.root(), css);
  return to_text(document.root());
}

}  // namespace platewright::read
