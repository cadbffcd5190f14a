#include "place/inside.hpp"

#include <algorithm>
#include <cmath>

#include "place/leader.hpp"

namespace platewright::place {
namespace {

// Sums of what is not free, so that a box is asked in one step.
class Taken {
 public:
  explicit Taken(const Room& room)
      : columns_(room.columns), sums_(size(room.columns + 1) * size(room.rows + 1), 0) {
    for (int r = 0; r < room.rows; ++r)
      for (int c = 0; c < room.columns; ++c)
        sum(c + 1, r + 1) = sum(c, r + 1) + sum(c + 1, r) - sum(c, r) +
                            (room.free[size(r) * size(room.columns) + size(c)] != 0 ? 0 : 1);
  }
  bool none(int left, int top, int right, int bottom) const {  // ends not counted
    return at(right, bottom) - at(left, bottom) - at(right, top) + at(left, top) == 0;
  }

 private:
  static std::size_t size(int i) { return static_cast<std::size_t>(i); }
  int& sum(int c, int r) { return sums_[size(r) * size(columns_ + 1) + size(c)]; }
  int at(int c, int r) const { return sums_[size(r) * size(columns_ + 1) + size(c)]; }
  int columns_;
  std::vector<int> sums_;
};

double to_point(const PageBox& b, PagePoint p) {
  return std::hypot(std::max({b.left() - p.x, 0.0, p.x - b.right()}),
                    std::max({b.top() - p.y, 0.0, p.y - b.bottom()}));
}

}  // namespace

std::shared_ptr<const Room> on_page(const FigureRoom& room, const FigureToPage& to_page) {
  return std::make_shared<const Room>(
      Room{to_page(room.box), room.columns, room.rows, room.free});
}

Label on_page(const FitLabel& from, const std::vector<Variant>& variants,
              const FigureToPage& to_page) {
  Label label;
  label.anchor = from.anchor;
  label.variants = variants;
  for (const FitLabel::End& end : from.targets) {
    Target target;
    target.penalty = end.penalty;
    for (const FigurePoint& point : end.points) target.points.push_back(to_page(point));
    label.targets.push_back(std::move(target));
  }
  label.preferred = from.preferred;
  label.group = from.group;
  return label;
}

Label inside_on_page(const FitLabel& from, int text_step, const FigureToPage& to_page) {
  const auto step = std::min(static_cast<std::size_t>(text_step), from.variants.size() - 1);
  Label label = on_page(from, from.variants[step], to_page);
  label.room = on_page(*from.room, to_page);
  return label;
}

bool holds(const Room& room, const PageBox& box) {
  if (room.columns <= 0 || room.rows <= 0) return false;
  const double cell_w = room.box.w / room.columns, cell_h = room.box.h / room.rows;
  const int left = static_cast<int>(std::floor((box.left() - room.box.x) / cell_w + 1e-9)),
            top = static_cast<int>(std::floor((box.top() - room.box.y) / cell_h + 1e-9)),
            right = static_cast<int>(std::ceil((box.right() - room.box.x) / cell_w - 1e-9)),
            bottom = static_cast<int>(std::ceil((box.bottom() - room.box.y) / cell_h - 1e-9));
  if (left < 0 || top < 0 || right > room.columns || bottom > room.rows) return false;
  for (int r = top; r < bottom; ++r)
    for (int c = left; c < right; ++c)
      if (room.free[static_cast<std::size_t>(r) * static_cast<std::size_t>(room.columns) +
                    static_cast<std::size_t>(c)] == 0)
        return false;
  return true;
}

std::optional<Placement> place_inside(const Label& label, const std::vector<Label>& others,
                                      const std::vector<PageBox>& taken,
                                      const std::vector<PageBox>& obstacles, const Rules& rules) {
  if (!label.room || label.room->columns <= 0 || label.room->rows <= 0) return std::nullopt;
  const Room& room = *label.room;
  const Taken blocked(room);
  const double cell_w = room.box.w / room.columns, cell_h = room.box.h / room.rows;
  const PagePoint wish = label.targets.front().points.front();
  for (std::size_t v = 0; v < label.variants.size(); ++v) {
    const double w = label.variants[v].width, h = label.variants[v].height;
    // Whole cells that hold the box and the gap around it.
    const int across = static_cast<int>(std::ceil((w + 2 * rules.label_gap) / cell_w - 1e-9)),
              down = static_cast<int>(std::ceil((h + 2 * rules.label_gap) / cell_h - 1e-9));
    std::optional<Placement> best;
    double nearest = 0;
    for (int r = 0; r + down <= room.rows; ++r)
      for (int c = 0; c + across <= room.columns; ++c) {
        if (!blocked.none(c, r, c + across, r + down)) continue;
        const PagePoint middle{room.box.x + (c + across / 2.0) * cell_w,
                               room.box.y + (r + down / 2.0) * cell_h};
        const double off = distance(middle, wish);
        if (best && off >= nearest) continue;
        const PageBox box{middle.x - w / 2, middle.y - h / 2, w, h};
        if (std::any_of(obstacles.begin(), obstacles.end(),
                        [&](const PageBox& o) { return overlap(box, o) && !o.contains(wish); }))
          continue;
        if (std::any_of(taken.begin(), taken.end(), [&](const PageBox& t) {
              return distance(box, t) < rules.label_gap + 1e-6;
            }))
          continue;
        if (std::any_of(others.begin(), others.end(), [&](const Label& other) {
              return other.anchor != label.anchor &&
                     std::any_of(other.targets.front().points.begin(),
                                 other.targets.front().points.end(), [&](PagePoint p) {
                                   return to_point(kept_free(box, rules), p) <
                                          rules.anchor_gap + 1e-6;
                                 });
            }))
          continue;
        best = Placement{Side::inside, 0, static_cast<int>(v), 0, box, middle};
        nearest = off;
      }
    if (best) return best;
  }
  return std::nullopt;
}

std::vector<PageBox> obstacles_on_page(const FitRequest& request, const FigureToPage& to_page) {
  std::vector<PageBox> all = request.obstacles;
  for (const FigureBox& inset : request.insets) all.push_back(to_page(inset));
  return all;
}

PageBox kept_free(const PageBox& inside, const Rules& rules) {
  return inside.grown(std::max({rules.label_gap, rules.leader_gap, 0.5}) + 1e-6);
}

bool any_inside(const std::vector<Placement>& placements) {
  return std::any_of(placements.begin(), placements.end(),
                     [](const Placement& p) { return p.side == Side::inside; });
}

Beside beside(const Problem& problem, const std::vector<Placement>& placements) {
  Beside rest;
  rest.problem = problem;
  rest.problem.labels.clear();
  for (std::size_t i = 0; i < problem.labels.size(); ++i) {
    if (i < placements.size() && placements[i].side == Side::inside) {
      rest.problem.obstacles.push_back(kept_free(placements[i].box, problem.rules));
      continue;
    }
    rest.labels.push_back(i);
    rest.problem.labels.push_back(problem.labels[i]);
    if (i < placements.size()) rest.placements.push_back(placements[i]);
  }
  return rest;
}

}  // namespace platewright::place
