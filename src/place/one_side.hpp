// The exact program for one station (Benkert, Haverkort, Kroll, Nöllenburg 2009,
// carried over to straight leaders on slots): of the labels between two placed
// leaders, the one whose target lies farthest separates all others, so choose
// its place and go on with what lies before and after it.
#pragma once

#include <cstdint>
#include <unordered_map>
#include <vector>

#include "place/candidates.hpp"

namespace platewright::place {

// Sets of labels are bits; a station is solved exactly for at most 64 labels of
// the problem (label index = bit).
using LabelSet = std::uint64_t;

class OneSide {
 public:
  OneSide(const Station& station, double fair, long nodes);

  struct Answer {
    bool found = false;   // something cheaper than `below`
    bool proven = false;  // nothing cheaper exists (or, not found: nothing below `below`)
    double cost = never;
    double bound = 0;  // proven lower bound on the cost of this set, never above the cost
    std::vector<Choice> choices;
  };
  // The cheapest placement of just these labels that costs less than `below`.
  Answer solve(LabelSet labels, double below);
  // Sum of each label's cheapest slot, `never` when one has none or the heights do not fit.
  double quick_bound(LabelSet labels) const;
  long nodes_left() const { return nodes_; }

 private:
  struct Spot {  // a choice with its box; label -1: no bound
    int label = -1, variant = 0, k = 0, slot = 0;
    std::uint32_t id = 0xffffffffu;
    double start = 0, end = 0, along = 0;
    Placed placed;
  };
  struct Key {
    std::uint32_t upper, lower;
    LabelSet labels;
    bool operator==(const Key&) const = default;
  };
  struct KeyHash {
    std::size_t operator()(const Key& k) const {
      std::uint64_t h =
          (static_cast<std::uint64_t>(k.upper) << 32 | k.lower) * 0x9e3779b97f4a7c15ull;
      h ^= h >> 29;
      h = (h + k.labels) * 0xbf58476d1ce4e5b9ull;
      return static_cast<std::size_t>(h ^ (h >> 32));
    }
  };
  struct Entry {
    double bound = 0;      // proven: nothing cheaper exists
    double value = never;  // the best found, with the choice below
    double tried = 0;      // nothing below this was found by a search that left something out
    bool whole = true;     // the search that found `value` left nothing out
    std::uint32_t choice = 0;
    LabelSet before = 0;
  };
  struct Split {
    LabelSet before = 0, after = 0;
    bool known = false;
  };

  double search(const Spot& upper, const Spot& lower, LabelSet labels, double below, int depth);
  double bound(const Spot& upper, const Spot& lower, LabelSet labels, double* each) const;
  double joint(const Spot& upper, const Spot& lower) const;
  double least_breaks(int upper, int lower, LabelSet labels) const;
  Spot spot(std::uint32_t id) const;
  Spot spot(int label, int k, int variant, int slot) const;
  const Split& split(const Spot& at);
  bool agree(const Spot& a, const Spot& b);
  void collect(const Spot& upper, const Spot& lower, LabelSet labels,
               std::vector<Choice>& out) const;

  const Station& station_;
  const Problem& problem_;
  double fair_;
  long nodes_;
  bool cut_ = false;                 // the search left something unexplored
  std::vector<int> groups_;          // of each label; labels without one share one
  std::vector<std::uint32_t> base_;  // first id of each label
  std::vector<std::vector<std::vector<double>>> least_;  // [label][level][slot] range minima
  std::unordered_map<Key, Entry, KeyHash> memo_;
  std::unordered_map<std::uint32_t, Split> splits_;
};

}  // namespace platewright::place
