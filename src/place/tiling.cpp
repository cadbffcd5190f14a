#include "place/tiling.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <tuple>

#include "place/cell_edges.hpp"

namespace platewright::place {
namespace {

// Part of an axis that belongs to one tile, or to two that overlap there.
struct Stretch {
  int low = 0, high = 0;  // cells [low, high)
  int first = 0;          // tile
  bool shared = false;    // by `first` and `first + 1`
};

// The axis between occupied ends, cut at the edges of tiles that begin at
// `offset` + k * pitch; tile 0 is the first that reaches `from`. All in cells.
struct Axis {
  std::vector<Stretch> stretches;
  double start = 0;  // of tile 0
  int tiles = 0;
};

Axis cut(double offset, double tile, double overlap, int from, int to) {
  const double pitch = tile - overlap;
  Axis axis;
  // The first tile is the last whose start is not right of `from`; the one
  // before shares its strip.
  double k = std::floor((from - offset) / pitch + hair);
  if (offset + (k - 1) * pitch + tile > from + hair) k -= 1;
  axis.start = offset + k * pitch;
  for (int i = 0;; ++i) {
    const double left = axis.start + i * pitch;
    if (left >= to - hair) break;
    axis.tiles = i + 1;
    const auto add = [&](double a, double b, int first, bool shared) {
      const int low = std::max(floor_cell(a), from), high = std::min(ceil_cell(b), to);
      if (b - a > hair && high > low) axis.stretches.push_back({low, high, first, shared});
    };
    // Its strip with the tile before is added by that one.
    add(i == 0 ? left : left + overlap, left + pitch, i, false);
    add(left + pitch, left + tile, i, true);
  }
  // The last strip may be shared with a tile that was not counted.
  for (const Stretch& s : axis.stretches)
    if (s.shared) axis.tiles = std::max(axis.tiles, s.first + 2);
  return axis;
}

// Remainders of run starts, in cells, without repeats.
std::vector<double> offsets(const std::vector<bool>& starts, double pitch) {
  std::vector<double> all;
  for (std::size_t i = 0; i < starts.size(); ++i)
    if (starts[i]) {
      const double remainder = std::fmod(static_cast<double>(i), pitch);
      all.push_back(pitch - remainder < hair ? 0.0 : remainder);
    }
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end(), [](double a, double b) { return b - a < hair; }),
            all.end());
  return all;
}

// The least number of tiles to add so that every choice has one of its tiles.
class Chooser {
 public:
  using Choice = std::vector<int>;
  Chooser(std::vector<Choice> choices, std::size_t tiles, int most)
      : choices_(std::move(choices)), taken_(tiles, false), best_(most + 1) {}
  // Tiles to add, or nothing when more than `most` are needed.
  std::optional<std::vector<int>> run() {
    search(0);
    return found_;
  }
  bool exact() const { return steps_ < most_steps; }

 private:
  bool met(const Choice& c) const {
    return std::any_of(c.begin(), c.end(),
                       [&](int t) { return taken_[static_cast<std::size_t>(t)]; });
  }
  // Choices that share no tile each need one of their own.
  int bound() const {
    std::vector<bool> used(taken_.size(), false);
    int count = 0;
    for (const Choice& c : choices_) {
      if (met(c)) continue;
      if (std::any_of(c.begin(), c.end(), [&](int t) { return used[static_cast<std::size_t>(t)]; }))
        continue;
      for (const int t : c) used[static_cast<std::size_t>(t)] = true;
      ++count;
    }
    return count;
  }
  void search(int depth) {
    if (++steps_ >= most_steps && found_) return;
    if (depth + bound() >= best_) return;
    const auto open =
        std::find_if(choices_.begin(), choices_.end(), [&](const Choice& c) { return !met(c); });
    if (open == choices_.end()) {
      best_ = depth;
      found_ = chosen_;
      return;
    }
    for (const int t : *open) {
      taken_[static_cast<std::size_t>(t)] = true;
      chosen_.push_back(t);
      search(depth + 1);
      chosen_.pop_back();
      taken_[static_cast<std::size_t>(t)] = false;
    }
  }

  static constexpr long most_steps = 50'000;
  std::vector<Choice> choices_;
  std::vector<bool> taken_;
  std::vector<int> chosen_;
  std::optional<std::vector<int>> found_;
  int best_;
  long steps_ = 0;
};

struct Search {
  const Occupancy& occupancy;

  // The tiles needed on these axes if at most `most`.
  std::optional<std::vector<Tile>> needed(const Axis& across, const Axis& down, int most,
                                          bool& exact) const {
    // Counted first, since most offsets end here.
    int count = 0;
    for (const Stretch& y : down.stretches) {
      if (y.shared) continue;
      for (const Stretch& x : across.stretches)
        if (!x.shared && occupancy.any_within(x.low, y.low, x.high, y.high) && ++count > most)
          return std::nullopt;
    }
    std::vector<bool> taken(
        static_cast<std::size_t>(across.tiles) * static_cast<std::size_t>(down.tiles), false);
    const auto index = [&](int row, int column) { return row * across.tiles + column; };
    for (const Stretch& y : down.stretches) {
      if (y.shared) continue;
      for (const Stretch& x : across.stretches) {
        if (x.shared || !occupancy.any_within(x.low, y.low, x.high, y.high)) continue;
        taken[static_cast<std::size_t>(index(y.first, x.first))] = true;
      }
    }
    std::vector<Chooser::Choice> open;
    for (const Stretch& y : down.stretches)
      for (const Stretch& x : across.stretches) {
        if (!x.shared && !y.shared) continue;
        Chooser::Choice choice;
        for (int r = 0; r <= (y.shared ? 1 : 0); ++r)
          for (int c = 0; c <= (x.shared ? 1 : 0); ++c)
            choice.push_back(index(y.first + r, x.first + c));
        if (std::any_of(choice.begin(), choice.end(),
                        [&](int t) { return taken[static_cast<std::size_t>(t)]; }))
          continue;
        if (occupancy.any_within(x.low, y.low, x.high, y.high)) open.push_back(std::move(choice));
      }
    if (!open.empty()) {
      Chooser chooser(std::move(open), taken.size(), most - count);
      const auto added = chooser.run();
      exact = exact && chooser.exact();
      if (!added) return std::nullopt;
      for (const int t : *added) taken[static_cast<std::size_t>(t)] = true;
    }
    std::vector<Tile> tiles;
    for (int r = 0; r < down.tiles; ++r)
      for (int c = 0; c < across.tiles; ++c)
        if (taken[static_cast<std::size_t>(index(r, c))]) tiles.push_back({r, c});
    return tiles;
  }

