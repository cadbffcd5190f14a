#include "engine/planning.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <future>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <tuple>
#include <utility>

#include "base/number.hpp"
#include "base/utf8.hpp"
#include "engine/larger_paper.hpp"
#include "engine/planner.hpp"

namespace platewright {
namespace {

constexpr double step_factor = 0.9;  // from one type size to the next smaller one

constexpr std::size_t soon_tried = 40;  // so many labels are tried twice rather than in vain

// A page whose blanks stand beside the figure may show it so much smaller than the page lying
// the other way, whose blanks stand in a list.
constexpr double beside_scale = 0.9;

double scale_of(const Made& made) { return made.plan.layout.figure_to_page.scale; }

// Fewer numbers first, then a figure with room, then the larger figure.
bool better(const Made& a, const Made& b) {
  if (a.numbers != b.numbers) return a.numbers < b.numbers;
  if (a.cramped != b.cramped) return b.cramped;
  return scale_of(a) > scale_of(b);
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
               make(oriented(larger, way), true).ok();
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

// The better way round, and the other one where its figure is a little smaller and has the blanks
// beside it that this one lacks.
struct Ways {
  Made best;
  std::optional<Made> with_blanks = {};
};

// Plans on the paper as asked, or on both ways round and keeps the better. `labels`: most
// that any set has. `hope`: about how large the figure gets on a paper; null: nobody knows.
// `may_hold_blanks`: whether blanks may fit beside a figure of a scale on a paper.
template <class Hope, class MayHoldBlanks, class Make>
Result<Ways> better_way(const Loaded& loaded, std::size_t labels, Orientation orientation,
                        const Hope& hope, const MayHoldBlanks& may_hold_blanks, const Make& make) {
  const Paper portrait = oriented(loaded.paper, Orientation::portrait);
  const Paper landscape = oriented(loaded.paper, Orientation::landscape);
  std::optional<Result<Made>> best;
  std::optional<Made> with_blanks;
  if (orientation != Orientation::automatic ||
      std::abs(portrait.width.mm() - portrait.height.mm()) < 0.5) {
    best = make(oriented(loaded.paper, orientation), true);
  } else {
    // The solver is pure: the two ways round can be tried at once.
    const auto either = [&](bool numbers) {
      auto other = std::async(std::launch::async, [&] { return make(landscape, numbers); });
      best = make(portrait, numbers);
      Result<Made> turned = other.get();
      if (turned.ok() && (!best->ok() || better(*turned, **best))) best = std::move(turned);
    };
    // The likely way first; then the other one need not be solved where its figure is smaller.
    const auto likely_first = [&](double hope_upright, double hope_lying) {
      const bool upright = hope_upright >= hope_lying;
      Result<Made> first = make(upright ? portrait : landscape, false);
      const bool good = first.ok() && first->numbers == 0 && !first->cramped && !first->bare;
      const Paper& turned = upright ? landscape : portrait;
      double known = good ? first->plan.layout.figure_to_page.scale : 0;
      // A smaller figure may still have blanks beside it.
      if (good && !first->plan.blanks_beside && may_hold_blanks(turned, beside_scale * known))
        known *= beside_scale;
      Result<Made> second = make(turned, false, known);
      Result<Made>& lying = upright ? second : first;
      best = upright ? std::move(first) : std::move(second);
      if (lying.ok() && (!best->ok() || better(*lying, **best))) std::swap(*best, lying);
      if (best->ok() && lying.ok() && lying->numbers == 0 && !lying->cramped &&
          lying->plan.blanks_beside && !(*best)->plan.blanks_beside &&
          scale_of(*lying) >= beside_scale * scale_of(**best))
        with_blanks = *std::move(lying);
    };
    // A page where all stand as text beats one with numbers, so those are not looked for yet.
    if (labels <= soon_tried) {
      if (const auto hopes = hope(portrait, landscape))
        likely_first(hopes->first, hopes->second);
      else
        either(false);
    }
    if (!best || !best->ok() || (*best)->cramped) either(true);
  }
  if (!best->ok()) return naming_a_paper(best->findings(), loaded.paper, orientation, make);
  return Ways{**std::move(best), std::move(with_blanks)};
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

namespace {

// As usual what is proven soon is proven; more labels are proven as far as that goes in a short
// time, hardly anything is of still more, and nothing exact is known of very many.
constexpr std::size_t briefly_proven = 40;  // labels
constexpr std::size_t searched = 64;
constexpr long short_proof = 30'000;  // most of them, at some 0.1 s
constexpr long brief_proof = 12'000;  // of up to `briefly_proven`, in about as long
constexpr long thorough_search = 1'000'000;

place::Effort place_effort(const Loaded& loaded, std::size_t labels) {
  const SolveEffort effort = loaded.effort;
  place::Effort e;
  e.off_grid = loaded.off_grid;
  if (effort == SolveEffort::quick || (effort == SolveEffort::usual && labels > searched))
    e.nodes = e.proof = 0;
  else if (effort == SolveEffort::usual)
    e.proof = labels <= soon_proven ? short_proof : labels <= briefly_proven ? brief_proof : 0;
  else
    e.nodes = thorough_search;
  return e;
}

Result<Made> ask(const Planner& planner, Placing placing, bool numbers, double known_scale) {
  switch (placing) {
    case Placing::shared:
      return planner.shared(numbers, known_scale);
    case Placing::numbered:
      return planner.numbered();
    case Placing::bare:
    case Placing::none:
      break;
  }
  return planner.bare();
}

// Makes a plan, and has `see` take from it, with its planner, what is wanted.
template <class See>
auto plan(const Loaded& loaded, Placing placing, Orientation orientation,
          const text::Typesetter& typesetter, const text::StrokeFont* strokes, const See& see)
    -> Result<decltype(see(std::declval<const Planner&>(), std::declval<const Made&>(),
                           std::declval<const std::vector<Member>&>()))> {
  std::size_t asked = 0, labels = 0;
  const std::vector<Member> members = members_of(loaded, typesetter, asked);
  for (const Member& member : members) labels = std::max(labels, member.measured->size());
  std::mutex typesetting;
  std::mutex planning;
  std::map<std::tuple<std::string, double, double>, Planner> planners;
  const auto planner = [&](const Paper& paper) -> const Planner& {
    const std::lock_guard lock(planning);
    return planners
        .try_emplace({paper.name, paper.width.mm(), paper.height.mm()}, loaded, paper, typesetter,
                     strokes, members, asked, typesetting)
        .first->second;
  };
  const auto hope = [&](const Paper& portrait,
                        const Paper& landscape) -> std::optional<std::pair<double, double>> {
    if (placing != Placing::shared) return std::nullopt;
    return std::pair{planner(portrait).hoped_scale(), planner(landscape).hoped_scale()};
  };
  const auto may_hold_blanks = [&](const Paper& paper, double scale) {
    return planner(paper).may_hold_blanks(scale);
  };
  auto ways = better_way(loaded, labels, orientation, hope, may_hold_blanks,
                         [&](const Paper& paper, bool numbers, double known_scale = 0) {
                           return ask(planner(paper), placing, numbers, known_scale);
                         });
  if (!ways.ok()) return ways.findings();
  const auto finish = [&](const Made& made) {
    return planner(made.plan.layout.paper)
        .finished(made, place_effort(loaded, made.solved ? made.solved->joint.labels.size() : 0));
  };
  const auto keeps_blanks = [](const Made& with_blanks, const Made& best) {
    return scale_of(with_blanks) >= beside_scale * scale_of(best);
  };
  Made made;
  // Calm leaders may take some of either figure's size, and none makes a figure larger: where the
  // one with blanks is large enough even so, the other need not be finished.
  if (ways->with_blanks) made = finish(*ways->with_blanks);
  if (!ways->with_blanks || !keeps_blanks(made, ways->best)) {
    Made other = finish(ways->best);
    if (!ways->with_blanks || !keeps_blanks(made, other)) made = std::move(other);
  }
  return see(planner(made.plan.layout.paper), made, members);
}

Result<Planned> own_plan(const Loaded& loaded, Placing placing, Orientation orientation,
                         const text::Typesetter& typesetter, const text::StrokeFont* strokes) {
  const auto start = std::chrono::steady_clock::now();
  return plan(loaded, placing, orientation, typesetter, strokes,
              [&](const Planner&, const Made& made, const std::vector<Member>&) {
                Planned result;
                result.plan = made.plan;
                if (!made.bare)
                  result.fit = {made.solved, &std::get<place::Fit>(made.solved->result)};
                result.seconds =
                    std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
                return result;
              });
}

}  // namespace

Result<Planned> shared_plan(const Loaded& loaded, Orientation orientation,
                            const text::Typesetter& typesetter,
                            const text::StrokeFont* strokes) {
  if (loaded.kept && !loaded.labels.empty()) {
    const Orientation lies = loaded.kept->width > loaded.kept->height ? Orientation::landscape
                                                                      : Orientation::portrait;
    std::size_t asked = 0;
    const std::vector<Member> members = members_of(loaded, typesetter, asked);
    std::mutex typesetting;
    const Planner planner(loaded, oriented(loaded.paper, lies), typesetter, strokes, members, asked,
                          typesetting);
    if (auto made = planner.kept(*loaded.kept)) return Planned{std::move(made->plan), 0};
  }
  return own_plan(loaded, Placing::shared, orientation, typesetter, strokes);
}

Result<Planned> numbered_plan(const Loaded& loaded, Orientation orientation,
                              const text::Typesetter& typesetter) {
  return own_plan(loaded, Placing::numbered, orientation, typesetter, nullptr);
}

Result<Planned> bare_plan(const Loaded& loaded, Orientation orientation,
                          const text::Typesetter& typesetter) {
  return own_plan(loaded, Placing::bare, orientation, typesetter, nullptr);
}

Result<MemberPlans> member_plans(const Loaded& loaded, Placing placing, Orientation orientation,
                                 const text::Typesetter& typesetter,
                                 const text::StrokeFont* strokes) {
  return plan(loaded, placing, orientation, typesetter, strokes,
              [](const Planner& planner, const Made& made, const std::vector<Member>& members) {
                MemberPlans plans;
                for (std::size_t m = 0; m < members.size(); ++m)
                  plans[members[m].set->name] =
                      std::make_shared<const Planned>(Planned{planner.seen_by(m, made)});
                return plans;
              });
}

Planned page_plan(const Loaded& loaded, Orientation orientation,
                  const text::Typesetter& typesetter) {
  const Member member{&loaded.set, &loaded.matter, &loaded.words,
                      std::make_shared<const std::vector<MeasuredLabel>>()};
  std::mutex typesetting;
  const Paper paper = oriented(loaded.paper, orientation == Orientation::automatic
                                                 ? Orientation::portrait
                                                 : orientation);
  return {Planner(loaded, paper, typesetter, nullptr, {member}, 0, typesetting).page(), 0};
}

}  // namespace platewright
