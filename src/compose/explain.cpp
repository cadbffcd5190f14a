#include "compose/explain.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/number.hpp"
#include "compose/parts.hpp"
#include "place/cost.hpp"
#include "place/sketch.hpp"

namespace platewright::compose {
namespace {

constexpr double panel = 96;  // mm beside the page, for the words
constexpr std::size_t wishes_drawn = 3;
constexpr Colour grey{184, 184, 184}, ink{26, 26, 26}, blue{13, 77, 166}, red{217, 51, 38};

std::string rounded(double v, int decimals = 2) { return format_number(v, decimals); }
std::string percent(double share) { return rounded(100 * share, 1) + " %"; }

class Words {
 public:
  Words(Page& page, const SheetInput& input, double left, double top)
      : page_(page), input_(input), left_(left), y_(top) {}
  void say(const std::string& words, double points, Colour colour) {
    text::Font font = input_.plan->label_font;
    font.size = Length::pt(points);
    const text::Block block = input_.typesetter->paragraph(words, font, "en", leading, panel - 10);
    for (const text::Line& line : block.lines) {
      y_ += leading * font.size.mm();
      page_.items.push_back(text_at(line, left_, y_, Align::left, colour));
    }
    y_ += 0.4 * font.size.mm();
  }
  void head(const std::string& words) {
    y_ += 2;
    say(words, 11, ink);
  }
  void line(const std::string& words) { say(words, 8.5, ink); }
  double end() const { return y_; }

 private:
  static constexpr double leading = 1.25;
  Page& page_;
  const SheetInput& input_;
  double left_, y_;
};

void draw_solve(Page& page, const SheetInput& input, const place::Fit& fit,
                const place::Sketch& sketch) {
  const place::Problem& problem = fit.problem;
  FigureItem figure;
  figure.transform = input.plan->layout.figure_to_page;
  figure.tint = 0.35;
  page.items.push_back(std::move(figure));
  const Pen frame{grey, 0.2, {1.5, 1.0}};
  for (const place::Column& c : problem.columns)
    page.items.push_back(rectangle({c.side == Side::left ? c.edge - c.width : c.edge, c.top,
                                    c.width, c.bottom - c.top},
                                   std::nullopt, frame));
  for (const place::Row& r : problem.rows)
    page.items.push_back(rectangle({r.left, r.side == Side::top ? r.edge - r.height : r.edge,
                                    r.right - r.left, r.height},
                                   std::nullopt, frame));
  for (const PageBox& o : problem.obstacles)
    page.items.push_back(rectangle(o, std::nullopt, Pen{ink, 0.2, {0.5, 0.5}}));
  for (const PagePoint& slot : sketch.slots)
    page.items.push_back(circle(slot, 0.2, grey, std::nullopt));
  for (const place::Sketch::Wish& wish : sketch.wishes) {
    PagePoint knee = wish.port;
    if (wish.side == Side::left) knee.x += problem.stub;
    if (wish.side == Side::right) knee.x -= problem.stub;
    for (const PagePoint& target : wish.targets) {
      if (problem.stub > 0) page.items.push_back(stroke(wish.port, knee, Pen{red, 0.1, {}}));
      page.items.push_back(stroke(knee, target, Pen{red, 0.1, {}}));
    }
  }
  for (const PlacedLabel& label : input.plan->layout.labels) {
    page.items.push_back(rectangle(label.box, std::nullopt, Pen{blue, 0.2, {}}));
    page.items.push_back(circle(label.port, 0.45, blue, std::nullopt));
    for (const auto& leader : label.leaders)
      for (std::size_t k = 1; k < leader.size(); ++k)
        page.items.push_back(stroke(leader[k - 1], leader[k], Pen{blue, 0.35, {}}));
    for (const PagePoint& target : label.targets)
      page.items.push_back(circle(target, 0.6, blue, std::nullopt));
  }
  add_label_texts(page, input);
}

std::string side_name(Side side) {
  switch (side) {
    case Side::left: return "left";
    case Side::right: return "right";
    case Side::top: return "top";
    case Side::bottom: return "bottom";
    case Side::inside: return "inside";
  }
  return "";
}

void tell(Words& words, const SheetInput& input, const place::Fit& fit,
          const place::Sketch& sketch) {
  const Certificate& c = fit.solution.certificate;
  const place::Problem& problem = fit.problem;
  words.say("How the labels were placed", 14, ink);
  words.line(input.matter.title);
  words.head("Bounds");
  words.line(c.status == SolveStatus::optimal
                 ? "Optimal: nothing on the slots costs less than " + rounded(c.cost) + "."
                 : "Feasible: cost " + rounded(c.cost) + " on the slots; no placement there costs less than " +
                       rounded(c.bound) + ". The gap is at most " + percent(c.gap) + ".");
  words.line("Off the slots it costs " + rounded(c.polished_cost) + "; nothing at all costs less than " +
             rounded(c.continuous_bound) + ". That gap is at most " + percent(c.continuous_gap) + ".");
  const place::CostParts parts = place::cost(problem, fit.solution.placements);
  words.head("What it costs");
  words.line("length " + rounded(parts.length) + ", slope " + rounded(parts.slope) + ", detail " +
             rounded(parts.detail) + ", gaps " + rounded(parts.gap) + ", groups " +
             rounded(parts.group) + ", sides " + rounded(parts.side) + ", balance " +
             rounded(parts.balance) + ", wraps and ends " + rounded(parts.penalties));
  words.head("Fallbacks");
  if (fit.fallbacks.empty()) words.line("None was needed.");
  for (const Fallback& f : fit.fallbacks) words.line(f.step + ": " + f.witness);
  words.head("What is drawn");
  words.line("Grey dots: slots, " + rounded(problem.slot) + " mm apart. Blue: boxes and leaders as placed. "
             "Thin red: leaders that a label would have had for less, up to " +
             std::to_string(wishes_drawn) + " each, had it not been for the others.");
  words.head("What each label pays");
  std::vector<std::size_t> order(problem.labels.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return sketch.own_cost[a] - sketch.least_cost[a] > sketch.own_cost[b] - sketch.least_cost[b];
  });
  for (const std::size_t i : order) {
    const double more = sketch.own_cost[i] - sketch.least_cost[i];
    words.line(problem.labels[i].anchor + ", " + side_name(fit.solution.placements[i].side) + ": " +
               rounded(sketch.own_cost[i]) +
               (more > 0.005 ? ", " + rounded(more) + " more than at its best slot" : ""));
  }
}

}  // namespace

Page explain_page(const SheetInput& input, const place::Fit& fit) {
  Page page;
  page.title = "How the labels were placed";
  page.description = "Slots, leaders and bounds of a placement";
  page.language = "en";
  page.width = input.plan->frame.width + panel;
  const place::Sketch sketch = place::sketch(fit.problem, fit.solution, wishes_drawn);
  draw_solve(page, input, fit, sketch);
  page.items.push_back(rectangle({0, 0, input.plan->frame.width, input.plan->frame.height},
                                 std::nullopt, Pen{grey, 0.2, {}}));
  Words words(page, input, input.plan->frame.width + 5, 6);
  tell(words, input, fit, sketch);
  page.height = std::max(input.plan->frame.height, words.end() + 6);
  return page;
}

}  // namespace platewright::compose
