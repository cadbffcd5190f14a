// A figure from bytes, step by step: text, tree, safe tree, regular root,
// anchors, pixels.
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <string>

#include "base/at_once.hpp"
#include "base/quote.hpp"
#include "read/anchors_declared.hpp"
#include "read/anchors_found.hpp"
#include "read/anchors_markers.hpp"
#include "read/anchors_regions.hpp"
#include "read/figure_grids.hpp"
#include "read/figure_version.hpp"
#include "read/insets.hpp"
#include "read/read.hpp"
#include "read/svg_document.hpp"
#include "read/svg_drawing.hpp"
#include "read/svg_ids.hpp"
#include "read/svg_root.hpp"
#include "read/svg_sanitise.hpp"
#include "read/svg_use.hpp"
#include "read/svg_weight.hpp"

namespace platewright::read {
namespace {

// The raster that silhouette, detail and regions are seen on: fine enough for
// a point inside any part that a label could name.
constexpr int look_side = 640;

Finding refused(const std::string& path, const std::string& why) {
  return error("figure-undrawable", {path, 0, 0}, "the figure cannot be drawn: " + escaped(why),
               "open it in a drawing program and save it anew");
}

std::string text_of(const pugi::xml_node& node) {
  std::string words;
  for (const pugi::xml_node child : node.children())
    if (child.type() == pugi::node_pcdata) words += child.value();
  std::string out;
  for (const char c : trimmed(words)) {
    const char plain = c == '\n' || c == '\r' || c == '\t' ? ' ' : c;
    if (plain != ' ' || out.empty() || out.back() != ' ') out += plain;
  }
  return out;
}

// The view box, once it is known to be one; the root is set to it.
std::optional<FigureBox> regular_root(SvgDocument& document, Findings& findings) {
  RootSize size = root_size(document, findings);
  const SourcePosition at = document.at(document.root());
  if (size.ask_ink) {
    tame_filters(document, {0, 0, 1000, 1000}, findings);
    std::string why;
    const auto drawing = Drawing::load(to_text(document.root()), {}, why);
    if (!drawing) {
      findings.push_back(refused(document.source.path, why));
      return std::nullopt;
    }
    size.box = drawing->ink_without_view();
    if (!size.box) {
      findings.push_back(error("figure-empty", at, "the figure paints nothing", "draw something"));
      return std::nullopt;
    }
  }
  if (!size.box || !check_view(*size.box, at, findings)) return std::nullopt;
  // As many decimals as are written.
  for (double* value : {&size.box->x, &size.box->y, &size.box->w, &size.box->h})
    *value = std::round(*value * 1e6) / 1e6;
  set_root(document, *size.box);
  return size.box;
}

void remove_markers(pugi::xml_node node) {
  for (pugi::xml_node child = node.first_child(); child;) {
    const pugi::xml_node here = child;
    child = child.next_sibling();
    if (here.attribute(marker_attribute)) {
      node.remove_child(here);
    } else {
      remove_markers(here);
    }
  }
}

// The document with changes of style, for measuring; the tree stays as it is.
std::string restyled_document(pugi::xml_node root, const IdMap& ids,
                              const std::vector<Restyled>& changes) {
  struct Old {
    pugi::xml_node node;
    bool there;
    std::string style;
  };
  std::vector<Old> before;
  for (const Restyled& change : changes) {
    const auto restyle = [&](pugi::xml_node node) {
      pugi::xml_attribute style = node.attribute("style");
      before.push_back({node, static_cast<bool>(style), style.value()});
      if (!style) style = node.append_attribute("style");
      style.set_value((before.back().style + ";" + change.declarations).c_str());
    };
    const auto node = ids.find(change.id);
    if (node == ids.end()) continue;
    if (change.with_content) {
      each_element(node->second, restyle);
    } else {
      restyle(node->second);
    }
  }
  std::string svg = to_text_without_size(root);
  // Backwards: an element may have been changed twice.
  for (auto old = before.rbegin(); old != before.rend(); ++old) {
    if (old->there) {
      old->node.attribute("style").set_value(old->style.c_str());
    } else {
      old->node.remove_attribute("style");
    }
  }
  const std::size_t end = svg.rfind("</svg>");
  if (end != std::string::npos) svg.insert(end, "<defs>" + flip_filters() + "</defs>");
  return svg;
}

struct Look {
  FigureGrid silhouette, detail;
  std::vector<MarkerPoint> markers;
  std::vector<FigureBox> insets;
  std::vector<DrawnRegion> regions;
  std::vector<Mask> masks;
  Pixels pixels;
};

// Leaves the tree fit for nothing else.
std::optional<Look> look(pugi::xml_node root, const RasterFrame& frame, IdMap& ids,
                         const ProbedMarkers& probed, std::vector<DrawnRegion> regions,
                         const std::vector<Inset>& insets, Findings& findings, std::string& why) {
  note_shapes(root, regions, ids);
  const RestyledDocument document = [&](const std::vector<Restyled>& changes) {
    return restyled_document(root, ids, changes);
  };
  const std::string svg = regions.empty() ? to_text_without_size(root) : document({});
  Look seen;
  bool drawn = false, parts_drawn = false;
  std::string why_not_parts;
  std::vector<Region> shapes;
  std::vector<RegionPaint> paints;
  // librsvg lets a drawing be used by one thread at a time, so each has its own.
  const auto draw_whole = [&] {
    const std::optional<Drawing> drawing = Drawing::load(svg, {}, why);
    if (!drawing) return;
    Pixels pixels;
    if (!drawing->render(frame, {0, 0, frame.width, frame.height}, "", {}, pixels)) {
      why = "it passes the limits of the drawing library";
      return;
    }
    seen.silhouette = silhouette(pixels, frame);
    seen.detail = detail(pixels, frame);
    seen.pixels = std::move(pixels);
    drawn = true;
  };
  const auto draw_parts = [&] {
    auto points = marker_points(probed, frame.view, why_not_parts);
    if (!points) return;
    seen.markers = std::move(*points);
    std::optional<Drawing> drawing = Drawing::load(svg, {}, why_not_parts);
    if (!drawing) return;
    seen.insets = inset_boxes(insets, *drawing, frame.view, findings);
    measure_regions(*drawing, frame.view, regions);
    if (std::ranges::any_of(regions, [](const DrawnRegion& r) { return !r.measured; })) {
      // A hidden region has no geometry until it is shown.
      std::string why_hidden;
      if (const auto shown = Drawing::load(svg, "*{display:inline !important}", why_hidden))
        measure_regions(*shown, frame.view, regions);
    }
    shapes.reserve(regions.size());
    for (const DrawnRegion& region : regions) shapes.push_back(region.region);
    if (!shapes.empty()) paints = region_paints(*drawing, frame, shapes);
    parts_drawn = true;
  };
  at_once(draw_whole, draw_parts);
  if (drawn && !parts_drawn) why = why_not_parts;
  if (!drawn || !parts_drawn) return std::nullopt;
  if (!shapes.empty())
    seen.masks = visible_masks(document, svg.size(), frame, seen.pixels, shapes, std::move(paints));
  seen.regions = std::move(regions);
  return seen;
}

}  // namespace

Result<Figure> figure(std::string_view bytes, const std::string& path,
                      const std::vector<AddedAnchor>& added, const Limits& limits,
                      const FigureVersion* version) {
  if (bytes.size() > limits.file_bytes)
    return error("file-large", {path, 0, 0},
                 "the figure is larger than " + std::to_string(limits.file_bytes >> 10) + " kB",
                 "make it smaller; embedded images are the usual cause");
  Result<SvgSource> source = decode_svg(bytes, path);
  if (!source) return source.findings();

  Findings findings;
  SvgDocument document;
  document.source = std::move(source).value();
  if (!parse_svg(document, limits, findings)) return findings;
  sanitise(document, limits, findings);
  if (has_error(findings)) return findings;

  IdMap ids = ids_of(document.root());
  std::vector<AddedAnchor> shown_added = added;
  std::vector<std::string> hidden;
  if (version != nullptr) {
    hidden = apply_version(document, ids, *version, shown_added, findings);
    if (has_error(findings)) return findings;
  }
  const std::vector<AnchorDeclaration> declarations =
      declared_anchors(document, ids, shown_added, findings);
  if (!check_references(document, ids, limits, findings)) return findings;
  if (!check_weight(document, findings)) return findings;
  const std::optional<FigureBox> view = regular_root(document, findings);
  if (!view) return findings;
  tame_filters(document, *view, findings);
  expand_uses(document.root(), ids);
  // Reuse counts anew what it copies.
  if (!check_weight(document, findings)) return findings;
  ids = ids_of(document.root());

  std::string why;
  const ProbedMarkers probed = probed_markers(document);
  remove_markers(document.root());
  ids = ids_of(document.root());
  std::vector<DrawnRegion> regions = drawn_regions(document.root(), ids);
  const std::vector<Inset> insets = declared_insets(document, ids);
  each_element(document.root(),
               [](pugi::xml_node node) { node.remove_attribute(origin_attribute); });

  Figure figure;
  figure.name = std::filesystem::path(path).stem().string();
  figure.title = text_of(document.root().child("title"));
  figure.description = text_of(document.root().child("desc"));
  figure.view_box = *view;
  figure.svg = to_text(document.root());

  const RasterFrame frame = raster_frame(*view, look_side);
  std::optional<Look> seen =
      look(document.root(), frame, ids, probed, std::move(regions), insets, findings, why);
  if (!seen) {
    findings.push_back(refused(path, why));
    return findings;
  }
  figure.silhouette = std::move(seen->silhouette);
  figure.detail = std::move(seen->detail);
  figure.insets = std::move(seen->insets);
  figure.painted = painted_box(figure.silhouette);
  if (figure.painted.w <= 0)
    findings.push_back(error("figure-empty", document.at(document.root()),
                             "the figure paints nothing within its viewBox",
                             "check the viewBox, and that layers are shown"));
  figure.hidden = std::move(hidden);
  figure.anchors = found_anchors(declarations, seen->markers, seen->regions, seen->masks,
                                 seen->pixels, frame, findings);
  if (has_error(findings)) return findings;
  return {std::move(figure), std::move(findings)};
}

}  // namespace platewright::read
