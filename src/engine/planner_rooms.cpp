// What a planner asks of the solver, and the room that blanks, letters and lists take.
#include "engine/planner.hpp"

#include <algorithm>
#include <cmath>

#include "compose/brackets.hpp"
#include "engine/fit_request.hpp"
#include "engine/planning.hpp"

namespace platewright {
namespace {

constexpr double balanced_from = 8;   // labels: so many have the style's whole weight

}  // namespace

compose::Plan Planner::empty_plan(std::size_t m) const {
  compose::Plan plan;
  plan.frame = frames_[m];
  plan.layout.paper = paper_;
  plan.leading = style_.type.leading;
  plan.label_font = {compose::faces(style_), Length::pt(steps_[m].front()),
                     style_.type.bold_labels, false};
  plan.heading_font = heading_font(m);
  return plan;
}

Solved Planner::ask(const std::vector<Measured>& measured, const PageBox& area,
           const std::vector<LeastBox>& least) const {
  Solved solved;
  for (std::size_t m = 0; m < members_.size(); ++m) {
    MemberRoom room{measured[m], steps_[m]};
    room.labels = fit_labels(*measured[m], loaded_.figure, style_, steps_[m], least[m], room.kept);
    solved.rooms.push_back(std::move(room));
  }
  solved.joint = joint_labels(solved.rooms);
  place::FitRequest& request = solved.request;
  request = base_request(loaded_.figure, style_, area);
  // The steps of the set that has most: they speak in the report's witnesses.
  request.text_pt = *std::max_element(
      steps_.begin(), steps_.end(),
      [](const auto& a, const auto& b) { return a.size() < b.size(); });
  request.labels = solved.joint.labels;
  // Few labels need not balance: two on one side are no lopsided page.
  request.weights.balance *=
      std::min(1.0, static_cast<double>(request.labels.size()) / balanced_from);
  return solved;
}

Solved Planner::solve(const std::vector<Measured>& measured, const PageBox& area,
                      const std::vector<LeastBox>& least, bool numbers, double known_scale) const {
  Solved solved = ask(measured, area, least);
  solved.request.numbers = numbers;
  // What stands inside is looked for in several ways.
  if (std::none_of(solved.request.labels.begin(), solved.request.labels.end(),
                   [](const place::FitLabel& label) { return label.room != nullptr; }))
    solved.request.known_scale = known_scale;
  const place::Effort effort{glance, 0};
  solved.result = loaded_.layouts != nullptr ? loaded_.layouts->fit(solved.request, effort)
                                             : place::fit(solved.request, effort);
  solved.request.known_scale = 0;
  return solved;
}

compose::Plan Planner::plan_of(std::size_t m, const Solved& solved) const {
  compose::Plan plan = empty_plan(m);
  plan.layout = layout_of(std::get<place::Fit>(solved.result), solved.joint, solved.rooms[m],
                          paper_, loaded_.figure.painted, style_.leader.label_gap.mm());
  plan.label_font.size = plan.layout.text_size;
  plan.list_height = solved.list_height;
  return plan;
}

Made Planner::made_of(const Solved& solved) const {
  const place::Fit& fit = std::get<place::Fit>(solved.result);
  return {plan_of(asked_, solved),
          static_cast<int>(std::count(fit.as_number.begin(), fit.as_number.end(), true)),
          fit.text_step, solved.joint.labels.empty(), std::make_shared<const Solved>(solved), fit.cramped};
}

Result<Solved> Planner::fitted(const std::vector<LeastBox>& least, bool numbers,
                               double known_scale) const {
  std::vector<Measured> measured;
  for (const Member& member : members_) measured.push_back(member.measured);
  PageBox area = area_;
  double kept_free = 0;
  for (int round = 0;; ++round) {
    Solved solved = solve(measured, area, least, numbers, known_scale);
    if (const auto* why = std::get_if<place::Infeasible>(&solved.result))
      return does_not_fit(*why);
    solved.list_height = kept_free;
    double height = 0;
    for (std::size_t m = 0; m < members_.size(); ++m)
      if (const auto entries = compose::key_entries(plan_of(m, solved).layout); !entries.empty())
        height = std::max(height, list_height(m, entries));
    if (height <= kept_free || !numbers) return solved;
    if (height > most_list_share * area_.h || round == 3) {
      solved.list_height = 0;  // the key goes to a page of its own
      return solved;
    }
    kept_free = height;
    area = area_;
    area.h -= height + list_gap;
  }
}

compose::Frame Planner::framed(const Member& member) const {
  const std::lock_guard lock(typesetting_);
  return compose::frame(paper_, style_, *member.matter, *member.words, typesetter_);
}

text::Font Planner::heading_font(std::size_t m) const {
  return compose::heading_font(style_, Length::pt(steps_[m].front()), Length::pt(steps_[m].back()));
}

double Planner::bracket_room() const {
  double room = 0;
  if (!style_.groups.bracket) return room;
  const std::lock_guard lock(typesetting_);
  for (std::size_t m = 0; m < members_.size(); ++m) {
    std::vector<std::string> groups;
    for (const MeasuredLabel& label : *members_[m].measured) groups.push_back(label.label->group);
    room = std::max(room, compose::bracket_room(groups, style_, heading_font(m),
                                                members_[m].set->language, typesetter_));
  }
  return room;
}

double Planner::list_height(std::size_t m, const std::vector<compose::ListEntry>& entries) const {
  const std::lock_guard lock(typesetting_);
  return compose::set_list(entries, frames_[m].area.w, frames_[m].list_font,
                           members_[m].set->language, typesetter_)
      .height;
}

compose::Blank Planner::blank(std::size_t m, int lines) const {
  double letters = 0, word = 0;
  for (const MeasuredLabel& label : *members_[m].measured) {
    const std::string& text = label.ways.front().text;
    letters = std::max(letters, static_cast<double>(letter_count(text)));
    std::size_t start = 0;
    while (start < text.size()) {
      const std::size_t end = std::min(text.find(' ', start), text.size());
      word = std::max(word,
                      static_cast<double>(letter_count(text.substr(start, end - start))));
      start = end + 1;
    }
  }
  compose::Blank b;
  b.lines = lines;
  b.ruling = ages_[m].ruling.mm();
  b.descender = b.ruling * style_.ruling.descender;
  b.width = ages_[m].pitch.mm() *
            (lines == 1 ? letters + 1 : std::max(word, std::ceil(letters / lines)) + 2);
  return b;
}

LeastBox Planner::copy_box(const compose::Plan& plan, std::size_t m, const compose::Blank& beside) const {
  compose::SheetInput input;
  input.plan = &plan;
  input.style = &style_;
  input.typesetter = &typesetter_;
  input.strokes = strokes_;
  input.matter = *members_[m].matter;
  LeastBox box{beside.width, 2 * (beside.ruling + beside.descender)};
  const std::lock_guard lock(typesetting_);
  for (const PlacedLabel& label : plan.layout.labels)
    box.width = std::max(box.width, compose::trace_width(input, label.text, beside.ruling));
  return box;
}

bool Planner::hopeless(LeastBox need, double figure_width) const {
  const double width =
      2 * (need.width + style_.leader.gutter.mm() + style_.leader.label_gap.mm()) + figure_width;
  const double gap = style_.rules.label_gap.mm();
  std::size_t most = 0;
  for (const Member& member : members_) most = std::max(most, member.measured->size());
  const double heights = (need.height + gap) * std::ceil(static_cast<double>(most) / 2);
  return width > area_.w || heights - gap > area_.h;
}

}  // namespace platewright
