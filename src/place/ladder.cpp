#include <algorithm>
#include <cmath>
#include <numeric>

#include "place/arrangement.hpp"
#include "place/place.hpp"
#include "place/solve.hpp"
#include "place/spoken.hpp"
#include "place/two_sides.hpp"

namespace platewright::place {
namespace {

constexpr std::size_t few_labels = 12;    // so many try every type size in turn
constexpr long last_patience = 20'000'000;  // some seconds

std::string points(double v) { return tenths(v).append(" pt"); }

std::string percent(double share) { return whole(share * 100) + " %"; }

struct Step {
  Sized sized;
  std::vector<Fallback> fallbacks;
};

// What one rung gives for a text step: columns alone, with rows, with second columns.
std::optional<Step> rung(const FitRequest& request, int text_step,
                         const std::vector<bool>& as_number, double alone, std::string& witness,
                         long patience = Family{}.patience) {
  const bool many = request.labels.size() > many_labels;
  std::optional<Step> best;
  const auto share = [&](const Sized& s) { return s.scale / alone; };
  const auto consider = [&](Family family, const char* name) {
    std::string why;
    family.patience = patience;
    const auto sized = largest_figure(request, family, text_step, as_number, why);
    if (!sized) {
      if (witness.empty()) witness = why;
      return;
    }
    if (best && sized->scale <= best->sized.scale * 1.05) return;
    Step step{*sized, {}};
    if (*name != '\0')
      step.fallbacks.push_back(
          {name, best ? "columns alone leave the figure " + percent(share(best->sized)) +
                            " of its largest size; so it gets " + percent(share(*sized))
                      : witness});
    best = std::move(step);
  };
  consider({true, true, false, false}, "");
  if (request.labels.size() <= 4) {
    // Only where no row asks for the other side.
    const auto wanted = [&](int side) {
      return std::any_of(request.labels.begin(), request.labels.end(),
                         [&](const FitLabel& l) { return l.preferred == side; });
    };
    if (!wanted(1)) consider({true, false, false, false}, "");
    if (!wanted(-1)) consider({false, true, false, false}, "");
  }
  if (!best || share(best->sized) < request.wanted_share)
    consider({true, true, true, false}, "rows");
  if (!many && (!best || share(best->sized) < request.wanted_share))
    consider({false, false, true, false}, "rows");
  // Many labels in words hardly ever find their way through an inner column.
  const bool narrow = std::find(as_number.begin(), as_number.end(), false) == as_number.end();
  if (!best && (!many || narrow)) consider({true, true, false, true}, "second-column");
  if (!best && many && narrow) consider({true, true, true, true}, "second-column");
  return best;
}

std::optional<Infeasible> faulty_request(const FitRequest& request) {
  const auto finite = [](const FigureBox& b) {
    return std::isfinite(b.x) && std::isfinite(b.y) && std::isfinite(b.w) && std::isfinite(b.h);
  };
  if (!finite(request.painted) || request.painted.w < 0 || request.painted.h < 0)
    return Infeasible{"what the figure paints has no proper size"};
  for (const FitLabel& l : request.labels) {
    const std::string who = std::string("label \"").append(l.anchor).append("\" ");
    if (l.variants.empty()) return Infeasible{who + "has no box"};
    for (const auto& step : l.variants)
      if (step.empty()) return Infeasible{who + "has no box at one of the text sizes"};
    if (l.targets.empty()) return Infeasible{who + "has no target"};
    for (const FitLabel::End& end : l.targets) {
      if (end.points.empty()) return Infeasible{who + "has a target without a point"};
      for (const FigurePoint& p : end.points)
        if (!std::isfinite(p.x) || !std::isfinite(p.y))
          return Infeasible{who + "has a target that is no number"};
    }
  }
  return std::nullopt;
}

std::optional<Fit> finish(const FitRequest& request, const Step& step,
                          const std::vector<bool>& as_number, const Effort& effort,
                          std::string& witness) {
  for (const double share : {1.0, 0.97, 0.93, 0.88, 0.8}) {
    if (share < 1 && request.fixed_scale > 0) break;
    Built built = build(request, step.sized.arrangement, step.sized.scale * share);
    RoutePrices prices;
    std::shared_ptr<const Reckoned> reckoned;
    auto solved =
        solve_unbounded(built.problem, effort, share < 1 ? Start{} : Start{step.sized.placements},
                        prices, reckoned);
    if (const auto* no = std::get_if<Infeasible>(&solved)) {
      witness = no->witness;
      continue;
    }
    Fit fit;
    fit.figure_to_page = built.figure_to_page;
    fit.text_step = step.sized.arrangement.text_step;
    fit.problem = std::move(built.problem);
    fit.solution = std::get<Solution>(std::move(solved));
    bound_off_grid(fit.problem, effort, prices, fit.solution);
    fit.reckoned = std::move(reckoned);
    fit.as_number = as_number;
    if (auto wrapped = wrapped_labels(fit)) fit.fallbacks.push_back(*std::move(wrapped));
    fit.fallbacks.insert(fit.fallbacks.end(), step.fallbacks.begin(), step.fallbacks.end());
    return fit;
  }
  return std::nullopt;
}

Fit bare(const FitRequest& request, double scale) {
  Fit fit;
  Built built = build(request, {}, scale);
  fit.figure_to_page = built.figure_to_page;
  fit.problem = std::move(built.problem);
  fit.solution.certificate.status = SolveStatus::optimal;
  return fit;
}

// Labels by how much room they take at this text step, most first.
std::vector<std::size_t> by_size(const FitRequest& request, int text_step) {
  std::vector<std::size_t> order(request.labels.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  Arrangement a;
  a.text_step = text_step;
  std::vector<double> size(order.size());
  std::vector<Variant> scratch;
  for (const std::size_t i : order) {
    double least = 1e300;
    for (const Variant& v : variants_of(request, a, i, scratch))
      least = std::min(least, v.width * v.height);
    size[i] = least;
  }
  std::sort(order.begin(), order.end(), [&](std::size_t x, std::size_t y) {
    return size[x] != size[y] ? size[x] > size[y]
                              : request.labels[x].anchor < request.labels[y].anchor;
  });
  return order;
}

}  // namespace

std::variant<Fit, Infeasible> fit_beside(const FitRequest& request, const Effort& effort) {
  if (!(request.area.w > 0) || !(request.area.h > 0) || request.area.w > 1e6 ||
      request.area.h > 1e6)
    return Infeasible{"the page leaves no room: " + whole(request.area.w) + " x " +
                      whole(request.area.h) + " mm"};
  if (auto fault = faulty_request(request)) return *std::move(fault);
  const double alone = largest_scale(request, {});
  if (!(alone > 0))
    return Infeasible{"the figure does not fit into " + whole(request.area.w) + " x " +
                      whole(request.area.h) + " mm at the scale asked for"};
  if (request.labels.empty()) return bare(request, alone);

  std::vector<bool> as_number(request.labels.size(), false);
  const int steps = static_cast<int>(std::max<std::size_t>(1, request.text_pt.size()));
  std::vector<std::pair<Step, std::vector<bool>>> tried;
  std::vector<Fallback> log;
  std::string first_witness, last_witness;
  const auto share = [&](const Sized& s) { return s.scale / alone; };
  bool too_small = false;
  const auto accept = [&](Step step) -> std::optional<Fit> {
    std::string why;
    too_small = step.sized.scale < request.known_scale;
    if (too_small) return std::nullopt;
    auto done = finish(request, step, as_number, effort, why);
    if (done) done->cramped = share(step.sized) < request.wanted_share;
    if (done)
      done->fallbacks.insert(done->fallbacks.end(), log.begin(), log.end());
    else
      last_witness = why;
    return done;
  };
  const auto no_use = [] { return Infeasible{"a page with a larger figure is known"}; };
  const auto pt = [&](int s) {
    return request.text_pt.empty() ? std::string("the text")
                                   : points(request.text_pt[static_cast<std::size_t>(s)]);
  };
  // What a text size gives, and why it is not enough if it is not.
  const auto at_size = [&](int t, std::optional<Step>& found) {
    std::string witness;
    found = rung(request, t, as_number, alone, witness);
    if (found && share(found->sized) >= request.wanted_share) return true;
    last_witness = found ? "at " + pt(t) + " the figure gets " + percent(share(found->sized)) +
                              " of its largest size, less than " + percent(request.wanted_share)
                        : "at " + pt(t) + ": " + witness;
    if (first_witness.empty()) first_witness = last_witness;
    if (found) {
      found->fallbacks.insert(found->fallbacks.end(), log.begin(), log.end());
      tried.emplace_back(*found, as_number);
    }
    return false;
  };
  std::optional<Step> step;
  const auto smaller = [&](const std::string& why) {
    log.assign(1, {"smaller-text", why});
  };
  if (request.labels.size() <= few_labels) {
    for (int t = 0; t < steps; ++t) {
      if (at_size(t, step)) {
        if (auto done = accept(*step)) return *done;
        if (too_small) return no_use();
        last_witness = "at " + pt(t) + ": " + last_witness;
        if (first_witness.empty()) first_witness = last_witness;
        step->fallbacks.insert(step->fallbacks.end(), log.begin(), log.end());
        tried.emplace_back(*step, as_number);
      }
      if (t + 1 < steps) smaller(last_witness);
    }
  } else {
    // Many labels take long: the largest size that fits by bisection.
    std::optional<Step> fits;
    int above = -1, below = steps;
    for (int t = 0; above + 1 < below; t = above == 0 && below == steps ? steps - 1 : (above + below) / 2) {
      if (at_size(t, step))
        below = t, fits = step;
      else
        above = t;
      if (above == steps - 1) break;
    }
    if (above >= 0) smaller(last_witness);
    if (fits)
      if (auto done = accept(*fits)) return *done;
    if (too_small) return no_use();
  }

  // The fewest labels as numbers, by bisection on how many of the largest.
  const int floor_step = steps - 1;
  const std::vector<std::size_t> order = by_size(request, floor_step);
  const std::size_t n = order.size();
  const auto with_numbers = [&](std::size_t count) {
    std::vector<bool> numbers(order.size(), false);
    for (std::size_t k = 0; k < count; ++k) numbers[order[k]] = true;
    return numbers;
  };
  const auto enough = [&](std::size_t count, std::optional<Step>& found) {
    std::string witness;
    found = rung(request, floor_step, with_numbers(count), alone, witness);
    return found && share(found->sized) >= request.wanted_share;
  };
  // An eighth of them, a quarter, half, all; then once between.
  std::vector<std::size_t> counts, parts = {8, 4, 2, 1};
  if (n > many_labels) parts = {2, 1};
  if (!request.numbers) parts.clear();
  for (const std::size_t part : parts)
    if (const std::size_t count = (n + part - 1) / part; counts.empty() || count > counts.back())
      counts.push_back(count);
  step.reset();
  std::size_t low = 0, high = 0;
  std::optional<Step> at_high;
  for (const std::size_t count : counts) {
    if (enough(count, step)) {
      high = count, at_high = step;
      break;
    }
    low = count;
  }
  if (high > 0) {
    if (const std::size_t between = (low + high) / 2;
        between > low && between < high && enough(between, step))
      high = between, at_high = step;
    as_number = with_numbers(high);
    if (auto done = accept(*at_high)) {
      done->fallbacks.push_back({"numbered", std::to_string(high) + " of " + std::to_string(n) +
                                                 " labels as numbers: " + last_witness});
      return *done;
    }
  } else if (step) {
    tried.emplace_back(*step, with_numbers(order.size()));
    tried.back().first.fallbacks.insert(tried.back().first.fallbacks.end(), log.begin(), log.end());
    tried.back().first.fallbacks.push_back({"numbered", "all " + std::to_string(order.size()) +
                                                            " labels as numbers: " + last_witness});
  }

  // Nothing was found in the usual time: all as numbers, patiently.
  if (tried.empty() && n > many_labels && request.numbers) {
    std::string witness;
    as_number = with_numbers(n);
    if (auto last = rung(request, floor_step, as_number, alone, witness, last_patience)) {
      last->fallbacks.push_back({"numbered", "all " + std::to_string(n) +
                                                 " labels as numbers: " + last_witness});
      tried.emplace_back(*std::move(last), as_number);
    } else {
      last_witness = witness;
    }
  }

  // Nothing gives the figure its share: the largest that works at all.
  std::stable_sort(tried.begin(), tried.end(), [](const auto& a, const auto& b) {
    return a.first.sized.scale > b.first.sized.scale;
  });
  log.clear();
  for (const auto& [option, numbers] : tried) {
    as_number = numbers;
    if (auto done = accept(option)) return *done;
  }
  return Infeasible{request.numbers ? first_witness + "; even as numbers " + last_witness
                                    : first_witness};
}

}  // namespace platewright::place
