#include "place/route_model.hpp"

#include <algorithm>
#include <cmath>

#include "base/at.hpp"
#include "place/cost_terms.hpp"

namespace platewright::place {
namespace {

}  // namespace

Shapes shapes_of(const Station& s, int most) {
  const Problem& problem = *s.rules->problem;
  struct Item {
    double before, after;
    int label, variant;
  };
  std::vector<Item> items;
  Shapes shapes;
  shapes.of.resize(s.labels.size());
  for (std::size_t i = 0; i < s.labels.size(); ++i) {
    shapes.of[i].assign(problem.labels[i].variants.size(), -1);
    if (s.labels[i].targets.empty()) continue;
    for (const int v : s.labels[i].variants)
      items.push_back({s.before(static_cast<int>(i), v), s.after(static_cast<int>(i), v),
                       static_cast<int>(i), v});
  }
  std::sort(items.begin(), items.end(), [](const Item& a, const Item& b) {
    if (a.before != b.before) return a.before < b.before;
    if (a.after != b.after) return a.after < b.after;
    return a.label != b.label ? a.label < b.label : a.variant < b.variant;
  });
  // Equal boxes are one class; with too many classes, boxes within `near` are.
  double spread = 0;
  for (const Item& item : items) spread = std::max({spread, item.before, item.after});
  for (double near = 1e-9;; near = std::max(2 * near, spread / 256)) {
    shapes.reach.clear();
    shapes.count.clear();
    for (const Item& item : items) {
      std::size_t k = 0;
      for (; k < shapes.reach.size(); ++k) {
        const Reach& r = shapes.reach[k];
        if (std::max(r.before_high, item.before) - std::min(r.before_low, item.before) <= near &&
            std::max(r.after_high, item.after) - std::min(r.after_low, item.after) <= near)
          break;
      }
      if (k == shapes.reach.size()) {
        shapes.reach.push_back({item.before, item.before, item.after, item.after});
        shapes.count.push_back(0);
      }
      ++shapes.count[k];
      Reach& r = shapes.reach[k];
      r.before_low = std::min(r.before_low, item.before);
      r.before_high = std::max(r.before_high, item.before);
      r.after_low = std::min(r.after_low, item.after);
      r.after_high = std::max(r.after_high, item.after);
      shapes.of[at(item.label)][at(item.variant)] = static_cast<int>(k);
    }
    if (static_cast<int>(shapes.reach.size()) <= most) break;
  }
  return shapes;
}

namespace {

// The least gap cost where the free gap lies between two lengths.
double least_gap_cost(const Weights& weights, double low, double high, double fair) {
  return gap_cost(weights, std::clamp(fair, low, std::max(low, high)), fair);
}

}  // namespace

void fill_pairs(RouteModel::Line& line, const Shapes& shapes, const Problem& problem, double step,
                double fair, double loose) {
  const double gap = problem.rules.label_gap;
  for (const Reach& a : shapes.reach)
    for (const Reach& b : shapes.reach) {
      RouteModel::Pair pair;
      const double low = a.after_low + b.before_low, high = a.after_high + b.before_high;
      // Loose ports: their slots are as far apart as leaves some pair of them the
      // distance, (d + loose) > low + gap; `verify` forgives 1e-6 mm.
      const double least = (low + gap - 1e-6) / step;
      pair.nearest =
          std::max(1, static_cast<int>(loose > 0 ? std::floor(least) : std::ceil(least - 1e-7)));
      for (int d = pair.nearest;; ++d) {
        const double near = step * d - loose - high, far = step * d + loose - low;
        pair.cost.push_back(least_gap_cost(problem.weights, std::max(near, gap - 1e-6), far, fair));
        if (near >= 2 * fair) break;
      }
      line.pairs.push_back(std::move(pair));
    }
}

void start_model(RouteModel& model, const Problem& problem) {
  model.groups = 0;
  for (std::size_t i = 0; i < problem.labels.size(); ++i) {
    std::size_t same = 0;
    while (problem.labels[same].group != problem.labels[i].group) ++same;
    model.group_of.push_back(same == i ? model.groups++ : model.group_of[same]);
  }
  model.groups = std::max(1, model.groups);
  model.group_break = problem.weights.group_break;
  model.balance = problem.rows.empty() ? problem.weights.balance : 0;
}

RouteModel::Entry& entry_of(RouteModel::Line& line, int label, int shape) {
  for (RouteModel::Entry& e : line.entries)
    if (e.label == label && e.shape == shape) return e;
  line.entries.push_back({label, shape, std::vector<double>(at(line.slots), never)});
  return line.entries.back();
}

RouteModel grid_model(const std::vector<Station>& stations, double fair, int most_shapes) {
  const Problem& problem = *stations.front().rules->problem;
  RouteModel model;
  start_model(model, problem);
  for (const Station& s : stations) {
    RouteModel::Line line;
    line.slots = s.slots;
    line.lean = s.side == Side::left ? -1 : s.side == Side::right ? 1 : 0;
    const Shapes shapes = shapes_of(s, most_shapes);
    line.shapes = static_cast<int>(shapes.reach.size());
    line.shape_of = shapes.of;
    for (std::size_t i = 0; i < s.labels.size(); ++i) {
      const StationLabel& l = s.labels[i];
      for (const int v : l.variants) {
        const int shape = shapes.of[i][at(v)];
        if (shape < 0) continue;
        RouteModel::Entry& entry = entry_of(line, static_cast<int>(i), shape);
        for (int slot = 0; slot < s.slots; ++slot) {
          if (!box_fits(s, static_cast<int>(i), v, slot)) continue;
          double least = never;
          for (std::size_t k = 0; k < l.targets.size(); ++k)
            least = std::min(least, l.lines[k * at(s.slots) + at(slot)]);
          double& cost = entry.cost[at(slot)];
          cost = std::min(cost, least + problem.labels[i].variants[at(v)].penalty);
        }
      }
    }
    fill_pairs(line, shapes, problem, s.step, fair, 0);
    model.lines.push_back(std::move(line));
  }
  return model;
}

void close_dear(RouteModel& model, const std::vector<double>& more) {
  std::vector<double> least(model.group_of.size(), never);
  for (const RouteModel::Line& line : model.lines)
    for (const RouteModel::Entry& e : line.entries)
      for (const double c : e.cost) least[at(e.label)] = std::min(least[at(e.label)], c);
  for (RouteModel::Line& line : model.lines) {
    line.closed.assign(least.size(), never);
    for (RouteModel::Entry& e : line.entries)
      for (double& c : e.cost)
        if (c < never && c > least[at(e.label)] + more[at(e.label)]) {
          line.closed[at(e.label)] = std::min(line.closed[at(e.label)], c);
          c = never;
        }
  }
}

}  // namespace platewright::place