  // Whether the printed tiles of a tiling cover everything.
  bool covers(const Tiling& t) const {
    const double g = occupancy.cell();
    const PageBox box = occupancy.box();
    const int left = floor_cell(box.left() / g), right = ceil_cell(box.right() / g);
    const int top = floor_cell(box.top() / g), bottom = ceil_cell(box.bottom() / g);
    const Axis across = cut(t.left / g, t.width / g, t.overlap / g, left, right);
    const Axis down = cut(t.top / g, t.height / g, t.overlap / g, top, bottom);
    const int c0 =
        static_cast<int>(std::lround((across.start - t.left / g) / ((t.width - t.overlap) / g)));
    const int r0 =
        static_cast<int>(std::lround((down.start - t.top / g) / ((t.height - t.overlap) / g)));
    for (const Stretch& y : down.stretches)
      for (const Stretch& x : across.stretches) {
        if (!occupancy.any_within(x.low, y.low, x.high, y.high)) continue;
        bool printed = false;
        for (int r = 0; r <= (y.shared ? 1 : 0); ++r)
          for (int c = 0; c <= (x.shared ? 1 : 0); ++c)
            printed = printed || t.prints({r0 + y.first + r, c0 + x.first + c});
        if (!printed) return false;
      }
    return true;
  }
};

// Moves the grid to the middle of where the same tiles still cover.
void centre(Tiling& tiling, double Tiling::*offset, double pitch, const Search& search) {
  const double step = 0.5;  // mm
  const double here = tiling.*offset;
  double reach[2] = {0, 0};
  for (const int way : {0, 1})
    for (double d = step; d < pitch; d += step) {
      tiling.*offset = here + (way == 0 ? -d : d);
      if (!search.covers(tiling)) break;
      reach[way] = d;
    }
  tiling.*offset = here + (reach[1] - reach[0]) / 2;
  if (!search.covers(tiling)) tiling.*offset = here;
}

// Drops the grid's empty outer rows and columns.
void trim(Tiling& t) {
  int top = std::numeric_limits<int>::max(), left = top, bottom = -1, right = -1;
  for (const Tile& tile : t.printed) {
    top = std::min(top, tile.row);
    left = std::min(left, tile.column);
    bottom = std::max(bottom, tile.row);
    right = std::max(right, tile.column);
  }
  for (Tile& tile : t.printed) tile = {tile.row - top, tile.column - left};
  t.left += left * (t.width - t.overlap);
  t.top += top * (t.height - t.overlap);
  t.rows = bottom - top + 1;
  t.columns = right - left + 1;
}

}  // namespace

std::optional<Tiling> fewest_tiles(const Cells& cells, double width, double height,
                                   double overlap) {
  const Occupancy occupancy(cells);
  const PageBox box = occupancy.box();
  if (box.w <= 0) return std::nullopt;
  const double g = cells.cell;
  const int left = floor_cell(box.left() / g), right = ceil_cell(box.right() / g);
  const int top = floor_cell(box.top() / g), bottom = ceil_cell(box.bottom() / g);

  std::vector<bool> x_starts(static_cast<std::size_t>(cells.columns), false);
  std::vector<bool> y_starts(static_cast<std::size_t>(cells.rows), false);
  for (int r = top; r < bottom; ++r)
    for (int c = left; c < right; ++c) {
      if (cells.at(c, r) == 0) continue;
      if (c == left || cells.at(c - 1, r) == 0) x_starts[static_cast<std::size_t>(c)] = true;
      if (r == top || cells.at(c, r - 1) == 0) y_starts[static_cast<std::size_t>(r)] = true;
    }

  const Search search{occupancy};
  Tiling best;
  best.width = width;
  best.height = height;
  best.overlap = overlap;
  const auto cuts = [&](const std::vector<bool>& starts, double tile, int from, int to) {
    std::vector<Axis> axes;
    for (const double offset : offsets(starts, (tile - overlap) / g))
      axes.push_back(cut(offset, tile / g, overlap / g, from, to));
    return axes;
  };
  const std::vector<Axis> across = cuts(x_starts, width, left, right);
  const std::vector<Axis> down = cuts(y_starts, height, top, bottom);
  int most = std::numeric_limits<int>::max() / 2;
  bool exact = true;
  for (const Axis& y : down)
    for (const Axis& x : across) {
      auto tiles = search.needed(x, y, most, exact);
      if (!tiles) continue;
      most = static_cast<int>(tiles->size()) - 1;
      best.printed = std::move(*tiles);
      best.left = x.start * g;
      best.top = y.start * g;
    }
  best.exact = exact;
  trim(best);
  centre(best, &Tiling::left, width - overlap, search);
  centre(best, &Tiling::top, height - overlap, search);
  return best;
}

}  // namespace platewright::place
