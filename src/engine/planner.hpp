// Plans on one oriented paper, for one label set or for several that share a layout.
#pragma once

#include <memory>
#include <mutex>
#include <optional>
#include <variant>
#include <vector>

#include "compose/listing.hpp"
#include "compose/plan.hpp"
#include "engine/layout_store.hpp"
#include "engine/members.hpp"
#include "place/place.hpp"

namespace platewright {

// Blanks may stand beside the figure when that costs the poster no more than this.
inline constexpr double spared_scale = 0.75;
inline constexpr double most_list_share = 0.4;  // of the area's height, for a list below the figure
inline constexpr double list_gap = 4;           // mm above a list

Finding does_not_fit(const place::Infeasible& why);

// What the solver was asked and answered.
struct Solved {
  place::FitRequest request;
  Placed result;
  std::vector<MemberRoom> rooms;
  JointLabels joint;
  double list_height = 0;
};

// A plan for the asked set, and what all sets of its layout have in common.
struct Made {
  compose::Plan plan;
  int numbers = 0;    // labels that became numbers
  int text_step = 0;
  bool bare = true;   // nothing is labelled
  std::shared_ptr<const Solved> solved = {};  // null where nothing was placed
  bool cramped = false;  // the figure has less of the page than is wanted
};

class Planner {
 public:
  // `typesetting` guards the typesetter, which is not for two threads at once.
  Planner(const Loaded& loaded, const Paper& paper, const text::Typesetter& typesetter,
          const text::StrokeFont* strokes, const std::vector<Member>& members, std::size_t asked,
          std::mutex& typesetting);

  // No figure, no labels: nothing to place.
  compose::Plan page() const;

  Result<Made> bare() const;
  // Without `numbers` no label becomes one. A page with a smaller figure than `known_scale` need
  // not be made (0: any is).
  Result<Made> shared(bool numbers, double known_scale = 0) const;
  // About the scale of that page, at a glance.
  double hoped_scale() const;
  // Whether blanks beside a figure of this scale are worth a try.
  bool may_hold_blanks(double scale) const;

  // A layout of an earlier run with what is new put in and as little moved as can be; nothing
  // when too much would move.
  std::optional<Made> kept(const read::KeptSheet& before) const;

  Result<Made> numbered() const;

  // The same plan with its placement proven, or bettered, as far as the effort goes, and
  // its figure smaller where only that makes the page calm.
  Made finished(const Made& made, const place::Effort& effort) const;

  // What readers of member `m` see of a plan that was made for any of them.
  compose::Plan seen_by(std::size_t m, const Made& made) const;

 private:
  compose::Plan empty_plan(std::size_t m) const;
  // What the solver is to be asked.
  Solved ask(const std::vector<Measured>& measured, const PageBox& area,
             const std::vector<LeastBox>& least) const;

  Solved solve(const std::vector<Measured>& measured, const PageBox& area,
               const std::vector<LeastBox>& least, bool numbers, double known_scale = 0) const;

  compose::Plan plan_of(std::size_t m, const Solved& solved) const;
  Made made_of(const Solved& solved) const;
  // Adds what no placement on that page can fall below, where somebody is told it.
  void tell_least(Made& made) const;

  // Fits labels in their places, and where some become numbers, again with
  // room for their key at the foot, unless that would take too much.
  Result<Solved> fitted(const std::vector<LeastBox>& least, bool numbers,
                        double known_scale = 0) const;

  compose::Frame framed(const Member& member) const;
  text::Font heading_font(std::size_t m) const;
  // Width that brackets of groups take on each side, mm.
  double bracket_room() const;
  double list_height(std::size_t m, const std::vector<compose::ListEntry>& entries) const;

  // Room for the longest answer of the set in the reader's hand: (letters + 1)
  // times the pitch; on two lines, no word broken. Common practice.
  compose::Blank blank(std::size_t m, int lines) const;

  // Letters to trace with their ruling below.
  LeastBox copy_box(const compose::Plan& plan, std::size_t m, const compose::Blank& beside) const;

  // True when boxes of this size can't stand beside a figure nearly as large
  // as the poster's: cheaper than asking the solver.
  bool hopeless(LeastBox need, double figure_width) const;

  std::mutex& typesetting_;
  const Loaded& loaded_;
  const Style& style_;
  Paper paper_;
  const text::Typesetter& typesetter_;
  const text::StrokeFont* strokes_;
  const std::vector<Member>& members_;
  std::size_t asked_;
  std::vector<compose::Frame> frames_;  // by member, as are the next two
  std::vector<AgeRow> ages_;
  std::vector<std::vector<double>> steps_;
  PageBox area_;                        // common to all members
};

}  // namespace platewright
