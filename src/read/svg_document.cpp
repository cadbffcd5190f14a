#include "read/svg_document.hpp"

#include <string>

#include "base/quote.hpp"
#include "read/svg_entities.hpp"

namespace platewright::read {
namespace {

constexpr unsigned int options = pugi::parse_cdata | pugi::parse_doctype | pugi::parse_pi |
                                 pugi::parse_eol | pugi::parse_wconv_attribute |
                                 pugi::parse_ws_pcdata;

// Next node in document order, without recursion: the depth is not yet known to be sane.
pugi::xml_node next_node(pugi::xml_node node, int& depth) {
  if (node.first_child()) {
    ++depth;
    return node.first_child();
  }
  while (node && !node.next_sibling()) {
    node = node.parent();
    --depth;
  }
  return node.next_sibling();
}

bool within_limits(const SvgDocument& document, const Limits& limits, Findings& findings) {
  std::size_t elements = 0;
  int depth = 0;
  for (pugi::xml_node node = document.tree.first_child(); node; node = next_node(node, depth)) {
    if (node.type() != pugi::node_element) continue;
    if (depth + 1 > limits.depth) {
      findings.push_back(
          error("xml-deep", document.at(node),
                "elements are nested more than " + std::to_string(limits.depth) + " deep",
                "ungroup what needs no group"));
      return false;
    }
    if (++elements > limits.elements) {
      findings.push_back(
          error("xml-elements", document.at(node),
                "the figure has more than " + std::to_string(limits.elements) + " elements",
                "simplify it"));
      return false;
    }
  }
  return true;
}

Finding entity_finding(const Entities& entities, const SourcePosition& at) {
  const std::string name = in_quotes(std::string("&").append(entities.culprit()).append(";"));
  switch (entities.fault()) {
    case EntityFault::unknown:
      return error("entity-unknown", at, "the entity " + name + " is not declared",
                   "write the character itself");
    case EntityFault::external:
      return error("entity-external", at,
                   "the entity " + name + " stands outside the file, and nothing outside is read",
                   "write its content into the figure");
    case EntityFault::markup:
      return error("entity-markup", at, "the entity " + name + " holds elements, which is not read",
                   "write the elements where the entity stands");
    case EntityFault::bomb:
      return error("entity-bomb", at,
                   "entities such as " + name + " grow beyond what any figure needs",
                   "remove the document type from the file");
    case EntityFault::character:
      return error("xml-malformed", at, name + " is no character that XML allows", "remove it");
    case EntityFault::malformed:
      break;
  }
  return error("xml-malformed", at,
               "\"&\" before " + in_quotes(entities.culprit(), 20) + " begins no entity",
               "write \"&amp;\" for the sign itself");
}

void expand_entities(SvgDocument& document, Findings& findings) {
  Entities entities;
  for (const pugi::xml_node child : document.tree.children())
    if (child.type() == pugi::node_doctype) entities = Entities(child.value());
  int depth = 0;
  for (pugi::xml_node node = document.tree.first_child(); node; node = next_node(node, depth)) {
    if (node.type() == pugi::node_pcdata) {
      const std::string_view text = node.value();
      if (text.find('&') == std::string_view::npos) continue;
      const auto expanded = entities.expand(text);
      if (expanded) {
        node.set_value(expanded->c_str());
      } else {
        findings.push_back(entity_finding(entities, document.at(node.parent())));
        if (entities.fault() == EntityFault::bomb) return;
      }
    }
    for (pugi::xml_attribute attribute : node.attributes()) {
      const std::string_view text = attribute.value();
      if (text.find('&') == std::string_view::npos) continue;
      const auto expanded = entities.expand(text);
      if (expanded) {
        attribute.set_value(expanded->c_str());
      } else {
        findings.push_back(entity_finding(entities, document.at(node)));
        if (entities.fault() == EntityFault::bomb) return;
      }
    }
  }
}

void cdata_to_text(pugi::xml_document& tree) {
  int depth = 0;
  pugi::xml_node node = tree.first_child();
  while (node) {
    const pugi::xml_node here = node;
    node = next_node(node, depth);
    if (here.type() != pugi::node_cdata) continue;
    pugi::xml_node parent = here.parent();
    parent.insert_child_before(pugi::node_pcdata, here).set_value(here.value());
    parent.remove_child(here);
  }
}

class StringWriter final : public pugi::xml_writer {
 public:
  void write(const void* data, std::size_t size) override {
    text.append(static_cast<const char*>(data), size);
  }
  std::string text;
};

}  // namespace

SourcePosition SvgDocument::at(const pugi::xml_node& node) const {
  const std::ptrdiff_t offset = node.offset_debug();
  if (offset < 1) return {source.path, 0, 0};
  // The offset is that of the name; the tag begins with the sign before it.
  return source.at(static_cast<std::size_t>(offset) - 1);
}

bool parse_svg(SvgDocument& document, const Limits& limits, Findings& findings) {
  const SvgSource& source = document.source;
  const pugi::xml_parse_result parsed = document.tree.load_buffer(
      source.text.data(), source.text.size(), options, pugi::encoding_utf8);
  if (!parsed) {
    std::string why = parsed.description();
    if (!why.empty() && why.front() >= 'A' && why.front() <= 'Z')
      why.front() = static_cast<char>(why.front() - 'A' + 'a');
    findings.push_back(error("xml-malformed", source.at(static_cast<std::size_t>(parsed.offset)),
                             "the file is not well-formed XML: " + why,
                             "open it in a drawing program and save it anew"));
    return false;
  }
  if (!within_limits(document, limits, findings)) return false;
  pugi::xml_node second = document.root().next_sibling();
  while (second && second.type() != pugi::node_element) second = second.next_sibling();
  if (second)
    findings.push_back(error("xml-malformed", document.at(second),
                             "a second root element; XML allows one", "remove it"));
  expand_entities(document, findings);
  cdata_to_text(document.tree);
  return !has_error(findings);
}

std::string to_text(const pugi::xml_node& root) {
  StringWriter writer;
  root.print(writer, "", pugi::format_raw | pugi::format_no_declaration, pugi::encoding_utf8);
  return std::move(writer.text);
}

std::string to_text_without_size(pugi::xml_node root) {
  const std::string width = root.attribute("width").value(),
                    height = root.attribute("height").value();
  root.remove_attribute("width");
  root.remove_attribute("height");
  std::string text = to_text(root);
  root.append_attribute("width").set_value(width.c_str());
  root.append_attribute("height").set_value(height.c_str());
  return text;
}

}  // namespace platewright::read
