// The label sets that share one layout: what each asks for at a leader's end, and
// the labels that satisfy all of them. One set alone is the usual case.
#pragma once

#include <memory>
#include <vector>

#include "engine/measured.hpp"

namespace platewright {

using Measured = std::shared_ptr<const std::vector<MeasuredLabel>>;  // sorted by anchor

// One set of readers. Pointers are into Loaded, never null.
struct Member {
  const LabelSet* set = nullptr;
  const compose::Matter* matter = nullptr;
  const Words* words = nullptr;
  Measured measured;
};

// The asked set and its siblings, in the table's order; `asked` becomes the index of the
// first. The order, and so the layout, is the same whichever set is asked for.
std::vector<Member> members_of(const Loaded& loaded, const text::Typesetter& typesetter,
                               std::size_t& asked);

// What one member's labels need on one page.
struct MemberRoom {
  Measured measured;
  std::vector<double> steps;               // type sizes, points, largest first
  std::vector<std::vector<int>> kept = {};       // [label][variant]: index of its way
  std::vector<place::FitLabel> labels = {};      // by measured label
  std::size_t step(int joint) const;       // its type size at a joint text step
};

// Labels whose boxes hold every member's. `ways[label][variant]`: how many ways each
// member goes down its own list for it.
struct JointLabels {
  std::vector<place::FitLabel> labels;  // sorted by anchor
  std::vector<std::vector<int>> ways;
  std::size_t steps = 0;
};
JointLabels joint_labels(const std::vector<MemberRoom>& rooms);

// A fit as the layout that one member's readers see: its labels, its type.
Layout layout_of(const place::Fit& fit, const JointLabels& joint, const MemberRoom& room,
                 const Paper& paper, const FigureBox& painted, double label_gap);

}  // namespace platewright
