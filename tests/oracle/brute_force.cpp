#include "brute_force.hpp"

#include <algorithm>
#include <limits>
#include <numeric>

namespace platewright::oracle {
namespace {

struct Search {
  const place::Problem& problem;
  std::vector<std::vector<Option>> all;
  std::vector<std::size_t> order = {};                   // labels, fewest options first
  std::vector<double> rest = {};                         // least own cost of labels order[k..]
  std::vector<std::vector<char>> fits = {};              // [pair of options], flat numbers
  std::vector<std::size_t> first = {};                   // flat number of a label's first option
  std::vector<const Option*> chosen = {};
  std::vector<std::size_t> flat = {};
  double best = std::numeric_limits<double>::infinity();
  std::vector<const Option*> best_chosen = {};

  void go(std::size_t depth, double own) {
    if (depth == order.size()) {
      const double cost = total_cost(problem, chosen);
      if (cost < best) {
        best = cost;
        best_chosen = chosen;
      }
      return;
    }
    const std::size_t label = order[depth];
    for (std::size_t o = 0; o < all[label].size(); ++o) {
      const std::size_t number = first[label] + o;
      const double sum = own + all[label][o].own_cost;
      if (sum + rest[depth + 1] >= best) continue;
      bool fine = true;
      for (std::size_t k = 0; k < depth && fine; ++k) fine = fits[number][flat[k]] != 0;
      if (!fine) continue;
      chosen[label] = &all[label][o];
      flat.push_back(number);
      go(depth + 1, sum);
      flat.pop_back();
    }
  }
};

}  // namespace

std::optional<Best> brute_force(const place::Problem& problem, double slack) {
  Search search{.problem = problem, .all = options(problem)};
  const std::size_t n = problem.labels.size();
  std::size_t total = 0;
  for (auto& of_label : search.all) {
    std::stable_sort(of_label.begin(), of_label.end(),
                     [](const Option& a, const Option& b) { return a.own_cost < b.own_cost; });
    search.first.push_back(total);
    total += of_label.size();
    if (of_label.empty()) return std::nullopt;
  }
  search.fits.assign(total, std::vector<char>(total, 0));
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = i + 1; j < n; ++j)
      for (std::size_t a = 0; a < search.all[i].size(); ++a)
        for (std::size_t b = 0; b < search.all[j].size(); ++b) {
          const bool fit = compatible(problem, search.all[i][a], search.all[j][b], slack);
          search.fits[search.first[i] + a][search.first[j] + b] = fit;
          search.fits[search.first[j] + b][search.first[i] + a] = fit;
        }
  search.order.resize(n);
  std::iota(search.order.begin(), search.order.end(), std::size_t{0});
  std::stable_sort(search.order.begin(), search.order.end(), [&](std::size_t a, std::size_t b) {
    return search.all[a].size() < search.all[b].size();
  });
  search.rest.assign(n + 1, 0);
  for (std::size_t k = n; k-- > 0;)
    search.rest[k] = search.rest[k + 1] + search.all[search.order[k]].front().own_cost;
  search.chosen.assign(n, nullptr);
  search.go(0, 0);
  if (n > 0 && search.best_chosen.empty()) return std::nullopt;
  Best best;
  best.cost = search.best;
  for (const Option* o : search.best_chosen) best.placements.push_back(o->placement);
  return best;
}

}  // namespace platewright::oracle
