#include "engine/planning.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <future>
#include <map>
#include <mutex>
#include <optional>

#include "base/number.hpp"
#include "base/utf8.hpp"
#include "compose/listing.hpp"
#include "engine/larger_paper.hpp"
#include "engine/measured.hpp"
#include "place/place.hpp"

namespace platewright {
namespace {

constexpr double step_factor = 0.9;  // from one type size to the next smaller one
// Blanks may stand beside the figure when that costs the poster no more than this.
constexpr double spared_scale = 0.75;
constexpr double most_list_share = 0.4;  // of the area's height, for a list below the figure
constexpr double list_gap = 4;           // mm above a list

place::FitRequest base_request(const Loaded& loaded, const PageBox& area) {
  const Style& style = loaded.style;
  const Figure& figure = loaded.figure;
  place::FitRequest r;
  r.area = area;
  r.painted = figure.painted;
  const FigureGrid& grid = figure.silhouette;
  for (int row = 0; row < grid.rows; ++row) {
    const double y = grid.box.y + (row + 0.5) * grid.cell;
    if (y < figure.painted.top() || y > figure.painted.bottom()) continue;
    int first = -1, last = -1;
    for (int column = 0; column < grid.columns; ++column)
      if (grid.at(column, row)) {
        if (first < 0) first = column;
        last = column;
      }
    if (first < 0)
      r.profile.emplace_back(1.0, 0.0);
    else
      r.profile.emplace_back(grid.box.x + first * grid.cell,
                             grid.box.x + (last + 1) * grid.cell);
  }
  r.detail_box = figure.detail.box;
  r.detail_columns = figure.detail.columns;
  r.detail_rows = figure.detail.rows;
  for (const std::uint8_t v : figure.detail.values)
    r.detail.push_back(static_cast<float>(v) / 255.0F);
  r.gutter = style.leader.gutter.mm();
  r.widest_gutter = std::max(style.leader.widest_gutter.mm(), r.gutter);
  r.stub = style.leader.stub.mm();
  r.rules = {style.rules.label_gap.mm(), style.rules.leader_gap.mm(),
             style.rules.anchor_gap.mm()};
  r.weights.length = style.cost.length;
  r.weights.slope = style.cost.slope;
  r.weights.gap = style.cost.gap;
  r.weights.wrong_side = style.cost.wrong_side;
  r.weights.group_break = style.cost.group_break;
  r.weights.detail = style.cost.detail;
  r.weights.balance = style.cost.balance;
  // The same costs, whatever the paper's size.
  r.weights.unit = std::min(area.w, area.h) / 10;
  r.slot = style.rules.slot.mm();
  return r;
}

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

// What a fit says, as a layout in the trade's words.
Layout layout_of(const place::Fit& fit, const Paper& paper, const FigureBox& painted,
                 const std::vector<MeasuredLabel>& measured,
                 const std::vector<std::vector<int>>& kept, double text_pt, double gap) {
  Layout layout;
  layout.paper = paper;
  layout.figure_to_page = fit.figure_to_page;
  layout.figure_box = fit.figure_to_page(painted);
  layout.text_size = Length::pt(text_pt);
  layout.certificate = fit.solution.certificate;
  layout.fallbacks = fit.fallbacks;
  layout.metrics = place::metrics(fit.problem, fit.solution);
  for (std::size_t i = 0; i < fit.problem.labels.size(); ++i) {
    const place::Placement& p = fit.solution.placements[i];
    const place::Label& from = fit.problem.labels[i];
    const auto found =
        std::find_if(measured.begin(), measured.end(),
                     [&](const MeasuredLabel& m) { return m.label->anchor == from.anchor; });
    const auto index = static_cast<std::size_t>(found - measured.begin());
    PlacedLabel label;
    label.anchor = from.anchor;
    label.side = p.side;
    label.box = p.box;
    // The gap between text and leader is part of the solver's box only.
    label.box.w -= gap;
    if (p.side == Side::right) label.box.x += gap;
    if (p.side == Side::top || p.side == Side::bottom) label.box.x += gap / 2;
    label.port = p.port;
    label.targets = from.targets[static_cast<std::size_t>(p.target)].points;
    label.leaders = leaders_of(fit.problem, p, label.targets, gap);
    label.as_number = i < fit.as_number.size() && fit.as_number[i];
    const std::vector<LabelWay>& ways = found->ways;
    const LabelWay& way =
        label.as_number
            ? ways.front()
            : ways[static_cast<std::size_t>(kept[index][static_cast<std::size_t>(p.variant)])];
    label.lines = way.lines;
    label.text = way.text;
    layout.labels.push_back(std::move(label));
  }
  std::sort(layout.labels.begin(), layout.labels.end(),
            [](const PlacedLabel& a, const PlacedLabel& b) { return a.anchor < b.anchor; });
  number_labels(layout);
  return layout;
}

Finding does_not_fit(const place::Infeasible& why) {
  return error("does-not-fit", {"--paper", 0, 0}, why.witness,
               "take a larger paper, a smaller set or shorter labels");
}

int count_numbers(const Layout& layout) {
  return static_cast<int>(std::count_if(layout.labels.begin(), layout.labels.end(),
                                        [](const PlacedLabel& l) { return l.as_number; }));
}

// Plans on one oriented paper.
class Planner {
 public:
  // `typesetting` guards the typesetter, which is not for two threads at once.
  Planner(const Loaded& loaded, const Paper& paper, const text::Typesetter& typesetter,
          const text::StrokeFont* strokes, const std::vector<MeasuredLabel>& measured,
          std::mutex& typesetting)
      : typesetting_(typesetting),
        loaded_(loaded),
        paper_(paper),
        typesetter_(typesetter),
        strokes_(strokes),
        measured_(measured),
        frame_(framed()),
        age_(loaded.style.for_age(loaded.set.youngest)),
        steps_(text_steps(age_, loaded.style, frame_.growth)) {}

