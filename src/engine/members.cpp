#include "engine/members.hpp"

#include <algorithm>
#include <map>

namespace platewright {

std::vector<Member> members_of(const Loaded& loaded, const text::Typesetter& typesetter,
                               std::size_t& asked) {
  std::vector<Member> members;
  asked = 0;
  const auto measured = [&](const std::vector<SetLabel>& labels, const LabelSet& set) {
    return std::make_shared<const std::vector<MeasuredLabel>>(
        measure_labels(labels, set.language, loaded.style, typesetter));
  };
  const auto own = [&] {
    asked = members.size();
    members.push_back({&loaded.set, &loaded.matter, &loaded.words,
                       measured(loaded.labels, loaded.set)});
  };
  if (loaded.siblings.empty()) {
    own();
    return members;
  }
  for (const LabelSet& set : loaded.terms.sets) {
    if (set.name == loaded.set.name) own();
    for (const Sibling& sibling : loaded.siblings)
      if (sibling.set.name == set.name)
        members.push_back({&sibling.set, &sibling.matter, &sibling.words,
                           measured(sibling.labels, sibling.set)});
  }
  return members;
}

std::size_t MemberRoom::step(int joint) const {
  return std::min(static_cast<std::size_t>(joint), steps.size() - 1);
}

JointLabels joint_labels(const std::vector<MemberRoom>& rooms) {
  JointLabels joint;
  for (const MemberRoom& room : rooms) joint.steps = std::max(joint.steps, room.steps.size());
  std::map<std::string, std::vector<std::pair<const MemberRoom*, std::size_t>>> shown;
  for (const MemberRoom& room : rooms)
    for (std::size_t i = 0; i < room.labels.size(); ++i)
      shown[room.labels[i].anchor].emplace_back(&room, i);
  for (const auto& [anchor, wanted] : shown) {
    const place::FitLabel& first = wanted.front().first->labels[wanted.front().second];
    place::FitLabel label;
    label.anchor = anchor;
    label.targets = first.targets;
    label.preferred = first.preferred;
    label.group = first.group;
    label.room = first.room;
    std::size_t most = 1;
    for (const auto& [room, i] : wanted) {
      const place::FitLabel& one = room->labels[i];
      most = std::max(most, one.variants.front().size());
      label.number.width = std::max(label.number.width, one.number.width);
      label.number.height = std::max(label.number.height, one.number.height);
    }
    label.number.port = label.number.height / 2;
    const auto box = [&](int way, std::size_t step) {
      place::Variant all;
      for (const auto& [room, i] : wanted) {
        const auto& variants = room->labels[i].variants[std::min(step, room->steps.size() - 1)];
        const place::Variant& v =
            variants[std::min(static_cast<std::size_t>(way), variants.size() - 1)];
        all.width = std::max(all.width, v.width);
        all.height = std::max(all.height, v.height);
        all.penalty = std::max(all.penalty, v.penalty);
        all.beside = std::max(all.beside, v.beside);
      }
      all.port = all.height / 2;
      return all;
    };
    // A way that is no narrower than one before it only costs height.
    std::vector<int> ways;
    double narrowest = 1e300;
    for (int way = 0; way < static_cast<int>(most); ++way)
      if (const double width = box(way, joint.steps - 1).width; width < narrowest - 1e-6) {
        ways.push_back(way);
        narrowest = width;
      }
    for (std::size_t step = 0; step < joint.steps; ++step) {
      std::vector<place::Variant> variants;
      for (const int way : ways) variants.push_back(box(way, step));
      label.variants.push_back(std::move(variants));
    }
    joint.labels.push_back(std::move(label));
    joint.ways.push_back(std::move(ways));
  }
  return joint;
}

namespace {

// Leaders as drawn. Those of rows start `gap` from their label, on the line that
// the solver chose; beside a column the gap is part of the solver's box.
std::vector<std::vector<PagePoint>> leaders_of(const place::Problem& problem,
                                               const place::Placement& placement,
                                               const std::vector<PagePoint>& targets, double gap) {
  std::vector<std::vector<PagePoint>> leaders;
  for (const PagePoint& target : targets) {
    PagePoint start = placement.port;
    const double length = distance(start, target);
    if ((placement.side == Side::top || placement.side == Side::bottom) && length > 2 * gap)
      start = {start.x + (target.x - start.x) * gap / length,
               start.y + (target.y - start.y) * gap / length};
    std::vector<PagePoint> line{start};
    if (problem.stub > 0 && (placement.side == Side::left || placement.side == Side::right))
      line.push_back({placement.port.x + (placement.side == Side::left ? 1 : -1) * problem.stub,
                      placement.port.y});
    line.push_back(target);
    leaders.push_back(std::move(line));
  }
  return leaders;
}

void number_labels(Layout& layout) {
  std::vector<PlacedLabel*> order;
  for (PlacedLabel& label : layout.labels) order.push_back(&label);
  const auto rank = [](Side side) {
    switch (side) {
      case Side::top: return 0;
      case Side::left: return 1;
      case Side::inside: return 2;
      case Side::right: return 3;
      case Side::bottom: return 4;
    }
    return 5;
  };
  std::sort(order.begin(), order.end(), [&](const PlacedLabel* a, const PlacedLabel* b) {
    if (rank(a->side) != rank(b->side)) return rank(a->side) < rank(b->side);
    const bool across = a->side == Side::top || a->side == Side::bottom;
    const double at_a = across ? a->port.x : a->port.y;
    const double at_b = across ? b->port.x : b->port.y;
    if (at_a != at_b) return at_a < at_b;
    return a->anchor < b->anchor;
  });
  int number = 0;
  for (PlacedLabel* label : order) label->number = ++number;
}

// The member's own box, in the place of the joint one.
PageBox own_box(Side side, const PageBox& joint, PagePoint port, const place::Variant& v) {
  switch (side) {
    case Side::left: return {port.x - v.width, port.y - v.port, v.width, v.height};
    case Side::right: return {port.x, port.y - v.port, v.width, v.height};
    case Side::top: return {port.x - v.width / 2, port.y - v.height, v.width, v.height};
    case Side::bottom: return {port.x - v.width / 2, port.y, v.width, v.height};
    case Side::inside: break;
  }
  return {joint.centre().x - v.width / 2, joint.centre().y - v.height / 2, v.width, v.height};
}

}  // namespace

Layout layout_of(const place::Fit& fit, const JointLabels& joint, const MemberRoom& room,
                 const Paper& paper, const FigureBox& painted, double gap) {
  Layout layout;
  layout.paper = paper;
  layout.figure_to_page = fit.figure_to_page;
  layout.figure_box = fit.figure_to_page(painted);
  layout.text_size = Length::pt(room.steps[room.step(fit.text_step)]);
  layout.certificate = fit.solution.certificate;
  layout.fallbacks = fit.fallbacks;
  layout.metrics = place::metrics(fit.problem, fit.solution);
  for (std::size_t i = 0; i < joint.labels.size(); ++i) {
    const place::Placement& p = fit.solution.placements[i];
    const place::Label& from = fit.problem.labels[i];
    const auto found =
        std::find_if(room.measured->begin(), room.measured->end(),
                     [&](const MeasuredLabel& m) { return m.label->anchor == from.anchor; });
    if (found == room.measured->end()) continue;  // another member's
    const auto index = static_cast<std::size_t>(found - room.measured->begin());
    PlacedLabel label;
    label.anchor = from.anchor;
    label.side = p.side;
    label.as_number = i < fit.as_number.size() && fit.as_number[i];
    const auto& variants = room.labels[index].variants[room.step(fit.text_step)];
    std::size_t variant = 0;
    if (!label.as_number)
      variant = std::min(static_cast<std::size_t>(joint.ways[i][static_cast<std::size_t>(p.variant)]),
                         variants.size() - 1);
    label.box = own_box(p.side, p.box, p.port,
                        label.as_number ? room.labels[index].number : variants[variant]);
    // The gap between text and leader is part of the solver's box only.
    label.box.w -= gap;
    if (p.side == Side::right) label.box.x += gap;
    if (p.side != Side::left && p.side != Side::right) label.box.x += gap / 2;
    label.port = p.port;
    label.targets = from.targets[static_cast<std::size_t>(p.target)].points;
    if (p.side != Side::inside) label.leaders = leaders_of(fit.problem, p, label.targets, gap);
    const LabelWay& way =
        found->ways[label.as_number ? 0 : static_cast<std::size_t>(room.kept[index][variant])];
    label.lines = way.lines;
    label.text = way.text;
    label.group = found->label->group;
    layout.labels.push_back(std::move(label));
  }
  std::sort(layout.labels.begin(), layout.labels.end(),
            [](const PlacedLabel& a, const PlacedLabel& b) { return a.anchor < b.anchor; });
  number_labels(layout);
  return layout;
}

}  // namespace platewright
