#include "place/refit.hpp"

#include <algorithm>
#include <cmath>

#include "base/at.hpp"
#include "place/arrangement.hpp"
#include "place/candidates.hpp"
#include "place/cost.hpp"
#include "place/cost_terms.hpp"
#include "place/inside.hpp"
#include "place/polish.hpp"
#include "place/rulebook.hpp"
#include "place/verify.hpp"

namespace platewright::place {
namespace {

constexpr double same_place = 0.02;  // mm; reports are rounded
constexpr double step = 0.5;         // mm between the places that a new label tries

// Columns and rows through the ports that were used, as far as page and neighbours let them go.
void add_stations(Problem& p, const PageBox& area, const KeptLayout& kept) {
  const auto lines = [&](Side side, bool across) {
    std::vector<double> at_line;
    for (const KeptLabel& l : kept.labels) {
      if (l.side != side) continue;
      const double line = across ? l.port.x : l.port.y;
      if (std::none_of(at_line.begin(), at_line.end(),
                       [&](double known) { return std::abs(known - line) < 4 * same_place; }))
        at_line.push_back(line);
    }
    std::sort(at_line.begin(), at_line.end());
    return at_line;
  };
  double inner_left = area.left(), inner_right = area.right();
  std::vector<double> left = lines(Side::left, true), right = lines(Side::right, true);
  std::reverse(left.begin(), left.end());  // the inner column comes first
  for (std::size_t k = 0; k < left.size(); ++k)
    p.columns.push_back({Side::left, left[k], area.top(), area.bottom(),
                         left[k] - (k + 1 < left.size() ? left[k + 1] : area.left())});
  for (std::size_t k = 0; k < right.size(); ++k)
    p.columns.push_back({Side::right, right[k], area.top(), area.bottom(),
                         (k + 1 < right.size() ? right[k + 1] : area.right()) - right[k]});
  if (!left.empty()) inner_left = left.front() + p.rules.label_gap;
  if (!right.empty()) inner_right = right.front() - p.rules.label_gap;
  for (const double y : lines(Side::top, false))
    p.rows.push_back({Side::top, y, inner_left, inner_right, y - area.top()});
  for (const double y : lines(Side::bottom, false))
    p.rows.push_back({Side::bottom, y, inner_left, inner_right, area.bottom() - y});
}

int station_at(const Problem& p, Side side, PagePoint port) {
  if (side == Side::left || side == Side::right) {
    for (std::size_t c = 0; c < p.columns.size(); ++c)
      if (p.columns[c].side == side && std::abs(p.columns[c].edge - port.x) < 4 * same_place)
        return static_cast<int>(c);
  } else {
    for (std::size_t r = 0; r < p.rows.size(); ++r)
      if (p.rows[r].side == side && std::abs(p.rows[r].edge - port.y) < 4 * same_place)
        return static_cast<int>(r);
  }
  return -1;
}

// The placement that a kept label had, in today's boxes and targets; false when its box no
// longer is what it was.
bool kept_placement(const Problem& p, std::size_t i, const KeptLabel& kept, Placement& placement) {
  const Label& label = p.labels[i];
  placement.side = kept.side;
  placement.column = station_at(p, kept.side, kept.port);
  if (placement.column < 0) return false;
  double nearest = 1e300;
  for (std::size_t v = 0; v < label.variants.size(); ++v) {
    const double off = std::abs(label.variants[v].width - kept.box.w) +
                       std::abs(label.variants[v].height - kept.box.h);
    if (off < nearest) nearest = off, placement.variant = static_cast<int>(v);
  }
  double far = 1e300;
  for (std::size_t t = 0; t < label.targets.size(); ++t)
    if (const double off = distance(label.targets[t].points.front(), kept.target); off < far)
      far = off, placement.target = static_cast<int>(t);
  if (far > same_place) return false;
  const bool column = kept.side == Side::left || kept.side == Side::right;
  placement.port = column ? PagePoint{p.columns[at(placement.column)].edge, kept.port.y}
                          : PagePoint{kept.port.x, p.rows[at(placement.column)].edge};
  placement.box = box_at(kept.side, label.variants[at(placement.variant)], placement.port);
  return true;
}

struct Board {
  const Problem& problem;
  const Rulebook rules;
  std::vector<Placement> placements;
  std::vector<bool> set;

  explicit Board(const Problem& p)
      : problem(p), rules(p), placements(p.labels.size()), set(p.labels.size(), false) {}

  bool agrees(const std::vector<std::pair<std::size_t, Placement>>& moved) const {
    for (std::size_t m = 0; m < moved.size(); ++m) {
      const auto& [i, placement] = moved[m];
      if (!stands(rules, placement, static_cast<int>(i))) return false;
      const Placed me = placed(problem, placement, static_cast<int>(i));
      for (std::size_t j = 0; j < set.size(); ++j) {
        if (!set[j] || j == i) continue;
        const auto other = std::find_if(moved.begin(), moved.end(),
                                        [&](const auto& entry) { return entry.first == j; });
        if (other != moved.end() && other < moved.begin() + static_cast<std::ptrdiff_t>(m)) continue;
        const Placement& there = other == moved.end() ? placements[j] : other->second;
        if (!compatible(rules, me, placed(problem, there, static_cast<int>(j)))) return false;
      }
    }
    return true;
  }