  // No figure, no labels: nothing to place.
  compose::Plan page() const {
    compose::Plan plan = empty_plan();
    plan.layout.text_size = Length::pt(steps_.front());
    plan.layout.certificate.status = SolveStatus::optimal;
    return plan;
  }

  Result<compose::Plan> bare() const {
    compose::Plan plan = page();
    const FigureBox& painted = loaded_.figure.painted;
    const double scale = std::min(frame_.area.w / painted.w, frame_.area.h / painted.h);
    const PagePoint middle = frame_.area.centre();
    plan.layout.figure_to_page = {scale,
                                  {middle.x - scale * painted.centre().x,
                                   middle.y - scale * painted.centre().y}};
    plan.layout.figure_box = plan.layout.figure_to_page(painted);
    return plan;
  }

  Result<compose::Plan> shared() const {
    auto with_text = fitted({}, true);
    if (!with_text.ok()) return with_text;
    compose::Plan plan = std::move(*with_text);
    const compose::Blank long_blank = blank(1);
    plan.blank = long_blank;
    if (plan.layout.labels.empty() || count_numbers(plan.layout) > 0) return plan;

    for (int lines = 1; lines <= 2; ++lines) {
      const compose::Blank beside = blank(lines);
      double copy_width = beside.width;
      for (const PlacedLabel& label : plan.layout.labels)
        copy_width = std::max(copy_width, traced_width(label.text, plan, beside.ruling));
      const double copy_height = 2 * (beside.ruling + beside.descender);
      const LeastBox needs[] = {{copy_width, std::max(beside.height(), copy_height)},
                                {beside.width, beside.height()}};
      for (const LeastBox& need : needs) {
        if (hopeless(need, plan.layout)) continue;
        auto trial = fitted(need, false);
        if (!trial.ok()) continue;
        if (trial->layout.figure_to_page.scale <
                spared_scale * plan.layout.figure_to_page.scale ||
            trial->layout.text_size < plan.layout.text_size || count_numbers(trial->layout) > 0)
          continue;
        trial->blank = beside;
        trial->blanks_beside = true;
        trial->copy_beside = need.height >= copy_height - 1e-9 && need.width >= copy_width - 1e-9;
        return trial;
      }
    }
    return plan;
  }

  Result<compose::Plan> numbered() const {
    // Every label is a number; the list takes what it needs at the foot, if that is not too much.
    std::vector<MeasuredLabel> numbers;
    for (const MeasuredLabel& m : measured_) {
      MeasuredLabel n = m;
      LabelWay way;
      way.text = m.ways.front().text;
      way.lines = m.ways.front().lines;
      way.width = m.number_width;
      way.extent = m.number_height;
      n.ways = {way};
      // One line high, whatever the wording's own lines.
      n.ways.front().lines = {way.text};
      numbers.push_back(std::move(n));
    }
    std::vector<compose::ListEntry> entries;
    for (const MeasuredLabel& m : numbers) entries.push_back({99, m.ways.front().text});
    const double height = list_height(entries);
    compose::Plan plan = empty_plan();
    PageBox area = frame_.area;
    if (height <= most_list_share * area.h) {
      plan.list_height = height;
      area.h -= height + list_gap;
    }
    auto fit = solve(numbers, area, {});
    if (const auto* why = std::get_if<place::Infeasible>(&fit.result)) return does_not_fit(*why);
    finish(plan, fit, numbers);
    plan.blank = blank(1);
    return plan;
  }

 private:
  struct Solved {
    std::variant<place::Fit, place::Infeasible> result;
    std::vector<std::vector<int>> kept;
  };

