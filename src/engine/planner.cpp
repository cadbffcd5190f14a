#include "engine/planner.hpp"

#include <algorithm>
#include <cmath>

#include "engine/planning.hpp"
#include "place/refit.hpp"

namespace platewright {
namespace {

PageBox common(const PageBox& a, const PageBox& b) {
  const double left = std::max(a.left(), b.left()), top = std::max(a.top(), b.top());
  return {left, top, std::min(a.right(), b.right()) - left, std::min(a.bottom(), b.bottom()) - top};
}

}  // namespace

Finding does_not_fit(const place::Infeasible& why) {
  return error("does-not-fit", {"--paper", 0, 0}, why.witness,
               "take a larger paper, a smaller set or shorter labels");
}

Planner::Planner(const Loaded& loaded, const Paper& paper, const text::Typesetter& typesetter,
        const text::StrokeFont* strokes, const std::vector<Member>& members, std::size_t asked,
        std::mutex& typesetting)
    : typesetting_(typesetting),
      loaded_(loaded),
      style_(loaded.style),
      paper_(paper),
      typesetter_(typesetter),
      strokes_(strokes),
      members_(members),
      asked_(asked) {
  for (const Member& member : members) {
    frames_.push_back(framed(member));
    ages_.push_back(style_.for_age(member.set->youngest));
    steps_.push_back(text_steps(ages_.back(), style_, frames_.back().growth));
  }
  area_ = frames_.front().area;
  for (const compose::Frame& frame : frames_) area_ = common(area_, frame.area);
  const double room = bracket_room();
  area_.x += room;
  area_.w = std::max(0.0, area_.w - 2 * room);
}

compose::Plan Planner::page() const {
  compose::Plan plan = empty_plan(asked_);
  plan.layout.text_size = Length::pt(steps_[asked_].front());
  plan.layout.certificate.status = SolveStatus::optimal;
  return plan;
}

Result<Made> Planner::bare() const {
  compose::Plan plan = page();
  const FigureBox& painted = loaded_.figure.painted;
  const double scale = std::min(area_.w / painted.w, area_.h / painted.h);
  const PagePoint middle = area_.centre();
  plan.layout.figure_to_page = {scale,
                                {middle.x - scale * painted.centre().x,
                                 middle.y - scale * painted.centre().y}};
  plan.layout.figure_box = plan.layout.figure_to_page(painted);
  return Made{std::move(plan)};
}

double Planner::hoped_scale() const {
  std::vector<Measured> measured;
  for (const Member& member : members_) measured.push_back(member.measured);
  return place::hoped_scale(ask(measured, area_, std::vector<LeastBox>(members_.size())).request);
}

bool Planner::may_hold_blanks(double scale) const {
  for (int lines = 1; lines <= 2; ++lines) {
    bool some = true;
    for (std::size_t m = 0; m < members_.size(); ++m) {
      const compose::Blank beside = blank(m, lines);
      some = some && !hopeless({beside.width, beside.height()}, scale * loaded_.figure.painted.w);
    }
    if (some) return true;
  }
  return false;
}

Result<Made> Planner::shared(bool numbers, double known_scale) const {
  auto with_text = fitted(std::vector<LeastBox>(members_.size()), numbers, known_scale);
  if (!with_text.ok()) return with_text.findings();
  Made made = made_of(*with_text);
  made.plan.blank = blank(asked_, 1);
  if (made.bare || made.numbers > 0) return made;

  // What blanks beside the figure must leave it.
  const double least = spared_scale * made.plan.layout.figure_to_page.scale;
  for (int lines = 1; lines <= 2; ++lines)
    for (const bool copy_too : {true, false}) {
      std::vector<LeastBox> needs;
      bool hopeless_for_some = false, copy_beside = true;
      for (std::size_t m = 0; m < members_.size(); ++m) {
        const compose::Blank beside = blank(m, lines);
        const LeastBox copy = copy_box(plan_of(m, *with_text), m, beside);
        const LeastBox need = {copy_too ? copy.width : beside.width,
                               copy_too ? std::max(beside.height(), copy.height)
                                        : beside.height()};
        copy_beside = copy_beside && need.height >= copy.height - 1e-9 &&
                      need.width >= copy.width - 1e-9;
        hopeless_for_some =
            hopeless_for_some || hopeless(need, spared_scale * made.plan.layout.figure_box.w);
        needs.push_back(need);
      }
      if (hopeless_for_some) continue;
      auto solved = fitted(needs, false, least);
      if (!solved.ok()) continue;
      Made trial = made_of(*solved);
      if (trial.plan.layout.figure_to_page.scale < least || trial.text_step > made.text_step ||
          trial.numbers > 0)
        continue;
      trial.plan.blank = blank(asked_, lines);
      trial.plan.blanks_beside = true;
      trial.plan.copy_beside = copy_beside;
      return trial;
    }
  return made;
}

std::optional<Made> Planner::kept(const read::KeptSheet& before) const {
  const std::vector<double>& steps = steps_[asked_];
  place::KeptLayout layout;
  layout.figure_to_page = before.figure_to_page;
  const auto step = std::find_if(steps.begin(), steps.end(), [&](double pt) {
    return std::abs(pt - before.text_pt) < 1e-3;
  });
  if (step == steps.end()) return std::nullopt;
  layout.text_step = static_cast<int>(step - steps.begin());
  bool changed = before.labels.size() != members_[asked_].measured->size();
  std::size_t staying = 0;
  for (const PlacedLabel& label : before.labels) {
    place::KeptLabel one;
    one.anchor = label.anchor;
    one.side = label.side;
    one.port = label.port;
    one.target = label.targets.front();
    one.box = {0, 0, label.box.w + style_.leader.label_gap.mm(), label.box.h};
    one.as_number = label.as_number;
    const auto now = std::find_if(
        members_[asked_].measured->begin(), members_[asked_].measured->end(),
        [&](const MeasuredLabel& m) { return m.label->anchor == label.anchor; });
    staying += now != members_[asked_].measured->end();
    changed = changed || now == members_[asked_].measured->end() ||
              std::none_of(now->ways.begin(), now->ways.end(),
                           [&](const LabelWay& way) { return way.text == label.text; });
    layout.labels.push_back(std::move(one));
  }
  LeastBox need;
  if (before.blanks_beside) {
    // The least that every label was given, or more where an answer grew.
    double width = 1e300, height = 1e300;
    for (const PlacedLabel& label : before.labels)
      width = std::min(width, label.box.w), height = std::min(height, label.box.h);
    const compose::Blank beside = blank(asked_, before.blank_lines);
    need = {std::max(width, beside.width), std::max(height, beside.height())};
  }
  PageBox area = area_;
  if (before.list_height > 0) area.h -= before.list_height + list_gap;
  Solved solved = ask({members_[asked_].measured}, area, {need});
  place::FitRequest& request = solved.request;
  auto fit = place::refit(request, layout, staying / 10);
  if (!fit) return std::nullopt;
  if (!changed) {
    fit->solution.certificate = before.certificate;
    fit->fallbacks = before.fallbacks;
  }
  solved.result = std::move(*fit);
  solved.list_height = before.list_height;
  Made made = made_of(solved);
  if (const auto entries = compose::key_entries(made.plan.layout);
      !entries.empty() && before.list_height > 0 &&
      list_height(asked_, entries) > before.list_height + 1e-6)
    return std::nullopt;
  made.plan.blank = blank(asked_, before.blank_lines);
  made.plan.blanks_beside = before.blanks_beside;
  made.plan.copy_beside = before.copy_beside;
  tell_least(made);
  return made;
}

Result<Made> Planner::numbered() const {
  // Every label is a number; the list takes what it needs at the foot, if that is not too much.
  std::vector<Measured> numbers;
  double height = 0;
  for (std::size_t m = 0; m < members_.size(); ++m) {
    std::vector<compose::ListEntry> entries;
    std::vector<MeasuredLabel> own;
    for (MeasuredLabel n : *members_[m].measured) {
      LabelWay way;
      way.text = n.ways.front().text;
      way.width = n.number_width;
      way.extent = n.number_height;
      // One line high, whatever the wording's own lines.
      way.lines = {way.text};
      n.ways = {way};
      entries.push_back({99, way.text});
      own.push_back(std::move(n));
    }
    numbers.push_back(std::make_shared<const std::vector<MeasuredLabel>>(std::move(own)));
    height = std::max(height, list_height(m, entries));
  }
  PageBox area = area_;
  const bool list = height <= most_list_share * area.h;
  if (list) area.h -= height + list_gap;
  Solved solved = solve(numbers, area, std::vector<LeastBox>(members_.size()), true);
  if (const auto* why = std::get_if<place::Infeasible>(&solved.result)) return does_not_fit(*why);
  if (list) solved.list_height = height;
  Made made = made_of(solved);
  made.plan.blank = blank(asked_, 1);
  return made;
}

Made Planner::finished(const Made& made, const place::Effort& effort) const {
  if (made.bare || !made.solved) return made;
  Solved solved = *made.solved;
  place::Fit& fit = std::get<place::Fit>(solved.result);
  const auto sized = [&](double scale) {
    if (loaded_.sized) loaded_.sized(loaded_.figure, scale);
  };
  fit = loaded_.layouts != nullptr
            ? loaded_.layouts->settled(solved.request, fit, effort)
            : platewright::settled(solved.request, std::move(fit), effort, sized);
  Made better = made_of(solved);
  better.plan.blank = made.plan.blank;
  better.plan.blanks_beside = made.plan.blanks_beside;
  better.plan.copy_beside = made.plan.copy_beside;
  tell_least(better);
  return better;
}

void Planner::tell_least(Made& made) const {
  if (!loaded_.off_grid || !made.solved) return;
  const place::Fit& fit = std::get<place::Fit>(made.solved->result);
  made.plan.layout.metrics.least_detail = place::least_detail(fit.problem, fit.solution);
}

compose::Plan Planner::seen_by(std::size_t m, const Made& made) const {
  compose::Plan plan = made.solved ? plan_of(m, *made.solved) : empty_plan(m);
  if (!made.solved) {
    plan.layout = made.plan.layout;
    plan.layout.text_size = Length::pt(steps_[m].front());
    return plan;
  }
  plan.blank = blank(m, made.plan.blank.lines);
  plan.blanks_beside = made.plan.blanks_beside;
  plan.copy_beside = made.plan.copy_beside;
  return plan;
}

}  // namespace platewright