  // `i` there, and whoever must give way, pushed along the column or row.
  std::vector<std::pair<std::size_t, Placement>> pushed(std::size_t i, const Placement& p) const {
    const bool row = p.side == Side::top || p.side == Side::bottom;
    const auto start = [&](const PageBox& b) { return row ? b.left() : b.top(); };
    const auto end = [&](const PageBox& b) { return row ? b.right() : b.bottom(); };
    const double middle = (start(p.box) + end(p.box)) / 2, gap = problem.rules.label_gap + 1e-6;
    std::vector<std::size_t> before, after;
    for (std::size_t j = 0; j < set.size(); ++j) {
      if (!set[j] || j == i || placements[j].side != p.side || placements[j].column != p.column)
        continue;
      ((start(placements[j].box) + end(placements[j].box)) / 2 < middle ? before : after).push_back(j);
    }
    const auto by_start = [&](std::size_t a, std::size_t b) {
      return start(placements[a].box) < start(placements[b].box);
    };
    std::sort(before.begin(), before.end(), by_start);
    std::sort(after.begin(), after.end(), by_start);
    std::vector<std::pair<std::size_t, Placement>> moved{{i, p}};
    const auto shifted = [&](std::size_t j, double by) {
      Placement q = placements[j];
      (row ? q.port.x : q.port.y) += by;
      (row ? q.box.x : q.box.y) += by;
      moved.emplace_back(j, q);
    };
    double limit = start(p.box) - gap;
    for (auto j = before.rbegin(); j != before.rend(); ++j) {
      const double over = end(placements[*j].box) - limit;
      if (over <= 1e-9) break;
      shifted(*j, -over);
      limit = start(moved.back().second.box) - gap;
    }
    limit = end(p.box) + gap;
    for (const std::size_t j : after) {
      const double over = limit - start(placements[j].box);
      if (over <= 1e-9) break;
      shifted(j, over);
      limit = end(moved.back().second.box) + gap;
    }
    return moved;
  }
};

// The place for one new label that moves fewest others and then costs least.
bool insert(Board& board, std::size_t i, std::size_t most_moved, std::vector<bool>& has_moved) {
  const Problem& p = board.problem;
  const Label& label = p.labels[i];
  const double fair = fair_gap(p);
  std::vector<std::pair<std::size_t, Placement>> best;
  std::size_t fewest = most_moved + 1;
  double least = never;
  const auto offer = [&](const Placement& placement) {
    const double cost =
        label_cost(p, label, placement.side, placement.variant, placement.target, placement.port)
            .total();
    std::vector<std::pair<std::size_t, Placement>> moved = board.pushed(i, placement);
    std::size_t count = static_cast<std::size_t>(std::count(has_moved.begin(), has_moved.end(), true));
    for (const auto& [j, there] : moved) count += j != i && !has_moved[j];
    double crowded = 0;
    for (const auto& [j, there] : moved)
      if (j != i) crowded += gap_cost(p.weights, p.rules.label_gap, fair);
    if (count > fewest || count > most_moved || (count == fewest && cost + crowded >= least)) return;
    if (!board.agrees(moved)) return;
    fewest = count, least = cost + crowded, best = std::move(moved);
  };
  for (std::size_t v = 0; v < label.variants.size(); ++v)
    for (std::size_t t = 0; t < label.targets.size(); ++t) {
      const auto along = [&](Side side, int index, double line, double from, double to, bool row) {
        for (double a = from; a <= to; a += step) {
          Placement placement;
          placement.side = side;
          placement.column = index;
          placement.variant = static_cast<int>(v);
          placement.target = static_cast<int>(t);
          placement.port = row ? PagePoint{a, line} : PagePoint{line, a};
          placement.box = box_at(side, label.variants[v], placement.port);
          if (stands(board.rules, placement, static_cast<int>(i))) offer(placement);
        }
      };
      for (std::size_t c = 0; c < p.columns.size(); ++c)
        along(p.columns[c].side, static_cast<int>(c), p.columns[c].edge, p.columns[c].top,
              p.columns[c].bottom, false);
      for (std::size_t r = 0; r < p.rows.size(); ++r)
        along(p.rows[r].side, static_cast<int>(r), p.rows[r].edge, p.rows[r].left, p.rows[r].right,
              true);
    }
  if (best.empty()) return false;
  for (const auto& [j, placement] : best) {
    board.placements[j] = placement;
    if (j != i) has_moved[j] = true;
  }
  board.set[i] = true;
  return true;
}

}  // namespace

namespace {

// With labels that stand inside their regions: those stay, or nothing does.
std::optional<Fit> refit_around(const FitRequest& request, const KeptLayout& kept,
                                std::size_t most_moved) {
  std::vector<bool> inside;
  FitRequest rest = request;
  KeptLayout others = kept;
  others.labels.clear();
  std::vector<const KeptLabel*> stood(request.labels.size(), nullptr);
  for (const KeptLabel& l : kept.labels) {
    const auto now = std::find_if(request.labels.begin(), request.labels.end(),
                                  [&](const FitLabel& f) { return f.anchor == l.anchor; });
    if (l.side != Side::inside) {
      others.labels.push_back(l);
    } else if (now != request.labels.end()) {
      if (!now->room) return std::nullopt;
      stood[static_cast<std::size_t>(now - request.labels.begin())] = &l;
    }
  }
  for (const KeptLabel* l : stood) inside.push_back(l != nullptr);
  rest = beside(request, inside);
  rest.inside.clear();
  for (const KeptLabel* l : stood)
    if (l != nullptr)
      rest.obstacles.push_back(kept_free(
          {l->port.x - l->box.w / 2, l->port.y - l->box.h / 2, l->box.w, l->box.h}, request.rules));
  auto part = refit(rest, others, most_moved);
  std::vector<bool> homeless;
  if (part) part = whole_fit(request, inside, *std::move(part), homeless);
  if (!part || !verify(part->problem, part->solution).empty()) return std::nullopt;
  for (std::size_t i = 0; i < stood.size(); ++i)
    if (stood[i] != nullptr && distance(part->solution.placements[i].port, stood[i]->port) > same_place)
      return std::nullopt;
  return part;
}

}  // namespace

std::optional<Fit> refit(const FitRequest& request, const KeptLayout& kept, std::size_t most_moved) {
  if (kept.labels.empty() || request.labels.empty()) return std::nullopt;
  if (std::any_of(kept.labels.begin(), kept.labels.end(),
                  [](const KeptLabel& l) { return l.side == Side::inside; }))
    return refit_around(request, kept, most_moved);
  Arrangement a;
  a.text_step = kept.text_step;
  a.as_number.assign(request.labels.size(), false);
  const auto find = [&](const std::string& anchor) {
    return std::find_if(kept.labels.begin(), kept.labels.end(),
                        [&](const KeptLabel& l) { return l.anchor == anchor; });
  };
  bool all_numbers = true;
  for (const KeptLabel& l : kept.labels) all_numbers = all_numbers && l.as_number;
  for (std::size_t i = 0; i < request.labels.size(); ++i) {
    const auto known = find(request.labels[i].anchor);
    a.as_number[i] = known != kept.labels.end() ? known->as_number : all_numbers;
  }
  Built built = build(request, a, kept.figure_to_page.scale);
  // The figure stays where it was, and so does all that `build` placed with it.
  built.figure_to_page = kept.figure_to_page;
  Problem& p = built.problem;
  for (std::size_t i = 0; i < p.labels.size(); ++i)
    for (std::size_t t = 0; t < p.labels[i].targets.size(); ++t)
      for (std::size_t k = 0; k < p.labels[i].targets[t].points.size(); ++k)
        p.labels[i].targets[t].points[k] =
            kept.figure_to_page(request.labels[i].targets[t].points[k]);
  p.detail.box = kept.figure_to_page(request.detail_box);
  p.columns.clear();
  p.rows.clear();
  add_stations(p, request.area, kept);

  Board board(p);
  std::vector<std::size_t> fresh;
  for (std::size_t i = 0; i < p.labels.size(); ++i) {
    const auto known = find(p.labels[i].anchor);
    Placement placement;
    if (known == kept.labels.end() || !kept_placement(p, i, *known, placement) ||
        !stands(board.rules, placement, static_cast<int>(i))) {
      fresh.push_back(i);
      continue;
    }
    board.placements[i] = placement;
    board.set[i] = true;
  }
  // Kept labels whose boxes grew into each other come in anew: the later one.
  for (std::size_t i = 0; i < p.labels.size(); ++i)
    if (board.set[i]) {
      board.set[i] = false;
      if (board.agrees({{i, board.placements[i]}}))
        board.set[i] = true;
      else
        fresh.push_back(i);
    }
  std::vector<bool> has_moved(p.labels.size(), false);
  for (const std::size_t i : fresh) has_moved[i] = find(p.labels[i].anchor) != kept.labels.end();
  for (const std::size_t i : fresh)
    if (!insert(board, i, most_moved, has_moved)) return std::nullopt;
  if (static_cast<std::size_t>(std::count(has_moved.begin(), has_moved.end(), true)) > most_moved)
    return std::nullopt;

  Fit fit;
  fit.figure_to_page = built.figure_to_page;
  fit.text_step = kept.text_step;
  fit.as_number = a.as_number;
  fit.solution.placements = board.placements;
  if (!verify(p, fit.solution).empty()) return std::nullopt;
  Certificate& c = fit.solution.certificate;
  c.cost = c.polished_cost = cost(p, fit.solution.placements).total();
  c.continuous_bound = std::min(c.cost, continuous_bound(p));
  c.bound = c.continuous_bound;
  c.gap = c.continuous_gap = (c.cost - c.bound) / std::max(c.cost, 1e-9);
  c.status = c.gap <= 1e-9 ? SolveStatus::optimal : SolveStatus::feasible;
  fit.problem = std::move(p);
  return fit;
}

}  // namespace platewright::place