  compose::Plan empty_plan() const {
    compose::Plan plan;
    plan.frame = frame_;
    plan.layout.paper = paper_;
    plan.leading = loaded_.style.type.leading;
    plan.label_font = {compose::faces(loaded_.style), Length::pt(steps_.front()),
                       loaded_.style.type.bold_labels, false};
    return plan;
  }

  Solved solve(const std::vector<MeasuredLabel>& measured, const PageBox& area,
               LeastBox least) const {
    Solved solved;
    place::FitRequest request = base_request(loaded_, area);
    request.text_pt = steps_;
    request.labels = fit_labels(measured, loaded_, steps_, least, solved.kept);
    solved.result = place::fit(request);
    return solved;
  }

  void finish(compose::Plan& plan, const Solved& solved,
              const std::vector<MeasuredLabel>& measured) const {
    const place::Fit& fit = std::get<place::Fit>(solved.result);
    const double pt = steps_[static_cast<std::size_t>(fit.text_step)];
    plan.layout = layout_of(fit, paper_, loaded_.figure.painted, measured, solved.kept, pt,
                            loaded_.style.leader.label_gap.mm());
    plan.label_font.size = Length::pt(pt);
  }

  // Fits labels in their places, and where some become numbers, again with
  // room for their key at the foot, unless that would take too much.
  Result<compose::Plan> fitted(LeastBox least, bool numbers_allowed) const {
    compose::Plan plan = empty_plan();
    PageBox area = frame_.area;
    for (int round = 0; round < 4; ++round) {
      const Solved solved = solve(measured_, area, least);
      if (const auto* why = std::get_if<place::Infeasible>(&solved.result))
        return does_not_fit(*why);
      finish(plan, solved, measured_);
      const std::vector<compose::ListEntry> entries = compose::key_entries(plan.layout);
      if (entries.empty() || !numbers_allowed) return plan;
      const double height = list_height(entries);
      if (height <= plan.list_height) return plan;
      if (height > most_list_share * frame_.area.h || round == 3) {
        plan.list_height = 0;  // the key goes to a page of its own
        return plan;
      }
      plan.list_height = height;
      area = frame_.area;
      area.h -= height + list_gap;
    }
    return plan;
  }

  compose::Frame framed() const {
    const std::lock_guard lock(typesetting_);
    return compose::frame(paper_, loaded_.style, loaded_.matter, loaded_.words, typesetter_);
  }

  double list_height(const std::vector<compose::ListEntry>& entries) const {
    const std::lock_guard lock(typesetting_);
    return compose::set_list(entries, frame_.area.w, frame_.list_font, loaded_.set.language,
                             typesetter_)
        .height;
  }

