#include "read/anchors_declared.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/nearest.hpp"
#include "base/number.hpp"
#include "base/quote.hpp"
#include "base/utf8.hpp"
#include "read/svg_use.hpp"

namespace platewright::read {
namespace {

constexpr std::string_view marker_prefix = "anchor-";

// White space and punctuation of Unicode's General Punctuation and neighbours;
// what else lies above ASCII is taken for a letter or a mark on one.
bool letter(char32_t c) {
  if (c < 0x80)
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
           c == '_' || c == '.';
  if (c < 0xc0) return c == 0xaa || c == 0xb5 || c == 0xba;
  if (c == 0xd7 || c == 0xf7 || c == 0x1680 || c == 0x3000 || c == 0xfeff) return false;
  if (c >= 0x2000 && c < 0x2070) return c == 0x200c || c == 0x200d;  // joiners belong to words
  return !(c >= 0x2190 && c < 0x2c00) && !(c >= 0x3001 && c < 0x3004) &&
         !(c >= 0xe000 && c < 0xf900);
}

class Collection {
 public:
  Collection(SvgDocument& document, Findings& findings)
      : document_(document), findings_(findings) {}

  void figure(pugi::xml_node node, bool within_marker) {
    const std::string_view id = node.attribute("id").value();
    const pugi::xml_attribute point = node.attribute("data-anchor-point");
    const pugi::xml_attribute region = node.attribute("data-anchor");
    const bool root = node == document_.root();
    if (!within_marker && !root && (point || id.starts_with(marker_prefix))) {
      within_marker = true;
      // Also without a good name: a marker is never printed.
      node.append_attribute(marker_attribute).set_value("yes");
      add(node, point ? std::string_view(point.value()) : id.substr(marker_prefix.size()),
          Declared::marker);
    } else if (!within_marker && region) {
      add(node, region.value(), Declared::region);
    }
    for (const pugi::xml_node child : node.children())
      if (child.type() == pugi::node_element) figure(child, within_marker);
  }

  void added(const AddedAnchor& anchor, const IdMap& ids) {
    if (!name_fits(anchor.name, anchor.declared)) return;
    if (anchor.region.empty()) {
      for (const FigurePoint& p : anchor.at)
        if (!std::isfinite(p.x) || !std::isfinite(p.y)) {
          findings_.push_back(error("anchor-point", anchor.declared,
                                    "anchor " + in_quotes(anchor.name) + " lies at no finite point",
                                    "give x and y in viewBox units"));
          return;
        }
      if (const auto index = declare(anchor.name, Declared::points, anchor.declared))
        declarations[*index].at = anchor.at;
      return;
    }
    const auto shape = ids.find(anchor.region);
    if (shape == ids.end()) {
      std::vector<std::string_view> known;
      for (const auto& [id, node] : ids) known.push_back(id);
      findings_.push_back(
          error("anchor-unknown-region", anchor.declared,
                "no shape in the figure has the id " + in_quotes(anchor.region),
                did_you_mean(anchor.region, known, "give the id of a drawn shape")));
      return;
    }
    pugi::xml_node node = shape->second;
    if (node.attribute(origin_attribute) || node.attribute(marker_attribute)) {
      findings_.push_back(error("anchor-duplicate", anchor.declared,
                                "the shape " + in_quotes(anchor.region) + " of anchor " +
                                    in_quotes(anchor.name) + " already has an anchor",
                                "remove one of the two"));
      return;
    }
    if (const auto index = declare(anchor.name, Declared::region, anchor.declared))
      mark(node, *index);
  }

  std::vector<AnchorDeclaration> declarations;

 private:
  bool name_fits(std::string_view name, const SourcePosition& at) {
    if (anchor_name_valid(name)) return true;
    findings_.push_back(error("anchor-name", at,
                              name.empty() ? std::string("an anchor without a name")
                                           : in_quotes(name) + " is no name for an anchor",
                              "use letters, digits, \"-\", \"_\" and \".\""));
    return false;
  }

  void add(pugi::xml_node node, std::string_view name, Declared kind) {
    const SourcePosition at = document_.at(node);
    if (!name_fits(name, at)) return;
    if (const auto index = declare(name, kind, at)) mark(node, *index);
  }

  std::optional<std::size_t> declare(std::string_view name, Declared kind,
                                     const SourcePosition& at) {
    const auto [known, fresh] = by_name_.emplace(name, declarations.size());
    if (!fresh) {
      Finding finding = error("anchor-duplicate", at,
                              "anchor " + in_quotes(name) + " is used twice", "rename one");
      finding.notes.push_back({declarations[known->second].position, "first used here"});
      findings_.push_back(std::move(finding));
      return std::nullopt;
    }
    declarations.push_back({std::string(name), kind, {}, at});
    return declarations.size() - 1;
  }

  static void mark(pugi::xml_node node, std::size_t index) {
    node.append_attribute(origin_attribute).set_value(static_cast<unsigned long long>(index));
  }

  SvgDocument& document_;
  Findings& findings_;
  std::map<std::string, std::size_t, std::less<>> by_name_;
};

}  // namespace

bool anchor_name_valid(std::string_view name) {
  if (name.empty() || name.size() > 200) return false;
  for (std::size_t i = 0; i < name.size();) {
    const auto character = utf8_at(name, i);
    if (!character || !letter(character->code)) return false;
    i += character->bytes;
  }
  return true;
}

std::vector<AnchorDeclaration> declared_anchors(SvgDocument& document, const IdMap& ids,
                                                const std::vector<AddedAnchor>& added,
                                                Findings& findings) {
  Collection collection(document, findings);
  // The program's own attributes are nobody else's to set.
  each_element(document.root(), [](pugi::xml_node node) {
    node.remove_attribute(origin_attribute);
    node.remove_attribute(marker_attribute);
  });
  collection.figure(document.root(), false);
  for (const AddedAnchor& anchor : added) collection.added(anchor, ids);
  return std::move(collection.declarations);
}

}  // namespace platewright::read
