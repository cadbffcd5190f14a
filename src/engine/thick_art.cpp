#include "engine/thick_art.hpp"

#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "read/thick_lines.hpp"

namespace platewright {
namespace {

// Lines come out at most so much thicker than they need be, so that pictures of nearly one size
// share a document.
constexpr double step = 1.25;

class Thickening {
 public:
  Thickening(double least, emit::ArtSource& art) : least_(least), art_(art) {}

  void look(std::vector<compose::Item>& items) {
    for (compose::Item& item : items) {
      if (auto* group = std::get_if<compose::Group>(&item)) look(group->items);
      auto* figure = std::get_if<compose::FigureItem>(&item);
      if (figure == nullptr || (figure->part < 0 && figure->art != compose::Art::painted)) continue;
      figure->part = document_for(figure->part, least_ / figure->transform.scale);
    }
  }

 private:
  struct Known {
    double wide = 0;  // its lines are surely that wide
    std::optional<std::optional<read::LineWidths>> lines;
  };

  const std::string& svg_of(int part) const {
    return part < 0 ? art_.figure->svg : art_.parts[static_cast<std::size_t>(part)];
  }

  // The document that shows `part` with lines of `width` figure units at least.
  int document_for(int part, double width) {
    const auto known = made_.find({part, step_of(width)});
    if (known != made_.end()) return known->second;
    Known& about = known_[part];
    if (width <= about.wide) return part;
    if (!about.lines) {
      if (read::surely_wide(svg_of(part), width)) {
        about.wide = width;
        return part;
      }
      about.lines = read::line_widths(svg_of(part), art_.figure->view_box);
    }
    int shown = part;
    if (*about.lines) {
      // Thick enough as they are, or for the largest of those that share the document.
      if (auto svg = read::with_least_line(**about.lines, width)) {
        svg = read::with_least_line(**about.lines, std::pow(step, step_of(width)));
        shown = static_cast<int>(art_.parts.size());
        art_.parts.push_back(std::move(*svg));
      } else {
        return part;
      }
    }
    return made_[{part, step_of(width)}] = shown;
  }

  static int step_of(double width) {
    return static_cast<int>(std::ceil(std::log(width) / std::log(step) - 1e-9));
  }

  double least_;
  emit::ArtSource& art_;
  std::map<int, Known> known_;
  std::map<std::pair<int, int>, int> made_;
};

}  // namespace

void thicken_lines(std::span<compose::Page* const> pages, Length least, emit::ArtSource& art) {
  if (!(least.mm() > 0) || art.figure == nullptr) return;
  Thickening thickening(least.mm(), art);
  for (compose::Page* page : pages) thickening.look(page->items);
}

void thicken_lines(compose::Document& document, Length least, emit::ArtSource& art) {
  std::vector<compose::Page*> pages;
  for (compose::Page& page : document.pages) pages.push_back(&page);
  thicken_lines(pages, least, art);
}

}  // namespace platewright
