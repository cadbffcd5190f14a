// Regions of a figure as documents of their own: the region, and what was drawn
// on it. What is a wanted region itself stays off the others, with its shading.
//
// How: every element of the figure is drawn alone on a small raster. An element
// drawn after a region whose pixels all lie on the region's belongs to it.
#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "base/quote.hpp"
#include "read/read.hpp"
#include "read/svg_document.hpp"
#include "read/svg_drawing.hpp"
#include "read/svg_ids.hpp"
#include "read/svg_use.hpp"

namespace platewright::read {
namespace {

constexpr int raster_side = 900;           // pixels
constexpr std::uint32_t part_alpha = 20;   // of 255
constexpr double least_share = 0.999;      // of an element's pixels that must lie on the region

using PixelSet = std::vector<std::uint32_t>;  // indices of painted pixels, sorted

bool parse(SvgDocument& document, const Figure& figure) {
  document.source.path = figure.name;
  document.source.text = figure.svg;
  document.source.line_starts = {0};
  const pugi::xml_parse_result parsed =
      document.tree.load_buffer(figure.svg.data(), figure.svg.size(),
                                pugi::parse_default | pugi::parse_ws_pcdata, pugi::encoding_utf8);
  return parsed && document.root();
}

// Drawn elements in document order, with how far each one's descendants reach.
struct Drawn {
  pugi::xml_node node;
  std::string id;
  std::size_t end = 0;  // one past the last descendant
};

void collect(pugi::xml_node node, IdMap& ids, std::vector<Drawn>& all) {
  for (pugi::xml_node child : node.children()) {
    const std::string_view name = child.name();
    if (child.type() != pugi::node_element || is_definition(name) || name == "title" ||
        name == "desc" || name == "style" || name == "metadata")
      continue;
    const std::size_t at = all.size();
    all.push_back({child, id_for(child, ids), 0});
    if (name != "text") collect(child, ids, all);
    all[at].end = all.size();
  }
}

class SeenParts {
 public:
  SeenParts(const Drawing& drawing, const RasterFrame& frame, const std::vector<Drawn>& drawn)
      : drawing_(drawing), frame_(frame), drawn_(drawn), sets_(drawn.size()) {}
  const PixelSet& pixels(std::size_t element) {
    auto& set = sets_[element];
    if (!set) {
      Pixels raster;
      drawing_.render(frame_, {0, 0, frame_.width, frame_.height}, drawn_[element].id, {}, raster);
      set.emplace();
      for (std::size_t i = 0; i < raster.argb.size(); ++i)
        if (raster.argb[i] >> 24 >= part_alpha) set->push_back(static_cast<std::uint32_t>(i));
    }
    return *set;
  }
  // The element's pixels, each with its eight neighbours.
  std::vector<bool> ground(std::size_t element) {
    std::vector<bool> out(
        static_cast<std::size_t>(frame_.width) * static_cast<std::size_t>(frame_.height), false);
    for (const std::uint32_t p : pixels(element)) {
      const int x = static_cast<int>(p) % frame_.width, y = static_cast<int>(p) / frame_.width;
      for (int dy = -1; dy <= 1; ++dy)
        for (int dx = -1; dx <= 1; ++dx)
          if (x + dx >= 0 && y + dy >= 0 && x + dx < frame_.width && y + dy < frame_.height)
            out[static_cast<std::size_t>(y + dy) * static_cast<std::size_t>(frame_.width) +
                static_cast<std::size_t>(x + dx)] = true;
    }
    return out;
  }

