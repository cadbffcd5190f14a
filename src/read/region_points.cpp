#include "read/region_points.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace platewright::read {
namespace {

// A candidate keeps at least this share of the best point's clearance.
constexpr double least_clearance = 0.35;
// Candidates stand at least this many best clearances apart; nearer ones add nothing.
constexpr double least_spread = 0.5;

// Squared distances along one line: the lower envelope of parabolas rooted at
// each sample (Felzenszwalb and Huttenlocher, section 2.1).
class Envelope {
 public:
  explicit Envelope(std::size_t longest) : places_(longest), bounds_(longest + 1), copy_(longest) {}

  void transform(double* samples, std::size_t count) {
    for (std::size_t i = 0; i < count; ++i) copy_[i] = samples[i];
    std::size_t last = 0;
    places_[0] = 0;
    bounds_[0] = -std::numeric_limits<double>::infinity();
    bounds_[1] = std::numeric_limits<double>::infinity();
    for (std::size_t q = 1; q < count; ++q) {
      double cut = meet(q, places_[last]);
      while (cut <= bounds_[last]) cut = meet(q, places_[--last]);
      places_[++last] = q;
      bounds_[last] = cut;
      bounds_[last + 1] = std::numeric_limits<double>::infinity();
    }
    std::size_t k = 0;
    for (std::size_t q = 0; q < count; ++q) {
      const auto x = static_cast<double>(q);
      while (bounds_[k + 1] < x) ++k;
      const double away = x - static_cast<double>(places_[k]);
      samples[q] = away * away + copy_[places_[k]];
    }
  }

 private:
  double meet(std::size_t q, std::size_t p) const {
    const auto a = static_cast<double>(q), b = static_cast<double>(p);
    return ((copy_[q] + a * a) - (copy_[p] + b * b)) / (2 * (a - b));
  }
  std::vector<std::size_t> places_;
  std::vector<double> bounds_, copy_;
};

}  // namespace

std::vector<double> distance_to_edge(const Mask& mask) {
  const auto w = static_cast<std::size_t>(mask.window.w),
             h = static_cast<std::size_t>(mask.window.h);
  // One pixel of outside all around.
  const std::size_t columns = w + 2, rows = h + 2;
  std::vector<double> field(columns * rows, 0.0);
  // Along the columns two sweeps do, since a pixel is either in or out.
  for (std::size_t y = 0; y < h; ++y)
    for (std::size_t x = 0; x < w; ++x)
      if (mask.inside[y * w + x]) field[(y + 1) * columns + x + 1] = field[y * columns + x + 1] + 1;
  for (std::size_t y = rows - 1; y-- > 0;)
    for (std::size_t x = 0; x < columns; ++x)
      field[y * columns + x] = std::min(field[y * columns + x], field[(y + 1) * columns + x] + 1);
  for (double& value : field) value *= value;
  Envelope envelope(columns);
  // A pixel outside hides what lies beyond it, so runs of pixels inside are looked at by
  // themselves, each with the pixel outside at either end.
  for (std::size_t y = 1; y + 1 < rows; ++y) {
    double* row = &field[y * columns];
    for (std::size_t x = 1; x + 1 < columns; ++x) {
      if (row[x] == 0) continue;
      const std::size_t before = x - 1;
      while (row[x] != 0) ++x;
      envelope.transform(row + before, x - before + 1);
    }
  }
  // In its own place, since each value moves towards the start.
  for (std::size_t y = 0; y < h; ++y)
    for (std::size_t x = 0; x < w; ++x)
      field[y * w + x] = std::sqrt(field[(y + 1) * columns + x + 1]);
  field.resize(w * h);
  return field;
}

std::vector<AnchorPoint> region_points(const Mask& mask, const RasterFrame& frame,
                                       std::size_t most) {
  std::vector<AnchorPoint> points;
  if (mask.inside.empty()) return points;
  const std::vector<double> distance = distance_to_edge(mask);
  const double best = *std::max_element(distance.begin(), distance.end());
  if (best <= 0) return points;

  struct Candidate {
    double x, y, clearance, apart;  // apart: squared, from the nearest point chosen
  };
  std::vector<Candidate> candidates;
  candidates.reserve(static_cast<std::size_t>(std::ranges::count_if(
      distance, [&](double d) { return d > 0 && d >= least_clearance * best; })));
  double mean_x = 0, mean_y = 0, count = 0;
  for (int y = 0; y < mask.window.h; ++y)
    for (int x = 0; x < mask.window.w; ++x) {
      const double d = distance[static_cast<std::size_t>(y * mask.window.w + x)];
      if (d <= 0) continue;
      mean_x += x;
      mean_y += y;
      count += 1;
      if (d >= least_clearance * best)
        candidates.push_back({static_cast<double>(x), static_cast<double>(y), d,
                              std::numeric_limits<double>::infinity()});
    }
  mean_x /= count;
  mean_y /= count;

  // Where many are as good (the middle line of an oblong), the one nearest the middle.
  std::size_t chosen = candidates.size();
  double nearest = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    const Candidate& c = candidates[i];
    if (c.clearance < best - 0.25 && c.clearance < 0.98 * best) continue;
    const double away = (c.x - mean_x) * (c.x - mean_x) + (c.y - mean_y) * (c.y - mean_y);
    if (away < nearest) {
      nearest = away;
      chosen = i;
    }
  }
  while (chosen < candidates.size() && points.size() < most) {
    const Candidate pick = candidates[chosen];
    // To a pixel's edge it is half a pixel less than to the next centre.
    const double clearance = std::max(pick.clearance - 0.5, 0.25);
    points.push_back({frame.to_figure(mask.window.x + pick.x + 0.5, mask.window.y + pick.y + 0.5),
                      points.empty() ? 0.0 : std::max(0.0, 1.0 - pick.clearance / best),
                      clearance / frame.scale});
    chosen = candidates.size();
    double merit = 0;
    for (std::size_t i = 0; i < candidates.size(); ++i) {
      Candidate& c = candidates[i];
      const double dx = c.x - pick.x, dy = c.y - pick.y;
      c.apart = std::min(c.apart, dx * dx + dy * dy);
      if (c.apart < least_spread * least_spread * best * best) continue;
      const double value = c.apart * c.clearance;  // the square of apart * sqrt(clearance)
      if (value > merit) {
        merit = value;
        chosen = i;
      }
    }
  }
  std::stable_sort(
      points.begin() + 1, points.end(),
      [](const AnchorPoint& a, const AnchorPoint& b) { return a.penalty < b.penalty; });
  return points;
}

}  // namespace platewright::read
