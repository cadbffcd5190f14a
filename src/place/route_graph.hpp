// The places that a bound leaves open, joined wherever one can follow the other:
// a graph in which every placement is a route that meets each label once. Leaders
// of neighbours that meet are left out. Two searches run on it: bounds on routes
// that remember only some of the labels they met (ng-routes, Baldacci, Mingozzi,
// Roberti 2011; the memories grow where routes repeat labels, Roberti and Mingozzi
// 2014), and the exact one that remembers all.
#pragma once

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

#include "place/draft.hpp"
#include "place/one_side.hpp"
#include "place/both_ways.hpp"

namespace platewright::place {

struct RouteNode {
  int label = -1;  // -1: between two stations
  int line = 0;
  Choice choice;
  double cost = 0;
  // Labels whose leaders would cross this one if they stood anywhere before (after) it on its line.
  LabelSet never_before = 0, never_after = 0;
};

// The set of one label; empty between two stations.
inline LabelSet bit(int label) { return label < 0 ? 0 : LabelSet{1} << label; }

class RouteGraph {
 public:
  // All routes that can cost less than `below` by these prices. `most_arcs`: given up beyond.
  RouteGraph(const std::vector<Station>& stations, const BothWays& routes,
             const RoutePrices& prices, double fair, double below, std::size_t most_arcs);

  bool complete() const { return complete_; }
  // Takes away the arcs between places that break a rule together; until then
  // only crossings are seen to. Before `search`.
  void check_neighbours();
  std::size_t work() const { return on_.work; }  // of the last bound
  // Takes away the arcs of which no route by these prices costs less than `below`.
  void reduce(double below);
  std::size_t nodes() const { return nodes_.size(); }
  std::size_t arcs() const { return arc_cost_.size(); }

  // The least cost of a route by these prices, with the memories so far.
  double bound(const RoutePrices& prices);
  void meets(std::vector<int>& times, int& lean) const;
  // Lengthens memories along the last route; false where it repeats no label and
  // no leaders cross.
  bool remember();
  const std::vector<LabelSet>& memories() const { return memory_; }
  void set_memories(const std::vector<LabelSet>& memories) { memory_ = memories; }

  struct Found {
    bool whole = false;  // every route cheaper than `below` was looked at
    bool found = false;
    double cost = never;  // of the cheapest; a bound where `clash` is not empty
    Draft draft;
    std::vector<std::pair<int, int>> clash;  // labels of it that break a rule, the first one first
    std::size_t states = 0;
  };
  // The cheapest route that meets each label once; `watched`: labels whose
  // places must also agree though they are no neighbours.
  Found search(double below, std::size_t most_states,
               const std::vector<std::pair<int, int>>& watched) const;

 private:
  struct State {
    LabelSet memory = 0;  // labels met
    LabelSet here = 0;    // those of them on this line
    LabelSet ban = 0;     // labels that would cross one of this line
    double value = never;
    std::uint32_t next = 0;
  };
  struct Arc {
    std::uint32_t from, to;
    double cost;
  };
  // The states of each node: those of ways on from it, or of ways up to it.
  struct Sweep {
    std::vector<State> states;
    std::vector<std::uint32_t> begin, end;
    std::size_t work = 0;  // states looked at
  };
  void sweep(bool back, Sweep& sweep) const;
  std::vector<std::size_t> last_route() const;  // nodes with labels
  void join(const std::vector<Arc>& arcs);

  const Problem& problem_;
  const std::vector<Station>& stations_;
  bool complete_ = true;
  std::vector<RouteNode> nodes_;  // in the order of routes
  std::vector<std::uint32_t> first_arc_, arc_to_, first_into_, into_from_, into_arc_;
  std::vector<double> arc_cost_;
  std::vector<LabelSet> memory_;  // by label: the labels it does not make forget
  double balance_;                // RouteModel::balance
  RoutePrices prices_;
  double uneven_ = 0;  // what the balance costs at least beyond the prices
  double sum_ = 0;     // of all prices and `uneven_`
  Sweep on_;  // ways on from each node
  double reduced(const RouteNode& n) const;
  Placed placed_at(std::size_t node) const;
};

}  // namespace platewright::place
