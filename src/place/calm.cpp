#include "place/calm.hpp"

#include <algorithm>
#include <future>
#include <optional>
#include <utility>
#include <variant>

#include "place/arrangement.hpp"
#include "place/cost.hpp"
#include "place/inside.hpp"
#include "place/solve.hpp"
#include "place/two_sides.hpp"
#include "place/verify.hpp"

namespace platewright::place {
namespace {

constexpr double room_to_fan = 2;  // wider than gutters are otherwise, for leaders to fan out
constexpr double worth = 2;        // of calm, against the figure's size
constexpr double nearly_calm = 0.08;     // what it loses by its unrest
constexpr double worth_a_try = 0.9;      // what even a calm page would lose, of what is lost now
constexpr std::size_t soon_solved = 16;  // labels; so few are tried at more sizes

// How finely, and how far, the labels of a column or row are moved to ease a page.
constexpr int steps_of_slot = 16, most_steps = 64;
constexpr double worth_easing = 0.005;  // of the cost, where nothing is proven of it
constexpr double most_left = 0.5;       // of the unrest

void move(Placement& p, double by) {
  const bool row = p.side == Side::top || p.side == Side::bottom;
  (row ? p.port.x : p.port.y) += by;
  (row ? p.box.x : p.box.y) += by;
}

// Of a page that was solved again.
void tell_wrapped(Fit& fit) {
  std::erase_if(fit.fallbacks, [](const Fallback& f) { return f.step == "wrapped"; });
  if (auto wrapped = wrapped_labels(fit)) fit.fallbacks.insert(fit.fallbacks.begin(), *wrapped);
}

// Whether an arrangement of the same labels leaves the figure and the labels where they stand.
bool same_page(const Built& built, const Fit& fit) {
  const auto same_columns = [](const Column& a, const Column& b) {
    return a.side == b.side && a.edge == b.edge && a.top == b.top && a.bottom == b.bottom &&
           a.width == b.width;
  };
  const auto same_rows = [](const Row& a, const Row& b) {
    return a.side == b.side && a.edge == b.edge && a.left == b.left && a.right == b.right &&
           a.height == b.height;
  };
  const FigureToPage &a = built.figure_to_page, &b = fit.figure_to_page;
  return a.scale == b.scale && a.origin.x == b.origin.x && a.origin.y == b.origin.y &&
         std::ranges::equal(built.problem.columns, fit.problem.columns, same_columns) &&
         std::ranges::equal(built.problem.rows, fit.problem.rows, same_rows);
}

}  // namespace

double unrest(const LayoutMetrics& m, const Calm& calm) {
  const auto over = [](double value, double limit) {
    return limit > 0 ? std::max(0.0, value / limit - 1) : 0.0;
  };
  double sum = over(m.angle_p95, calm.angle) + over(m.gap_variation, calm.gap_variation) +
               over(m.balance, std::max(calm.balance, m.least_balance + 1e-9));
  if (m.shortest_length > 0) sum += over(m.leader_length / m.shortest_length, calm.length);
  return sum;
}

void ease(const Problem& problem, const Calm& calm, Solution& solution) {
  Certificate& c = solution.certificate;
  const double before = unrest(spreads(problem, solution), calm);
  double least = before;
  if (least <= 0) return;
  std::vector<std::pair<Side, int>> runs;
  for (const Placement& p : solution.placements)
    if (const std::pair run{p.side, p.column};
        p.side != Side::inside && std::ranges::find(runs, run) == runs.end())
      runs.push_back(run);
  const double step = slot_of(problem) / steps_of_slot;
  const double most = c.status == SolveStatus::optimal ? c.cost : (1 + worth_easing) * c.cost;
  Solution best = solution;
  for (const auto& [side, column] : runs) {
    const auto moved = [&, from = best](double by) {
      Solution eased = from;
      for (Placement& p : eased.placements)
        if (p.side == side && p.column == column) move(p, by);
      return eased;
    };
    struct Move {
      double unrest, by;
    };
    std::vector<Move> moves;
    for (int k = 1; k <= most_steps; ++k)
      for (const double by : {k * step, -k * step})
        if (const double now = unrest(spreads(problem, moved(by)), calm); now < least - 1e-9)
          moves.push_back({now, by});
    // The calmest that keeps the rules; looking at these takes longest.
    std::stable_sort(moves.begin(), moves.end(),
                     [](const Move& a, const Move& b) { return a.unrest < b.unrest; });
    for (const Move& m : moves) {
      Solution eased = moved(m.by);
      const double total = cost(problem, eased.placements).total();
      if (total > most || !verify(problem, eased).empty()) continue;
      least = m.unrest;
      best = std::move(eased);
      best.certificate.polished_cost = total;
      break;
    }
  }
  if (least > most_left * before) return;
  Certificate& eased = best.certificate;
  if (eased.polished_cost > eased.cost) {
    eased.cost = eased.polished_cost;
    eased.gap = (eased.cost - eased.bound) / std::max(eased.cost, 1e-9);
  }
  eased.continuous_gap =
      (eased.polished_cost - eased.continuous_bound) / std::max(eased.polished_cost, 1e-9);
  solution = std::move(best);
}

std::optional<Fit> shifted(const FitRequest& request, const Fit& fit, const Effort& effort) {
  const double before = unrest(spreads(fit.problem, fit.solution), request.calm);
  if (before <= 0 || effort.nodes <= 0 || !fit.problem.rows.empty() ||
      !fit.problem.obstacles.empty() || any_inside(fit.solution.placements))
    return std::nullopt;
  double sum = 0, count = 0;
  for (std::size_t i = 0; i < fit.solution.placements.size(); ++i)
    for (const PagePoint& t :
         fit.problem.labels[i]
             .targets[static_cast<std::size_t>(fit.solution.placements[i].target)]
             .points)
      sum += fit.solution.placements[i].port.y - t.y, ++count;
  const FigureBox b = body(request);
  const double scale = fit.figure_to_page.scale;
  const double top = fit.figure_to_page.origin.y + scale * b.y, bottom = top + scale * b.h;
  const double by = std::clamp(sum / count, std::min(0.0, request.area.top() - top),
                               std::max(0.0, request.area.bottom() - bottom));
  Fit moved = fit;
  moved.figure_to_page.origin.y += by;
  moved.problem.detail.box.y += by;
  for (Label& label : moved.problem.labels)
    for (Target& target : label.targets)
      for (PagePoint& p : target.points) p.y += by;
  moved.reckoned = nullptr;
  if (unrest(spreads(moved.problem, moved.solution), request.calm) > most_left * before)
    return std::nullopt;
  auto answer = solve_from(moved.problem, effort, {});
  if (!std::holds_alternative<Solution>(answer)) return std::nullopt;
  moved.solution = std::get<Solution>(std::move(answer));
  ease(moved.problem, request.calm, moved.solution);
  if (unrest(spreads(moved.problem, moved.solution), request.calm) > most_left * before)
    return std::nullopt;
  tell_wrapped(moved);
  return moved;
}

double unease(double unrest, double share) { return worth * unrest + 1 - share; }

Fit calmed(const FitRequest& request, Fit fit, const Effort& effort) {
  const double least = unease(unrest(spreads(fit.problem, fit.solution), request.calm), 1);
  if (least <= 0 || request.fixed_scale > 0 || fit.problem.labels.empty() || effort.nodes <= 0)
    return fit;
  std::vector<bool> inside, as_number, homeless;
  Start start{.placements = {}, .spare = true};
  for (std::size_t i = 0; i < fit.solution.placements.size(); ++i) {
    inside.push_back(fit.solution.placements[i].side == Side::inside);
    if (inside.back()) continue;
    as_number.push_back(fit.as_number[i]);
    start.placements.push_back(fit.solution.placements[i]);
  }
  FitRequest rest = beside(request, inside);
  rest.widest_gutter *= room_to_fan;
  Arrangement arrangement = arrangement_of(fit);
  arrangement.as_number = as_number;
  const double scale = fit.figure_to_page.scale;
  std::optional<Fit> calmest;
  RoutePrices prices;
  double hope = least;
  // A page that is nearly calm is worth no size that is much smaller.
  std::vector<double> shares = least < nearly_calm ? std::vector{1.0, 0.995, 0.99, 0.98, 0.97, 0.95}
                               : request.labels.size() <= soon_solved
                                   ? std::vector{1.0, 0.97, 0.94, 0.9, 0.86, 0.83, 0.8}
                                   : std::vector{1.0, 0.92, 0.86, 0.8};
  // Where wider gutters find no room, the page as it is would be solved again.
  if (same_page(build(rest, arrangement, scale), fit)) shares.erase(shares.begin());
  // Two sizes at a time, judged in order: the result is that of one after the other.
  struct Trial {
    Built built;
    std::optional<Solution> solution;
    RoutePrices prices;
    std::shared_ptr<const Reckoned> reckoned;
  };
  const auto at_share = [&](double share) {
    Trial trial{build(rest, arrangement, scale * share), std::nullopt, {}, nullptr};
    auto solved = solve_unbounded(trial.built.problem, effort, start, trial.prices, trial.reckoned);
    if (auto* solution = std::get_if<Solution>(&solved)) trial.solution = std::move(*solution);
    return trial;
  };
  const auto hopeless = [&](double share) {
    return share < request.calm.smallest - 1e-9 || 1 - share >= worth_a_try * hope;
  };
  std::future<Trial> ahead;
  for (std::size_t k = 0; k < shares.size() && !hopeless(shares[k]); ++k) {
    Trial trial;
    if (ahead.valid()) {
      trial = ahead.get();
    } else {
      if (k + 1 < shares.size() && !hopeless(shares[k + 1]))
        ahead = std::async(std::launch::async, at_share, shares[k + 1]);
      trial = at_share(shares[k]);
    }
    if (!trial.solution) continue;
    const double now =
        unease(unrest(spreads(trial.built.problem, *trial.solution), request.calm), shares[k]);
    if (now >= hope) continue;
    hope = now;
    calmest = fit;
    calmest->figure_to_page = trial.built.figure_to_page;
    calmest->problem = std::move(trial.built.problem);
    calmest->solution = *std::move(trial.solution);
    calmest->as_number = as_number;
    calmest->reckoned = std::move(trial.reckoned);
    prices = std::move(trial.prices);
  }
  if (!calmest) return fit;
  bound_off_grid(calmest->problem, effort, prices, calmest->solution);
  auto whole = whole_fit(request, inside, *std::move(calmest), homeless);
  if (!whole) return fit;
  fit = *std::move(whole);
  tell_wrapped(fit);
  return fit;
}

}  // namespace platewright::place