  // Room for the longest answer of the set in the reader's hand: (letters + 1)
  // times the pitch; on two lines, no word broken. Common practice.
  compose::Blank blank(int lines) const {
    double letters = 0, word = 0;
    for (const MeasuredLabel& m : measured_) {
      const std::string& text = m.ways.front().text;
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
    b.ruling = age_.ruling.mm();
    b.descender = b.ruling * loaded_.style.ruling.descender;
    b.width = age_.pitch.mm() *
              (lines == 1 ? letters + 1 : std::max(word, std::ceil(letters / lines)) + 2);
    return b;
  }

  double traced_width(const std::string& text, const compose::Plan& plan, double height) const {
    compose::SheetInput input;
    input.plan = &plan;
    input.style = &loaded_.style;
    input.typesetter = &typesetter_;
    input.strokes = strokes_;
    input.matter = loaded_.matter;
    const std::lock_guard lock(typesetting_);
    return compose::trace_width(input, text, height);
  }

  // True when boxes of this size can't stand beside a figure nearly as large
  // as the poster's: cheaper than asking the solver.
  bool hopeless(LeastBox need, const Layout& poster) const {
    const double width = 2 * (need.width + loaded_.style.leader.gutter.mm() +
                              loaded_.style.leader.label_gap.mm()) +
                         spared_scale * poster.figure_box.w;
    const double gap = loaded_.style.rules.label_gap.mm();
    const double heights =
        (need.height + gap) * std::ceil(static_cast<double>(measured_.size()) / 2);
    return width > frame_.area.w || heights - gap > frame_.area.h;
  }

  std::mutex& typesetting_;
  const Loaded& loaded_;
  Paper paper_;
  const text::Typesetter& typesetter_;
  const text::StrokeFont* strokes_;
  const std::vector<MeasuredLabel>& measured_;
  compose::Frame frame_;
  AgeRow age_;
  std::vector<double> steps_;
};

// Fewer numbers first, then the larger figure.
bool better(const compose::Plan& a, const compose::Plan& b) {
  const int numbers_a = count_numbers(a.layout), numbers_b = count_numbers(b.layout);
  if (numbers_a != numbers_b) return numbers_a < numbers_b;
  return a.layout.figure_to_page.scale > b.layout.figure_to_page.scale;
}

// The findings of a plan that does not fit, with the smallest paper that does: tried, not guessed.
template <class Make>
Findings naming_a_paper(Findings findings, const Paper& paper, Orientation orientation,
                        const Make& make) {
  for (Finding& finding : findings) {
    if (finding.code != "does-not-fit") continue;
    for (const Paper& larger : larger_papers(paper)) {
      const auto fits = [&](Orientation way) {
        return (orientation == way || orientation == Orientation::automatic) &&
               make(oriented(larger, way)).ok();
      };
      auto lying = std::async(std::launch::async, [&] { return fits(Orientation::landscape); });
      const bool upright = fits(Orientation::portrait);
      if (!lying.get() && !upright) continue;
      finding.advice = "it fits on " + larger.name + "; or take a smaller set or shorter labels";
      break;
    }
  }
  return findings;
}

// Plans on the paper as asked, or on both ways round and keeps the better.
template <class Make>
Result<Planned> planned(const Loaded& loaded, Orientation orientation, const Make& make) {
  const auto start = std::chrono::steady_clock::now();
  const Paper portrait = oriented(loaded.paper, Orientation::portrait);
  const Paper landscape = oriented(loaded.paper, Orientation::landscape);
  std::optional<Result<compose::Plan>> best;
  if (orientation != Orientation::automatic ||
      std::abs(portrait.width.mm() - portrait.height.mm()) < 0.5) {
    best = make(oriented(loaded.paper, orientation));
  } else {
    // The solver is pure: the two ways round can be tried at once.
    auto other = std::async(std::launch::async, [&] { return make(landscape); });
    best = make(portrait);
    Result<compose::Plan> turned = other.get();
    if (turned.ok() && (!best->ok() || better(*turned, **best))) best = std::move(turned);
  }
  if (!best->ok()) return naming_a_paper(best->findings(), loaded.paper, orientation, make);
  Planned result;
  result.plan = std::move(**best);
  result.seconds =
      std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  return result;
}

}  // namespace

std::vector<double> text_steps(const AgeRow& age, const Style& style, double growth) {
  const double floor = age.text_floor.pt();
  const double wanted = std::max(
      floor, age.text_wanted.pt() * std::pow(std::max(1.0, growth), style.type.poster_growth));
  std::vector<double> steps;
  for (double pt = wanted; pt > floor * 1.02; pt *= step_factor)
    steps.push_back(std::round(pt * 10) / 10);
  steps.push_back(floor);
  return steps;
}

int letter_count(std::string_view text) {
  int count = 0;
  for (std::size_t at = 0; at < text.size();) {
    const auto character = utf8_at(text, at);
    if (!character) {
      ++at;
      continue;
    }
    const char32_t c = character->code;
    const bool combining = (c >= 0x300 && c <= 0x36f) || c == 0xad || c == 0x200d ||
                           (c >= 0x591 && c <= 0x5bd) || (c >= 0x64b && c <= 0x65f);
    if (!combining) ++count;
    at += character->bytes;
  }
  return count;
}

Result<Planned> shared_plan(const Loaded& loaded, Orientation orientation,
                            const text::Typesetter& typesetter,
                            const text::StrokeFont* strokes) {
  const std::vector<MeasuredLabel> measured = measure_labels(loaded, typesetter);
  std::mutex typesetting;
  return planned(loaded, orientation, [&](const Paper& paper) {
    return Planner(loaded, paper, typesetter, strokes, measured, typesetting).shared();
  });
}

Result<Planned> numbered_plan(const Loaded& loaded, Orientation orientation,
                              const text::Typesetter& typesetter) {
  const std::vector<MeasuredLabel> measured = measure_labels(loaded, typesetter);
  std::mutex typesetting;
  return planned(loaded, orientation, [&](const Paper& paper) {
    return Planner(loaded, paper, typesetter, nullptr, measured, typesetting).numbered();
  });
}

Result<Planned> bare_plan(const Loaded& loaded, Orientation orientation,
                          const text::Typesetter& typesetter) {
  const std::vector<MeasuredLabel> none;
  std::mutex typesetting;
  return planned(loaded, orientation, [&](const Paper& paper) {
    return Planner(loaded, paper, typesetter, nullptr, none, typesetting).bare();
  });
}

Planned page_plan(const Loaded& loaded, Orientation orientation,
                  const text::Typesetter& typesetter) {
  const std::vector<MeasuredLabel> none;
  std::mutex typesetting;
  const Paper paper = oriented(loaded.paper, orientation == Orientation::automatic
                                                 ? Orientation::portrait
                                                 : orientation);
  return {Planner(loaded, paper, typesetter, nullptr, none, typesetting).page(), 0};
}

}  // namespace platewright