 private:
  const Drawing& drawing_;
  const RasterFrame& frame_;
  const std::vector<Drawn>& drawn_;
  std::vector<std::optional<PixelSet>> sets_;
};

// What was drawn after `region` and lies on it.
std::set<std::size_t> lying_on(std::size_t region, const std::vector<Drawn>& drawn,
                               SeenParts& seen) {
  const std::vector<bool> ground = seen.ground(region);
  std::set<std::size_t> on;
  for (std::size_t i = drawn[region].end; i < drawn.size();) {
    const PixelSet& pixels = seen.pixels(i);
    std::size_t inside = 0;
    for (const std::uint32_t p : pixels) inside += ground[p] ? 1 : 0;
    if (pixels.empty() || inside == 0) {
      i = drawn[i].end;
    } else if (static_cast<double>(inside) >= least_share * static_cast<double>(pixels.size())) {
      on.insert(i);
      i = drawn[i].end;
    } else {
      ++i;  // its children one by one
    }
  }
  return on;
}

// Leaves the ancestors of what is kept, what is kept, and all definitions.
void prune(pugi::xml_node node, const std::set<std::string, std::less<>>& kept) {
  for (pugi::xml_node child = node.first_child(); child;) {
    const pugi::xml_node here = child;
    child = child.next_sibling();
    const std::string_view name = here.name();
    if (here.type() != pugi::node_element || is_definition(name) || name == "style") continue;
    if (kept.contains(std::string_view(here.attribute("id").value()))) continue;
    bool holds = false;
    each_element(here, [&](pugi::xml_node inner) {
      holds = holds || kept.contains(std::string_view(inner.attribute("id").value()));
    });
    if (holds)
      prune(here, kept);
    else
      node.remove_child(here);
  }
}

}  // namespace

Result<std::vector<RegionPart>> region_parts(const Figure& figure,
                                             const std::vector<std::string>& anchors) {
  const auto refused = [&](const std::string& why) {
    return error("figure-undrawable", {figure.name, 0, 0},
                 "the figure cannot be drawn: " + escaped(why));
  };
  SvgDocument document;
  if (!parse(document, figure)) return refused("its document is not XML");
  IdMap ids = ids_of(document.root());
  std::vector<Drawn> drawn;
  collect(document.root(), ids, drawn);
  std::string why;
  const auto drawing = Drawing::load(to_text_without_size(document.root()), {}, why);
  if (!drawing) return refused(why);
  const RasterFrame frame = raster_frame(figure.view_box, raster_side);
  SeenParts seen(*drawing, frame, drawn);

  struct Wanted {
    std::string anchor;
    std::size_t element = 0;
    std::set<std::size_t> on;
  };
  std::vector<Wanted> wanted;
  Findings findings;
  for (const std::string& name : anchors) {
    const Anchor* anchor = figure.find(name);
    const auto at = std::find_if(drawn.begin(), drawn.end(), [&](const Drawn& d) {
      return anchor && !anchor->element_id.empty() && d.id == anchor->element_id;
    });
    if (at == drawn.end()) {
      findings.push_back(error("region-missing", {figure.name, 0, 0},
                               "the anchor " + in_quotes(name) + " is not a drawn region",
                               "mark a shape with data-anchor=" + in_quotes(name)));
      continue;
    }
    wanted.push_back({name, static_cast<std::size_t>(at - drawn.begin()), {}});
  }
  if (has_error(findings)) return findings;
  for (Wanted& w : wanted) w.on = lying_on(w.element, drawn, seen);

  std::vector<RegionPart> parts;
  for (const Wanted& w : wanted) {
    std::set<std::string, std::less<>> kept = {drawn[w.element].id};
    for (const std::size_t on : w.on) {
      const bool others = std::any_of(wanted.begin(), wanted.end(), [&](const Wanted& o) {
        if (o.element <= w.element || o.element < drawn[w.element].end) return false;
        const bool is_it = on <= o.element && o.element < drawn[on].end;
        return is_it || o.on.contains(on);
      });
      if (!others) kept.insert(drawn[on].id);
    }
    RegionPart part;
    part.anchor = w.anchor;
    part.order = w.element;
    const auto pruned = [&](const std::set<std::string, std::less<>>& these) {
      // The ids given above are given again, in the same order.
      SvgDocument copy;
      parse(copy, figure);
      IdMap copy_ids = ids_of(copy.root());
      std::vector<Drawn> again;
      collect(copy.root(), copy_ids, again);
      prune(copy.root(), these);
      return to_text(copy.root());
    };
    part.svg = pruned(kept);
    part.bare = pruned({drawn[w.element].id});
    parts.push_back(std::move(part));
  }
  return {std::move(parts), std::move(findings)};
}

}  // namespace platewright::read
