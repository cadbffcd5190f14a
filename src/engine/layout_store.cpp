#include "engine/layout_store.hpp"

#include <algorithm>
#include <atomic>
#include <stop_token>

#include "base/at_once.hpp"
#include "engine/exact.hpp"
#include "engine/layout_members.hpp"
#include "engine/part_key.hpp"
#include "place/calm.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

enum class Ruling : std::uint8_t { infeasible, fit };

// A fit can only be of use to its request when it speaks of the same labels.
bool answers(const place::Fit& fit, const place::FitRequest& request) {
  const std::size_t labels = request.labels.size();
  return fit.problem.labels.size() == labels && fit.solution.placements.size() == labels &&
         std::equal(request.labels.begin(), request.labels.end(), fit.problem.labels.begin(),
                    [](const place::FitLabel& asked, const place::Label& placed) {
                      return asked.anchor == placed.anchor;
                    });
}

bool same(const place::Fit& a, const place::Fit& b) {
  const auto &x = a.solution.certificate, &y = b.solution.certificate;
  return a.figure_to_page.scale == b.figure_to_page.scale && x.cost == y.cost && x.bound == y.bound;
}

// What is proven of another placement of the same problem on the same grid holds of this one.
void take_bounds(const place::Solution& proven, place::Solution& calmer) {
  Certificate& c = calmer.certificate;
  const Certificate& p = proven.certificate;
  if (proven.on_grid.step != calmer.on_grid.step) return;
  c.bound = std::max(c.bound, std::min(p.bound, c.cost));
  if (c.cost - c.bound <= 1e-6) {
    c.status = SolveStatus::optimal;
    c.bound = c.cost;
  }
  c.gap = (c.cost - c.bound) / std::max(c.cost, 1e-9);
  c.continuous_bound = std::max(c.continuous_bound, std::min(p.continuous_bound, c.polished_cost));
  c.continuous_gap = (c.polished_cost - c.continuous_bound) / std::max(c.polished_cost, 1e-9);
}

void search_in_earnest(place::Fit& fit, const place::Effort& effort) {
  if (effort.nodes <= 0) return;
  auto answer = place::solve_from(fit.problem, effort, fit.solution, fit.reckoned);
  if (const auto* found = std::get_if<place::Solution>(&answer);
      found != nullptr &&
      found->certificate.polished_cost <= fit.solution.certificate.polished_cost + 1e-9) {
    const place::Solution before = std::exchange(fit.solution, *found);
    take_bounds(before, fit.solution);
  }
}

}  // namespace

// Sizes are compared at a glance, and the one that is taken is searched in earnest. Where that is
// a proof, the figure's own size is searched so, too, since the least cost may be calm there when
// what was found at a glance is not.
place::Fit settled(const place::FitRequest& request, place::Fit fit, const place::Effort& effort,
                   const std::function<void(double)>& sized) {
  const place::Effort brief{std::min(effort.nodes, glance), 0, effort.off_grid};
  const auto unrest = [&](const place::Fit& page) {
    return place::unrest(place::spreads(page.problem, page.solution), request.calm);
  };
  const auto searched = [&](const place::Fit& page, const place::Effort& with) {
    place::Fit proven = page;
    search_in_earnest(proven, with);
    if (unrest(proven) <= unrest(page) + 1e-9) return proven;
    // The calmer one stays, and tells how far at most it is from the best.
    place::Fit calmer = page;
    take_bounds(proven.solution, calmer.solution);
    return calmer;
  };
  const auto eased = [&](place::Fit page) {
    place::ease(page.problem, request.calm, page.solution);
    auto moved = place::shifted(request, page, effort);
    return moved ? *std::move(moved) : page;
  };
  if (effort.for_proof() <= 0) {
    fit = place::calmed(request, std::move(fit), brief);
    if (sized) sized(fit.figure_to_page.scale);
    return eased(searched(fit, effort));
  }
  const double scale = fit.figure_to_page.scale;
  // Of more labels than are proven soon a second proof would take too long.
  const bool once = effort.brief_proof() && request.labels.size() > soon_proven;
  place::Fit whole = fit;
  if (unrest(fit) <= 0) {
    if (sized) sized(scale);
    return searched(fit, effort);
  }
  const auto loss = [&](const place::Fit& page) {
    return place::unease(unrest(page), page.figure_to_page.scale / scale);
  };
  std::optional<place::Fit> smaller;
  // Its proof shows whether the figure's own size has a chance; the rest of the search may be vain.
  const place::Effort proof{brief.nodes, effort.for_proof(), effort.off_grid};
  // A smaller figure is worth no more search as soon as even a calm one would lose more.
  std::stop_source vain;
  std::atomic<double> lost = 1e300, least = -1;  // by the figure's own size, by a smaller one
  const auto compare = [&] {
    if (least >= lost) vain.request_stop();
  };
  at_once(
      [&] {
        whole = searched(fit, once ? effort : proof);
        lost = loss(whole);
        compare();
      },
      [&] {
        place::Fit calm = place::calmed(request, fit, brief);
        if (same(calm, fit)) return;
        least = place::unease(0, calm.figure_to_page.scale / scale);
        compare();
        place::Effort stoppable = effort;
        stoppable.stop = vain.get_token();
        calm = searched(calm, stoppable);
        if (!vain.stop_requested()) smaller = std::move(calm);
      });
  if (smaller && loss(*smaller) < loss(whole))
    whole = *std::move(smaller);
  else if (!once && whole.solution.certificate.status != SolveStatus::optimal)
    whole = searched(whole, effort);
  // What only a proof finds to be calm.
  if (unrest(whole) > 0 && !once) {
    place::Fit calm =
        place::calmed(request, whole, {effort.nodes, effort.for_proof() / 4, effort.off_grid});
    if (!same(calm, whole)) whole = searched(calm, effort);
  }
  if (sized) sized(whole.figure_to_page.scale);
  return eased(std::move(whole));
}

