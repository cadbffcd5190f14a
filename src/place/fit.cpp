#include <algorithm>
#include <cmath>
#include <limits>

#include "place/arrangement.hpp"
#include "place/two_sides.hpp"

namespace platewright::place {
namespace {

constexpr double wrap_worth = 0.1;   // share of the scale that all labels unwrapped are worth
constexpr double crowd_worth = 0.4;  // and a column filled from `roomy_fill` to the brim
constexpr double roomy_fill = 0.55;
constexpr long few_patience = 300;  // for each pair of few labels: those are soon untangled
constexpr double coarse = 2.0;  // mm between slots while sizes are searched

struct Widths {
  double narrowest = 0;  // every label has a variant that fits
  double natural = 0;    // widest of the natural variants
  std::vector<double> caps;
};

Widths widths_of(const FitRequest& request, const Arrangement& a) {
  Widths w;
  std::vector<Variant> scratch;
  std::vector<double> all;
  for (std::size_t i = 0; i < request.labels.size(); ++i) {
    double least = std::numeric_limits<double>::infinity();
    const auto& variants = variants_of(request, a, i, scratch);
    for (const Variant& v : variants) {
      least = std::min(least, v.width);
      all.push_back(v.width);
    }
    w.narrowest = std::max(w.narrowest, least);
    w.natural = std::max(w.natural, variants.front().width);
  }
  std::sort(all.begin(), all.end());
  for (const double width : all)
    if (width >= w.narrowest - 1e-9 && (w.caps.empty() || width > w.caps.back() + 1.0))
      w.caps.push_back(width);
  if (!w.caps.empty() && w.caps.back() < all.back()) w.caps.back() = all.back();
  if (w.caps.size() > 12) {
    std::vector<double> some;
    for (std::size_t k = 0; k < 12; ++k) some.push_back(w.caps[k * (w.caps.size() - 1) / 11]);
    w.caps = std::move(some);
  }
  return w;
}

// Share of the labels that wrap when no box may be wider than this, and the
// height all boxes need at least.
void pressure(const FitRequest& request, const Arrangement& a, double cap, double& wrapped,
              double& height) {
  std::vector<Variant> scratch;
  wrapped = height = 0;
  for (std::size_t i = 0; i < request.labels.size(); ++i) {
    const auto& variants = variants_of(request, a, i, scratch);
    double least = std::numeric_limits<double>::infinity();
    for (const Variant& v : variants)
      if (v.width <= cap + 1e-9) least = std::min(least, v.height);
    wrapped += variants.front().width > cap + 1e-9 ? 1.0 : 0.0;
    height += least + request.rules.label_gap;
  }
  if (!request.labels.empty()) wrapped /= static_cast<double>(request.labels.size());
}

double tallest(const FitRequest& request, const Arrangement& a) {
  std::vector<Variant> scratch;
  double tall = 0;
  for (std::size_t i = 0; i < request.labels.size(); ++i) {
    double least = std::numeric_limits<double>::infinity();
    for (const Variant& v : variants_of(request, a, i, scratch)) least = std::min(least, v.height);
    tall = std::max(tall, least);
  }
  return tall;
}

struct Option {
  Arrangement arrangement;
  double scale = 0, score = 0, fill = 0;
};

// The columns' widths to try and the scale that each leaves the figure. `least_height`: what all
// boxes need in the widest of them.
std::vector<Option> options_of(const FitRequest& request, const Family& family,
                               const Arrangement& base, const Widths& widths,
                               double& least_height) {
  std::vector<Option> options;
  least_height = std::numeric_limits<double>::infinity();
  for (const double cap : widths.caps) {
    Option o;
    o.arrangement = base;
    if (family.left) o.arrangement.left = cap;
    if (family.right) o.arrangement.right = cap;
    if (family.second && family.left) o.arrangement.outer_left = cap;
    if (family.second && family.right) o.arrangement.outer_right = cap;
    o.scale = largest_scale(request, o.arrangement);
    double wrapped = 0, height = 0;
    pressure(request, base, cap, wrapped, height);
    least_height = std::min(least_height, height);
    const double room = (request.area.h + request.rules.label_gap) *
                        ((family.left + family.right) * (family.second ? 2 : 1));
    // Of the labels that the columns leave over the rows take a few each.
    double in_rows = 0;
    if (family.rows)
      in_rows = 2 * (request.area.w - (family.left + family.right) * (cap + request.gutter)) /
                (widths.narrowest + request.rules.label_gap);
    const double mean = height / static_cast<double>(request.labels.size());
    if (o.scale <= 0 || height > room + std::max(0.0, in_rows) * mean + 1e-9) continue;
    o.fill = height / (room + std::max(0.0, in_rows) * mean);
    // Wrapped labels read less well, and crowded columns make steep leaders: worth
    // a tenth of the figure's size.
    o.score =
        o.scale * (1 - wrap_worth * wrapped - crowd_worth * std::max(0.0, o.fill - roomy_fill));
    options.push_back(std::move(o));
  }
  return options;
}

}  // namespace

double hoped_scale(const FitRequest& request) {
  if (request.labels.empty()) return 0;
  Arrangement base;
  base.as_number.assign(request.labels.size(), false);
  double least_height = 0, best = 0, scale = 0;
  for (const Option& o :
       options_of(request, Family{}, base, widths_of(request, base), least_height))
    if (o.score > best) best = o.score, scale = o.scale;
  return scale;
}

std::optional<Sized> largest_figure(const FitRequest& request, const Family& family, int text_step,
                                    const std::vector<bool>& as_number, std::string& witness) {
  Arrangement base;
  base.text_step = text_step;
  base.as_number = as_number;
  const Widths widths = widths_of(request, base);
  if (family.rows) base.top = base.bottom = tallest(request, base);

  double least_height = 0;
  std::vector<Option> options = options_of(request, family, base, widths, least_height);
  const auto text = [](double v) {
    return std::to_string(static_cast<long long>(std::llround(v)));
  };
  if (options.empty()) {
    const int columns = (family.left + family.right) * (family.second ? 2 : 1);
    const double side = widths.narrowest + request.gutter;
    witness = largest_scale(request, base) > 0 && least_height < 1e300 &&
                      least_height > (request.area.h + request.rules.label_gap) * columns
                  ? std::to_string(request.labels.size()) + " labels need " + text(least_height) +
                        " mm of column height; " + std::to_string(columns) + " columns have " +
                        text(request.area.h * columns) + " mm"
                  : "columns of " + text(side * (family.left + family.right)) +
                        " mm with their gutters leave no room for the figure in " +
                        text(request.area.w) + " mm";
    return std::nullopt;
  }
  std::stable_sort(options.begin(), options.end(), [](const Option& a, const Option& b) {
    return a.score != b.score ? a.score > b.score
                              : a.arrangement.left + a.arrangement.right >
                                    b.arrangement.left + b.arrangement.right;
  });

  std::optional<Sized> best;
  double best_score = 0;
  int failed = 0;
  const bool many = request.labels.size() > many_labels;
  const long n = static_cast<long>(request.labels.size());
  double airy = 2;
  const auto fits = [&](const Arrangement& a, double scale, GridAnswer& answer, Built& built) {
    built = build(request, a, scale);
    built.problem.weights.detail = 0;  // whether it fits does not depend on it
    const Rulebook rules(built.problem);
    // Tight columns need fine slots, loose ones do with coarse, of which each is a fine one too.
    const double slot = slot_of(built.problem);
    double need = 0, room = 0;
    for (const Label& l : built.problem.labels) {
      double least = std::numeric_limits<double>::infinity();
      for (const Variant& v : l.variants) least = std::min(least, v.height);
      need += least + request.rules.label_gap;
    }
    for (const Column& c : built.problem.columns) room += c.bottom - c.top;
    answer = quick_grid(rules, need > 0.75 * room ? slot : slot * std::ceil(coarse / slot),
                        many ? family.patience : std::min(family.patience, few_patience * n * n));
    if (!answer.found) witness = answer.witness;
    return answer.found;
  };
  for (const Option& o : options) {
    if (o.score <= best_score) break;
    if (o.fill > airy) continue;
    const double per_scale = o.score / o.scale;
    GridAnswer answer;
    Built built;
    double scale = o.scale;
    bool found = false;
    // A figure that is only a little smaller often has room.
    for (const double share : {1.0, 0.85}) {
      scale = o.scale * share;
      // A smaller figure makes no more room in crowded columns.
      if (share < 1 && (many || request.fixed_scale > 0 || o.fill > 0.8)) break;
      if (scale * per_scale <= best_score) break;
      if (fits(o.arrangement, scale, answer, built)) {
        found = true;
        break;
      }
    }
    if (!found) {
      // What was too crowded here will be elsewhere unless there is more air.
      airy = o.fill - 0.05;
      if (++failed >= (n > 20 ? 2 : 4)) break;
      continue;
    }
    Arrangement arrangement = o.arrangement;
    // Columns only as wide as the boxes in them: the figure may grow.
    for (int round = 0; round < (many ? 1 : 2); ++round) {
      Arrangement tight = arrangement;
      for (double* width : {&tight.left, &tight.right, &tight.outer_left, &tight.outer_right})
        *width = 0;
      tight.top = tight.bottom = 0;
      for (const Placement& p : answer.placements) {
        if (p.side == Side::top) tight.top = std::max(tight.top, p.box.h);
        if (p.side == Side::bottom) tight.bottom = std::max(tight.bottom, p.box.h);
        if (p.side != Side::left && p.side != Side::right) continue;
        const bool outer =
            p.column > 0 && built.problem.columns[static_cast<std::size_t>(p.column)].side ==
                                built.problem.columns[static_cast<std::size_t>(p.column) - 1].side;
        double& width = p.side == Side::left ? (outer ? tight.outer_left : tight.left)
                                             : (outer ? tight.outer_right : tight.right);
        width = std::max(width, p.box.w);
      }
      if (tight.outer_left > 0) tight.left = std::max(tight.left, 1.0);
      if (tight.outer_right > 0) tight.right = std::max(tight.right, 1.0);
      const double larger = largest_scale(request, tight);
      if (larger <= scale * 1.005) break;
      GridAnswer again;
      Built rebuilt;
      if (!fits(tight, larger, again, rebuilt)) break;
      arrangement = tight;
      scale = larger;
      answer = std::move(again);
      built = std::move(rebuilt);
    }
    if (scale * per_scale > best_score) {
      best_score = scale * per_scale;
      best = Sized{arrangement, scale, widths.natural, answer.placements};
    }
    if (request.fixed_scale > 0) break;
  }
  return best;
}

}  // namespace platewright::place
