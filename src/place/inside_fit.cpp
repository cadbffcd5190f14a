// The fit of a page of which some labels stand inside their regions.
#include <algorithm>
#include <utility>

#include "place/arrangement.hpp"
#include "place/inside.hpp"

namespace platewright::place {

FitRequest beside(const FitRequest& request, const std::vector<bool>& inside) {
  FitRequest rest = request;
  rest.labels.clear();
  rest.inside.clear();
  for (std::size_t i = 0; i < request.labels.size(); ++i)
    (inside[i] ? rest.inside : rest.labels).push_back(request.labels[i]);
  return rest;
}

std::optional<Fit> whole_fit(const FitRequest& request, const std::vector<bool>& inside, Fit fit,
                             std::vector<bool>& homeless) {
  const std::size_t n = request.labels.size();
  std::vector<Label> labels(n);
  std::vector<Placement> placements(n);
  std::vector<bool> as_number(n, false);
  homeless.assign(n, false);
  for (std::size_t i = 0, k = 0; i < n; ++i) {
    if (inside[i]) {
      labels[i] = inside_on_page(request.labels[i], fit.text_step, fit.figure_to_page);
      continue;
    }
    labels[i] = fit.problem.labels[k];
    as_number[i] = fit.as_number[k];
    placements[i] = fit.solution.placements[k++];
  }
  std::vector<PageBox> taken;
  const std::vector<PageBox> obstacles = obstacles_on_page(request, fit.figure_to_page);
  bool all = true;
  for (std::size_t i = 0; i < n; ++i) {
    if (!inside[i]) continue;
    const auto place = place_inside(labels[i], labels, taken, obstacles, request.rules);
    if (!place) {
      homeless[i] = true;
      all = false;
      continue;
    }
    taken.push_back(place->box);
    placements[i] = *place;
  }
  if (!all) return std::nullopt;
  if (!taken.empty()) fit.reckoned = nullptr, fit.solution.on_grid = {};
  fit.problem.labels = std::move(labels);
  fit.problem.obstacles = obstacles;
  fit.solution.placements = std::move(placements);
  fit.as_number = std::move(as_number);
  return fit;
}

std::variant<Fit, Infeasible> fit(const FitRequest& request, const Effort& effort) {
  std::vector<bool> inside;
  for (const FitLabel& label : request.labels) inside.push_back(label.room != nullptr);
  // Who finds no place at the size that the figure gets goes beside it; the figure may
  // become smaller so, and others homeless.
  while (std::find(inside.begin(), inside.end(), true) != inside.end()) {
    auto rest = fit_beside(beside(request, inside), effort);
    const Fit* part = std::get_if<Fit>(&rest);
    if (part == nullptr || part->text_step > 0 ||
        std::find(part->as_number.begin(), part->as_number.end(), true) != part->as_number.end())
      break;
    std::vector<bool> homeless;
    if (auto whole = whole_fit(request, inside, *part, homeless)) return *std::move(whole);
    for (std::size_t i = 0; i < inside.size(); ++i) inside[i] = inside[i] && !homeless[i];
  }
  return fit_beside(request, effort);
}

}  // namespace platewright::place
