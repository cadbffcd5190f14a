#include "read/region_mask.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <span>
#include <tuple>
#include <utility>

#include "base/at.hpp"
#include "base/at_once.hpp"
#include "read/region_pixels.hpp"

namespace platewright::read {
namespace {

// A region that others lie within is pointed at beside them, where this much of it is left.
constexpr double least_rest = 0.15;

// Colours that no two of are alike, nor after a light shade has been laid over.
struct Dye {
  const char* name;
  std::uint32_t argb;
};
constexpr std::array<Dye, 6> palette = {{{"#f0f", 0xffff00ff},
                                         {"#0f0", 0xff00ff00},
                                         {"#00f", 0xff0000ff},
                                         {"#ff0", 0xffffff00},
                                         {"#0ff", 0xff00ffff},
                                         {"#f00", 0xffff0000}}};

using Paint = RegionPaint;
static_assert(std::tuple_size_v<decltype(Paint::has_colour)> == palette.size());

Paint paint_of(const Drawing& drawing, const RasterFrame& frame, const Region& region) {
  const PixelBox window = frame.pixels(region.box, 2);
  if (window.w == 0 || window.h == 0) return {};
  Pixels pixels;
  drawing.render(frame, window, region.id, {}, pixels);
  Paint paint{trimmed_to_content(painted(pixels, window)), {}};
  std::array<std::size_t, palette.size()> near{};
  // Neighbours are mostly alike, so runs of one colour are looked at.
  for (std::size_t i = 0; i < pixels.argb.size();) {
    const std::uint32_t pixel = pixels.argb[i];
    const std::size_t start = i;
    while (i < pixels.argb.size() && pixels.argb[i] == pixel) ++i;
    if (!is_paint(pixel)) continue;
    for (std::size_t k = 0; k < palette.size(); ++k)
      if (apart(pixel, palette[k].argb) < 80) near[k] += i - start;
  }
  for (std::size_t k = 0; k < palette.size(); ++k)
    paint.has_colour[k] = near[k] * 20 > paint.mask.count();
  return paint;
}

// Finds out which shapes have a fill; the drawing shows nothing else afterwards.
void ask_fill(Drawing& drawing, const FigureBox& view, std::vector<Region>& regions) {
  drawing.restyle(
      "*{opacity:1 !important;mask:none !important;clip-path:none !important;"
      "stroke:none !important}");
  for (Region& region : regions)
    for (RegionShape& shape : region.shapes) shape.filled = drawing.paints(shape.id, view);
}

// Regions whose paint does not meet: one colour tells them all.
struct Class {
  std::vector<std::size_t> members;
  std::vector<std::uint8_t> taken;  // of the whole raster
};

std::size_t place(const RasterFrame& frame, int x, int y) {
  return static_cast<std::size_t>(y) * static_cast<std::size_t>(frame.width) +
         static_cast<std::size_t>(x);
}

bool meets(const Class& group, const Mask& mask, const RasterFrame& frame) {
  const PixelBox& w = mask.window;
  const auto wide = static_cast<std::size_t>(w.w);
  for (int y = 0; y < w.h; ++y) {
    const std::uint8_t* inside = &mask.inside[static_cast<std::size_t>(y) * wide];
    const std::uint8_t* taken = &group.taken[place(frame, w.x, w.y + y)];
    std::uint8_t both = 0;
    for (std::size_t x = 0; x < wide; ++x) both |= inside[x] & taken[x];
    if (both != 0) return true;
  }
  return false;
}

void take(Class& group, const Mask& mask, const RasterFrame& frame) {
  const PixelBox& w = mask.window;
  for (int y = 0; y < w.h; ++y)
    for (int x = 0; x < w.w; ++x)
      group.taken[place(frame, w.x + x, w.y + y)] |=
          mask.inside[static_cast<std::size_t>(y * w.w + x)];
}

// Class k has colour k of the palette, over and over; a region is put in no
// class whose colour it has itself. Regions that fit in none of `most` are left out.
std::vector<Class> classes(const std::vector<Paint>& paints, const std::vector<std::size_t>& which,
                           const RasterFrame& frame, std::size_t most) {
  std::vector<Class> groups;
  for (const std::size_t i : which) {
    const Mask& mask = paints[i].mask;
    if (mask.inside.empty()) continue;
    for (std::size_t k = 0; k < most; ++k) {
      if (k == groups.size())
        groups.push_back({{}, std::vector<std::uint8_t>(place(frame, 0, frame.height))});
      if (paints[i].has_colour[k % palette.size()] || meets(groups[k], mask, frame)) continue;
      groups[k].members.push_back(i);
      take(groups[k], mask, frame);
      break;
    }
  }
  return groups;
}

// Changes that give a region another colour.
//
// The stroke of a filled shape stays: leaders end inside, not on the outline. A
// shape that has neither gets a stroke, but nothing of the region is looked for
// where it paints nothing.
void recolour(const Region& region, const char* colour, std::vector<Restyled>& changes) {
  if (!region.plain) {
    // Without !important, with which librsvg 2.54 does not read a filter.
    changes.push_back(
        {region.id, std::string("filter:url(#pw-flip") + (region.thin ? "-thin)" : ")")});
    return;
  }
  for (const RegionShape& shape : region.shapes)
    changes.push_back(
        {shape.id, std::string(shape.filled ? "fill:" : "stroke:") + colour + " !important", true});
}

// Another region may be what changed a pixel: the nearest colour tells.
bool other_is_nearer(std::span<const Class> groups, std::size_t k, std::size_t at,
                     std::uint32_t pixel) {
  if (pixel == palette[k].argb) return false;
  const int mine = apart(pixel, palette[k].argb);
  for (std::size_t other = 0; other < groups.size(); ++other)
    if (other != k && groups[other].taken[at] && apart(pixel, palette[other].argb) < mine)
      return true;
  return false;
}

// One picture with the regions of up to six classes recoloured.
struct Recoloured {
  std::span<const Class> groups;
  std::string svg;
};

Recoloured recoloured(const RestyledDocument& document, const std::vector<Region>& regions,
                      std::span<const Class> groups) {
  std::vector<Restyled> changes;
  for (std::size_t k = 0; k < groups.size(); ++k)
    for (const std::size_t i : groups[k].members) recolour(regions[i], palette[k].name, changes);
  return {groups, changes.empty() ? std::string() : document(changes)};
}

// Pixel rows from `top` to below `bottom` of some places.
std::vector<PixelBox> band_of(const std::vector<PixelBox>& places, int top, int bottom) {
  std::vector<PixelBox> in_band;
  for (const PixelBox& box : places) {
    const int from = std::max(box.y, top), to = std::min(box.y + box.h, bottom);
    if (from < to) in_band.push_back({box.x, from, box.w, to - from});
  }
  return in_band;
}

// Draws it and fills in where the regions show.
void see(const Recoloured& picture, const RasterFrame& frame, const Pixels& whole,
         const std::vector<Paint>& paints, std::vector<Mask>& masks) {
  if (picture.svg.empty()) return;
  const std::span<const Class> groups = picture.groups;
  std::vector<PixelBox> places;
  std::vector<std::pair<std::size_t, std::size_t>> members;  // class, region
  for (std::size_t k = 0; k < groups.size(); ++k)
    for (const std::size_t i : groups[k].members) {
      places.push_back(paints[i].mask.window);
      members.emplace_back(k, i);
    }
  // Half of the places each, so that two can draw.
  std::size_t area = 0;
  for (const PixelBox& box : places) area += at(box.w * box.h);
  int middle = 0;
  for (std::size_t above = 0; middle < frame.height && above * 2 < area; ++middle)
    for (const PixelBox& box : places)
      above += box.y <= middle && middle < box.y + box.h ? at(box.w) : 0;
  struct Band {
    std::vector<PixelBox> places;
    Pixels pixels;
    bool drawn = true;
  };
  std::array<Band, 2> bands;
  bands[0].places = band_of(places, 0, middle);
  bands[1].places = band_of(places, middle, frame.height);
  each_at_once(bands.size(), [&](std::size_t b) {
    Band& band = bands[b];
    if (band.places.empty()) return;
    std::string why;
    const auto drawing = Drawing::load(picture.svg, {}, why);
    band.drawn = drawing.has_value();
    if (drawing)
      drawing->render(frame, {0, 0, frame.width, frame.height}, "", band.places, band.pixels);
  });
  if (!bands[0].drawn || !bands[1].drawn) return;

  each_at_once(members.size(), [&](std::size_t m) {
    const auto [k, i] = members[m];
    Mask seen = paints[i].mask;
    const PixelBox& w = seen.window;
    for (int y = 0; y < w.h; ++y) {
      const std::vector<std::uint32_t>& drawn = bands[w.y + y < middle ? 0 : 1].pixels.argb;
      for (int x = 0; x < w.w; ++x) {
        std::uint8_t& inside = seen.inside[at(y * w.w + x)];
        if (!inside) continue;
        const std::size_t pixel_at = place(frame, w.x + x, w.y + y);
        const std::uint32_t pixel = drawn[pixel_at];
        if (!differs(whole.argb[pixel_at], pixel) ||
            (groups.size() > 1 && other_is_nearer(groups, k, pixel_at, pixel)))
          inside = 0;
      }
    }
    masks[i] = trimmed_to_content(seen);
  });
}

// A region that is little more than its parts is to be seen where they are.
void join_parts(const std::vector<Region>& regions, std::vector<Mask>& masks) {
  std::vector<Mask> parts(regions.size());
  for (std::size_t j = 0; j < regions.size(); ++j)
    for (const int i : regions[j].within) {
      Mask& sum = parts[static_cast<std::size_t>(i)];
      sum = joined(sum, masks[j]);
    }
  for (std::size_t i = 0; i < regions.size(); ++i) {
    if (parts[i].inside.empty()) continue;
    Mask all = joined(masks[i], parts[i]);
    if (static_cast<double>(masks[i].count()) < least_rest * static_cast<double>(all.count()))
      masks[i] = std::move(all);
  }
}

// What shows nowhere counts by its filled geometry, hidden or not.
void fill_in_unseen(const RestyledDocument& document, const RasterFrame& frame,
                    const std::vector<Region>& regions, std::vector<Mask>& masks) {
  std::vector<Restyled> changes;
  for (std::size_t i = 0; i < regions.size(); ++i)
    if (masks[i].inside.empty())
      changes.push_back({regions[i].id, "fill:#000 !important;fill-opacity:1 !important", true});
  if (changes.empty()) return;
  std::string why;
  const auto shown = Drawing::load(document(changes),
                                   "*{display:inline !important;visibility:visible !important;"
                                   "opacity:1 !important}",
                                   why);
  if (!shown) return;
  for (std::size_t i = 0; i < regions.size(); ++i)
    if (masks[i].inside.empty()) masks[i] = paint_of(*shown, frame, regions[i]).mask;
}

}  // namespace

std::string flip_filters() {
  // Each channel becomes full where it was below half and nothing where it was
  // above: a change of at least half the range for any colour.
  const std::string rest =
      "<feComponentTransfer><feFuncR type=\"discrete\" tableValues=\"1 0\"/>"
      "<feFuncG type=\"discrete\" tableValues=\"1 0\"/><feFuncB type=\"discrete\" "
      "tableValues=\"1 0\"/></feComponentTransfer></filter>";
  return "<filter id=\"pw-flip\" color-interpolation-filters=\"sRGB\" x=\"-.2\" y=\"-.2\" "
         "width=\"1.4\" height=\"1.4\">" +
         rest +
         "<filter id=\"pw-flip-thin\" color-interpolation-filters=\"sRGB\" "
         "filterUnits=\"userSpaceOnUse\" x=\"-1000000\" y=\"-1000000\" width=\"2000000\" "
         "height=\"2000000\">" +
         rest;
}

std::vector<RegionPaint> region_paints(Drawing& drawing, const RasterFrame& frame,
                                       std::vector<Region>& regions) {
  std::vector<Paint> paints;
  paints.reserve(regions.size());
  for (const Region& region : regions) paints.push_back(paint_of(drawing, frame, region));
  ask_fill(drawing, frame.view, regions);
  return paints;
}

std::vector<Mask> visible_masks(const RestyledDocument& document, std::size_t bytes,
                                const RasterFrame& frame, const Pixels& whole,
                                const std::vector<Region>& regions,
                                std::vector<RegionPaint> paints) {
  std::vector<Mask> masks(regions.size());
  std::vector<std::size_t> plain, others;
  for (std::size_t i = 0; i < regions.size(); ++i) (regions[i].plain ? plain : others).push_back(i);
  // A very heavy figure gets fewer pictures; the regions left over count as if
  // nothing lay above them.
  const std::size_t most =
      std::clamp<std::size_t>(20'000'000 / std::max<std::size_t>(bytes, 1), 2, 8);
  std::vector<bool> drawn(regions.size());
  const auto look_at = [&](const std::vector<Class>& groups, std::size_t at_a_time) {
    for (std::size_t first = 0; first < groups.size(); first += at_a_time)
      see(recoloured(document, regions,
                     std::span(groups).subspan(first, std::min(at_a_time, groups.size() - first))),
          frame, whole, paints, masks);
    for (const Class& group : groups)
      for (const std::size_t i : group.members) drawn[i] = true;
  };
  look_at(classes(paints, plain, frame, most * palette.size()), palette.size());
  look_at(classes(paints, others, frame, most), 1);
  for (std::size_t i = 0; i < regions.size(); ++i)
    if (!drawn[i]) masks[i] = std::move(paints[i].mask);
  join_parts(regions, masks);
  fill_in_unseen(document, frame, regions, masks);
  return masks;
}

}  // namespace platewright::read
