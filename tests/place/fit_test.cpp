// Figures of every shape: a valid fit, or a witness.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "instances.hpp"
#include "place/cost.hpp"
#include "place/place.hpp"
#include "place/verify.hpp"

namespace platewright::place {
namespace {

FitRequest request(int labels, Spread spread, FigureBox painted, PageBox area,
                   std::uint64_t seed = 1) {
  Dice dice(seed);
  FitRequest r;
  r.area = area;
  r.painted = painted;
  r.text_pt = {18, 14, 10};
  r.weights.unit = std::min(area.w, area.h) / 10;
  for (int i = 0; i < labels; ++i) {
    FitLabel l;
    l.anchor = std::string("anchor-").append(std::to_string(1000 + i));
    const double letters = dice.between(4, 20);
    for (const double pt : r.text_pt) {
      const double em = pt * 25.4 / 72, line = 1.25 * em, width = letters * 0.5 * em;
      std::vector<Variant> ways{{width, line, line / 2, 0}};
      if (letters > 9) ways.push_back({width * 0.58, 2 * line, line, 0.4});
      l.variants.push_back(ways);
    }
    l.number = {7, 4.5, 2.25, 0};
    const PagePoint p = anchor_at(
        dice, spread, painted.left() + painted.w * 0.05, painted.right() - painted.w * 0.05,
        painted.top() + painted.h * 0.05, painted.bottom() - painted.h * 0.05);
    l.targets.push_back({{{p.x, p.y}}, 0});
    r.labels.push_back(l);
  }
  return r;
}

constexpr PageBox letter{12.7, 30, 190.5, 220};

const Fit* expect_fit(const std::variant<Fit, Infeasible>& result, const FitRequest& r) {
  const Fit* fit = std::get_if<Fit>(&result);
  if (fit == nullptr) {
    ADD_FAILURE() << std::get<Infeasible>(result).witness;
    return nullptr;
  }
  for (const Violation& v : verify(fit->problem, fit->solution))
    ADD_FAILURE() << v.rule << " " << v.first << " " << v.second << " " << v.amount;
  EXPECT_EQ(fit->solution.placements.size(), r.labels.size());
  EXPECT_EQ(fit->as_number.size(), r.labels.size());
  const PageBox figure = fit->figure_to_page(r.painted);
  const PageBox roomy = r.area.grown(1e-6);
  EXPECT_TRUE(roomy.contains({figure.left(), figure.top()}));
  EXPECT_TRUE(roomy.contains({figure.right(), figure.bottom()}));
  for (const Placement& p : fit->solution.placements) {
    EXPECT_TRUE(roomy.contains({p.box.left(), p.box.top()}));
    EXPECT_TRUE(roomy.contains({p.box.right(), p.box.bottom()}));
    EXPECT_FALSE(overlap(p.box, figure)) << "a label on the figure";
  }
  for (const Fallback& f : fit->fallbacks) EXPECT_FALSE(f.witness.empty()) << f.step;
  return fit;
}

TEST(Fit, A_figure_without_labels_fills_the_area) {
  const FitRequest r = request(0, Spread::uniform, {0, 0, 100, 100}, letter);
  const auto result = fit(r);
  const Fit* f = expect_fit(result, r);
  ASSERT_NE(f, nullptr);
  EXPECT_NEAR(f->figure_to_page.scale, 1.905, 1e-9);
}

TEST(Fit, One_label) {
  const FitRequest r = request(1, Spread::uniform, {0, 0, 100, 140}, letter);
  const auto result = fit(r);
  const Fit* f = expect_fit(result, r);
  ASSERT_NE(f, nullptr);
  EXPECT_EQ(f->text_step, 0);
}

TEST(Fit, Keeps_the_wanted_text_and_a_fair_share_of_the_page_for_twenty_labels) {
  const FitRequest r = request(20, Spread::uniform, {0, 0, 400, 500}, letter);
  const auto result = fit(r);
  const Fit* f = expect_fit(result, r);
  ASSERT_NE(f, nullptr);
  EXPECT_EQ(f->text_step, 0);
  EXPECT_GE(f->figure_to_page.scale, 0.45 * 190.5 / 400);
}

TEST(Fit, Very_wide_figure) {
  const FitRequest r = request(8, Spread::uniform, {0, 0, 1000, 60}, letter);
  const auto result = fit(r);
  expect_fit(result, r);
}

TEST(Fit, Very_tall_figure) {
  const FitRequest r = request(12, Spread::uniform, {0, 0, 40, 900}, letter);
  const auto result = fit(r);
  expect_fit(result, r);
}

TEST(Fit, All_anchors_in_one_point) {
  const FitRequest r = request(12, Spread::coincident, {0, 0, 300, 300}, letter);
  const auto result = fit(r);
  expect_fit(result, r);
}

TEST(Fit, All_anchors_on_an_upright_line) {
  const FitRequest r = request(20, Spread::midline, {0, 0, 300, 400}, letter);
  const auto result = fit(r);
  expect_fit(result, r);
}

TEST(Fit, All_anchors_on_a_level_line) {
  const FitRequest r = request(16, Spread::level, {0, 0, 300, 400}, letter);
  const auto result = fit(r);
  expect_fit(result, r);
}

TEST(Fit, An_anchor_outside_the_painted_box) {
  FitRequest r = request(6, Spread::uniform, {0, 0, 300, 400}, letter);
  r.labels[2].targets[0].points[0] = {-80, 200};
  const auto result = fit(r);
  expect_fit(result, r);
}

TEST(Fit, A_hundred_and_twenty_labels_on_a_poster) {
  const FitRequest r = request(120, Spread::uniform, {0, 0, 400, 500}, {15, 40, 420, 520});
  const auto result = fit(r);
  expect_fit(result, r);
}

TEST(Fit, Seventy_two_labels_on_a3) {
  const FitRequest r = request(72, Spread::uniform, {0, 0, 400, 500}, {12, 30, 273, 370});
  const auto result = fit(r);
  expect_fit(result, r);
}

TEST(Fit, Says_what_is_missing_when_nothing_fits) {
  const FitRequest r = request(60, Spread::uniform, {0, 0, 100, 100}, {0, 0, 60, 50});
  const auto result = fit(r);
  ASSERT_TRUE(std::holds_alternative<Infeasible>(result));
  EXPECT_NE(std::get<Infeasible>(result).witness.find("mm"), std::string::npos);
}

TEST(Fit, Labels_that_do_not_fit_as_text_become_numbers_with_a_witness) {
  const FitRequest r = request(40, Spread::uniform, {0, 0, 300, 300}, {0, 0, 130, 120});
  const auto result = fit(r);
  const Fit* f = std::get_if<Fit>(&result);
  if (f == nullptr) {
    EXPECT_FALSE(std::get<Infeasible>(result).witness.empty());
    return;
  }
  expect_fit(result, r);
  bool logged = false;
  for (const Fallback& step : f->fallbacks) logged = logged || step.step == "numbered";
  EXPECT_EQ(logged, std::count(f->as_number.begin(), f->as_number.end(), true) > 0);
}

TEST(Fit, A_label_whose_best_target_lies_too_near_to_another_anchor_takes_the_next_one) {
  FitRequest r = request(6, Spread::uniform, {0, 0, 100, 100}, letter, 3);
  // Less than a mm apart on every page, so no leader may end there.
  r.labels[0].targets = {{{{50, 50}}, 0}, {{{70, 20}}, 20}};
  r.labels[1].targets = {{{{50.3, 50}}, 0}};
  const auto result = fit(r);
  const Fit* found = expect_fit(result, r);
  ASSERT_NE(found, nullptr);
  EXPECT_EQ(found->text_step, 0);
  EXPECT_FALSE(found->as_number[0]);
  EXPECT_EQ(found->solution.placements[0].target, 1);
  EXPECT_TRUE(std::ranges::none_of(found->fallbacks, [](const Fallback& f) {
    return f.step != "wrapped";
  })) << found->fallbacks.front().step;
}

TEST(Fit, Draws_the_figure_at_the_scale_asked_for) {
  FitRequest r = request(6, Spread::uniform, {0, 0, 300, 400}, letter);
  r.fixed_scale = 0.2;
  const auto result = fit(r);
  const Fit* f = expect_fit(result, r);
  ASSERT_NE(f, nullptr);
  EXPECT_DOUBLE_EQ(f->figure_to_page.scale, 0.2);
}

TEST(Fit, Never_draws_the_figure_larger_than_allowed) {
  FitRequest r = request(6, Spread::uniform, {0, 0, 30, 40}, letter);
  r.most_scale = 1.0;
  const auto result = fit(r);
  const Fit* f = expect_fit(result, r);
  ASSERT_NE(f, nullptr);
  EXPECT_LE(f->figure_to_page.scale, 1.0);
}

TEST(Fit, Says_which_coordinate_is_no_number) {
  FitRequest r = request(3, Spread::uniform, {0, 0, 300, 400}, letter);
  r.labels[1].targets[0].points[0].x = std::nan("");
  const auto result = fit(r);
  ASSERT_TRUE(std::holds_alternative<Infeasible>(result));
  EXPECT_NE(std::get<Infeasible>(result).witness.find("anchor-1001"), std::string::npos);
  r = request(3, Spread::uniform, {0, 0, 300, 400}, letter);
  r.labels[2].variants[1].clear();
  EXPECT_TRUE(std::holds_alternative<Infeasible>(fit(r)));
  r = request(3, Spread::uniform, {0, 0, 300, 400}, letter);
  r.painted.w = std::nan("");
  EXPECT_TRUE(std::holds_alternative<Infeasible>(fit(r)));
}

TEST(Fit, A_slot_of_almost_nothing_does_not_ask_for_endless_slots) {
  FitRequest r = request(3, Spread::uniform, {0, 0, 300, 400}, letter);
  r.slot = 1e-9;
  const auto result = fit(r);
  expect_fit(result, r);
}
// Labels that may choose among targets, as regions give them.
FitRequest with_choices(std::uint64_t seed) {
  FitRequest r = request(14, Spread::uniform, {0, 0, 100, 120}, letter, seed);
  for (FitLabel& l : r.labels) {
    const FigurePoint p = l.targets.front().points.front();
    l.targets.push_back({{{p.x + 4, p.y + 3}}, 0.3});
    l.targets.push_back({{{p.x - 4, p.y + 2}}, 0.5});
  }
  return r;
}

TEST(Fit, What_was_reckoned_for_a_page_changes_nothing_when_it_is_solved_again) {
  int solved = 0;
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    const FitRequest r = with_choices(seed);
    const auto result = fit(r, {5'000, 0});
    const Fit* f = expect_fit(result, r);
    ASSERT_NE(f, nullptr);
    ASSERT_NE(f->reckoned, nullptr);
    for (const Effort& effort : {Effort{20'000, 0}, Effort{20'000, 5'000}}) {
      const auto anew = solve_from(f->problem, effort, f->solution);
      const auto again = solve_from(f->problem, effort, f->solution, f->reckoned);
      const auto* a = std::get_if<Solution>(&anew);
      const auto* b = std::get_if<Solution>(&again);
      ASSERT_EQ(a != nullptr, b != nullptr);
      if (a == nullptr) continue;
      ++solved;
      EXPECT_EQ(a->certificate.cost, b->certificate.cost);
      EXPECT_EQ(a->certificate.bound, b->certificate.bound);
      EXPECT_EQ(a->certificate.polished_cost, b->certificate.polished_cost);
      EXPECT_EQ(a->certificate.continuous_bound, b->certificate.continuous_bound);
      for (std::size_t i = 0; i < a->placements.size(); ++i) {
        EXPECT_EQ(a->placements[i].port.x, b->placements[i].port.x);
        EXPECT_EQ(a->placements[i].port.y, b->placements[i].port.y);
        EXPECT_EQ(a->placements[i].target, b->placements[i].target);
        EXPECT_EQ(a->placements[i].variant, b->placements[i].variant);
      }
    }
  }
  EXPECT_GE(solved, 20);
}

TEST(Fit, Labels_in_a_row_stand_as_far_apart_as_they_ask_for) {
  int pairs = 0;
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    FitRequest r = request(36, Spread::uniform, {0, 0, 160, 60}, {10, 10, 250, 100}, seed);
    for (FitLabel& l : r.labels)
      for (auto& ways : l.variants)
        for (Variant& v : ways) v.beside = 3;
    const auto result = fit(r, {5'000, 0});
    const Fit* f = expect_fit(result, r);
    if (f == nullptr) continue;
    const auto words_of = [&](std::size_t i) {
      const Placement& p = f->solution.placements[i];
      const double width = f->problem.labels[i].variants[static_cast<std::size_t>(p.variant)].width;
      return PageBox{p.port.x - width / 2, p.box.y, width, p.box.h};
    };
    for (std::size_t i = 0; i < f->problem.labels.size(); ++i)
      for (std::size_t j = 0; j < i; ++j) {
        const Placement &a = f->solution.placements[i], &b = f->solution.placements[j];
        if (a.side != b.side || (a.side != Side::top && a.side != Side::bottom)) continue;
        if (f->as_number[i] || f->as_number[j]) continue;
        ++pairs;
        const PageBox left = words_of(i), right = words_of(j);
        EXPECT_GE(std::max(right.left() - left.right(), left.left() - right.right()),
                  r.rules.label_gap + 3 - 1e-6);
      }
  }
  EXPECT_GE(pairs, 100);
}

TEST(Fit, A_page_that_is_solved_again_begins_where_it_stood_and_never_costs_more) {
  int settled = 0;
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    const FitRequest r = with_choices(seed);
    const auto result = fit(r, {5'000, 0});
    const Fit* f = expect_fit(result, r);
    ASSERT_NE(f, nullptr);
    const Start& start = f->solution.on_grid;
    if (start.step <= 0) continue;
    // Every port lies on a slot.
    for (const Placement& p : start.placements) {
      const double along =
          p.side == Side::left || p.side == Side::right
              ? p.port.y - f->problem.columns[static_cast<std::size_t>(p.column)].top
              : p.port.x - f->problem.rows[static_cast<std::size_t>(p.column)].left;
      EXPECT_NEAR(along / start.step, std::round(along / start.step), 1e-6);
    }
    EXPECT_NEAR(cost(f->problem, start.placements).total(), f->solution.certificate.cost, 1e-9);
    const auto again = solve_from(f->problem, {20'000, 0}, f->solution);
    const auto* s = std::get_if<Solution>(&again);
    ASSERT_NE(s, nullptr);
    EXPECT_LE(s->certificate.cost, f->solution.certificate.cost + 1e-9);
    EXPECT_TRUE(verify(f->problem, *s).empty());
    settled += start.settled;
  }
  EXPECT_GE(settled, 6);
}

TEST(Fit, A_bound_off_the_grid_that_nobody_asks_for_moves_no_label) {
  const FitRequest r = with_choices(3);
  const Effort told{20'000, 5'000};
  Effort untold = told;
  untold.off_grid = false;
  const auto with = fit(r, told), without = fit(r, untold);
  const Fit* a = expect_fit(with, r);
  const Fit* b = expect_fit(without, r);
  ASSERT_TRUE(a != nullptr && b != nullptr);
  EXPECT_EQ(a->solution.certificate.cost, b->solution.certificate.cost);
  EXPECT_EQ(a->solution.certificate.polished_cost, b->solution.certificate.polished_cost);
  EXPECT_GT(a->solution.certificate.continuous_bound, b->solution.certificate.continuous_bound);
  for (std::size_t i = 0; i < a->solution.placements.size(); ++i)
    EXPECT_EQ(a->solution.placements[i].port.y, b->solution.placements[i].port.y);
}

TEST(Fit, Is_given_up_only_where_the_known_figure_is_larger) {
  FitRequest r = with_choices(5);
  const auto plain = fit(r);
  const Fit* f = expect_fit(plain, r);
  ASSERT_NE(f, nullptr);
  const double scale = f->figure_to_page.scale;
  r.known_scale = scale;
  const auto as_large = fit(r);
  const Fit* same = expect_fit(as_large, r);
  ASSERT_NE(same, nullptr);
  EXPECT_EQ(same->figure_to_page.scale, scale);
  EXPECT_EQ(same->solution.certificate.cost, f->solution.certificate.cost);
  r.known_scale = scale * 1.001;
  EXPECT_TRUE(std::holds_alternative<Infeasible>(fit(r)));
}

TEST(Fit, Hopes_for_a_scale_near_the_one_that_it_finds) {
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    const FitRequest r = with_choices(seed);
    const auto result = fit(r);
    const Fit* f = expect_fit(result, r);
    ASSERT_NE(f, nullptr);
    EXPECT_NEAR(hoped_scale(r) / f->figure_to_page.scale, 1, 0.35) << "seed " << seed;
  }
  EXPECT_EQ(hoped_scale(request(0, Spread::uniform, {0, 0, 100, 100}, letter)), 0);
}

TEST(Fit, Random_figures_are_valid_or_say_why_not) {
  int fits = 0, count = 0;
  Dice dice(77);
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    const int n = 1 + dice.below(30);
    const auto spread = static_cast<Spread>(dice.below(5));
    const FigureBox painted{dice.between(-50, 50), dice.between(-50, 50), dice.between(50, 600),
                            dice.between(50, 600)};
    FitRequest r = request(n, spread, painted, letter, seed);
    if (seed % 3 == 0) r.stub = 3;
    const auto result = fit(r);
    ++count;
    if (std::holds_alternative<Fit>(result)) {
      ++fits;
      expect_fit(result, r);
    } else {
      EXPECT_FALSE(std::get<Infeasible>(result).witness.empty());
    }
  }
  EXPECT_GE(fits, count * 3 / 4);
}

}  // namespace
}  // namespace platewright::place