std::string fit_key(const place::FitRequest& request, const place::Effort& effort) {
  ExactWriter asked;
  asked.add(request).add(effort);
  return KeyWriter().add("platewright fit 1").add(program_identity()).add(asked.bytes()).digest();
}

std::string settled_key(const place::FitRequest& request, const place::Fit& fit,
                        const place::Effort& effort) {
  ExactWriter asked;
  asked.add(request).add(fit).add(effort);
  return KeyWriter()
      .add("platewright settled layout 2")
      .add(program_identity())
      .add(asked.bytes())
      .digest();
}

std::string to_bytes(const Placed& placed, const place::FitRequest& request) {
  ExactWriter out;
  if (const auto* why = std::get_if<place::Infeasible>(&placed)) {
    out.add(Ruling::infeasible).add(why->witness);
    return out.bytes();
  }
  place::Fit fit = std::get<place::Fit>(placed);
  // The raster is most of a fit, and the request has it.
  const bool same = fit.problem.detail.values == request.detail;
  if (same) fit.problem.detail.values.clear();
  out.add(Ruling::fit).add(same).add(fit);
  return out.bytes();
}

std::optional<Placed> placed_from(std::string_view bytes, const place::FitRequest& request) {
  ExactReader in(bytes);
  const auto ruling = in.take<Ruling>();
  if (ruling == Ruling::infeasible) {
    place::Infeasible why{in.take<std::string>()};
    if (!in.whole()) return std::nullopt;
    return why;
  }
  const bool same = in.take<bool>();
  auto fit = in.take<place::Fit>();
  if (ruling != Ruling::fit || !in.whole() || !answers(fit, request)) return std::nullopt;
  if (same) fit.problem.detail.values = request.detail;
  return fit;
}

template <class Solve>
Placed LayoutStore::kept_or(const std::string& key, const place::FitRequest& request,
                            const Solve& solve) {
  // No answer asks for another, so the locks can't wait for each other.
  const std::lock_guard lock(solving_[std::hash<std::string>{}(key) % solving_.size()]);
  if (const auto kept = store_.find(key))
    if (auto placed = placed_from(*kept, request)) return *std::move(placed);
  Placed placed = solve();
  store_.keep(key, to_bytes(placed, request));
  return placed;
}

Placed LayoutStore::fit(const place::FitRequest& request, const place::Effort& effort) {
  return kept_or(fit_key(request, effort), request, [&] { return place::fit(request, effort); });
}

place::Fit LayoutStore::settled(const place::FitRequest& request, const place::Fit& fit,
                                const place::Effort& effort) {
  return std::get<place::Fit>(kept_or(settled_key(request, fit, effort), request, [&]() -> Placed {
    return platewright::settled(request, fit, effort);
  }));
}

}  // namespace platewright
