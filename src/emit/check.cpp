#include "emit/check.hpp"

#include <cmath>

#include "base/number.hpp"

namespace platewright::emit {
namespace {

// PDF Reference 1.6, appendix C: 3 to 14,400 units of 1/72 in a side.
constexpr double least_side = 3 * 25.4 / 72, most_side = 14'400 * 25.4 / 72;

bool finite(PagePoint p) { return std::isfinite(p.x) && std::isfinite(p.y); }
bool finite(const compose::Pen& pen) {
  if (!std::isfinite(pen.width) || pen.width < 0) return false;
  double sum = 0;
  for (const double d : pen.dashes) {
    if (!std::isfinite(d) || d < 0) return false;
    sum += d;
  }
  return pen.dashes.empty() || sum > 0;  // Cairo refuses dashes of no length at all
}

struct Finite {
  bool operator()(const compose::MoveTo& s) const { return finite(s.to); }
  bool operator()(const compose::LineTo& s) const { return finite(s.to); }
  bool operator()(const compose::CurveTo& s) const {
    return finite(s.control1) && finite(s.control2) && finite(s.to);
  }
  bool operator()(const compose::ClosePath&) const { return true; }

  bool operator()(const compose::PathItem& item) const {
    for (const compose::PathStep& step : item.steps)
      if (!std::visit(*this, step)) return false;
    return !item.pen || finite(*item.pen);
  }
  bool operator()(const compose::TextItem& item) const {
    const double size = item.line.font.size.mm();
    return finite(item.at) && std::isfinite(item.line.advance) && std::isfinite(size) && size > 0 &&
           (!item.outline || finite(*item.outline));
  }
  bool operator()(const compose::FigureItem& item) const {
    return finite(item.transform.origin) && std::isfinite(item.transform.scale) &&
           item.transform.scale > 0 && std::isfinite(item.tint) &&
           std::isfinite(item.outline_width) &&
           (!item.clip || (finite(PagePoint{item.clip->x, item.clip->y}) &&
                           std::isfinite(item.clip->w) && std::isfinite(item.clip->h)));
  }
  bool operator()(const compose::Group& group) const {
    for (const compose::PathStep& step : group.clip)
      if (!std::visit(*this, step)) return false;
    return std::isfinite(group.turn) && finite(group.pivot) && (*this)(group.items);
  }
  bool operator()(const std::vector<compose::Item>& items) const {
    for (const compose::Item& item : items)
      if (!std::visit(*this, item)) return false;
    return true;
  }
};

}  // namespace

double surround(const compose::Page& page) { return page.bleed + page.slug; }

Findings check(const compose::Document& document, std::size_t number) {
  if (number >= document.pages.size())
    return {error("page-missing", {},
                  "page " + std::to_string(number + 1) + " of " +
                      std::to_string(document.pages.size()) + " was asked for")};
  const compose::Page& page = document.pages[number];
  const auto side_fits = [&](double side) {
    const double whole = side + 2 * surround(page);
    return std::isfinite(whole) && side > 0 && whole >= least_side && whole <= most_side;
  };
  Findings findings;
  if (!side_fits(page.width) || !side_fits(page.height) || page.bleed < 0 || page.slug < 0) {
    const auto show = [](double v) { return std::isfinite(v) ? format_number(v) : "?"; };
    findings.push_back(error("page-size", {},
                             "a page of " + show(page.width) + " by " + show(page.height) +
                                 " mm with " + show(surround(page)) +
                                 " mm around it can't be written",
                             "keep each side between 1.1 and 5080 mm"));
  }
  if (!Finite{}(page.items))
    findings.push_back(error("page-not-finite", {},
                             "page " + std::to_string(number + 1) +
                                 " holds a place or a size that is not a number to draw with",
                             "please report this as a fault of platewright"));
  return findings;
}

}  // namespace platewright::emit
