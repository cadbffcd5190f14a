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
#include "engine/fit_request.hpp"
#include "engine/larger_paper.hpp"
#include "engine/members.hpp"
#include "place/place.hpp"
#include "place/refit.hpp"

namespace platewright {
namespace {

constexpr double step_factor = 0.9;  // from one type size to the next smaller one
// Blanks may stand beside the figure when that costs the poster no more than this.
constexpr double spared_scale = 0.75;
constexpr double most_list_share = 0.4;  // of the area's height, for a list below the figure
constexpr double list_gap = 4;           // mm above a list

Finding does_not_fit(const place::Infeasible& why) {
  return error("does-not-fit", {"--paper", 0, 0}, why.witness,
               "take a larger paper, a smaller set or shorter labels");
}

// A plan for the asked set, and what all sets of its layout have in common.
struct Made {
  compose::Plan plan;
  int numbers = 0;    // labels that became numbers
  int text_step = 0;
  bool bare = true;   // nothing is labelled
  std::shared_ptr<const place::Fit> fit = {};
};

PageBox common(const PageBox& a, const PageBox& b) {
  const double left = std::max(a.left(), b.left()), top = std::max(a.top(), b.top());
  return {left, top, std::min(a.right(), b.right()) - left, std::min(a.bottom(), b.bottom()) - top};
}

// Plans on one oriented paper.
class Planner {
 public:
  // `typesetting` guards the typesetter, which is not for two threads at once.
  Planner(const Loaded& loaded, const Paper& paper, const text::Typesetter& typesetter,
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
  }

  // No figure, no labels: nothing to place.
  compose::Plan page() const {
    compose::Plan plan = empty_plan(asked_);
    plan.layout.text_size = Length::pt(steps_[asked_].front());
    plan.layout.certificate.status = SolveStatus::optimal;
    return plan;
  }

  Result<Made> bare() const {
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

  Result<Made> shared() const {
    auto with_text = fitted(std::vector<LeastBox>(members_.size()), true);
    if (!with_text.ok()) return with_text.findings();
    Made made = made_of(*with_text);
    made.plan.blank = blank(asked_, 1);
    if (made.bare || made.numbers > 0) return made;

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
          hopeless_for_some = hopeless_for_some || hopeless(need, made.plan.layout);
          needs.push_back(need);
        }
        if (hopeless_for_some) continue;
        auto solved = fitted(needs, false);
        if (!solved.ok()) continue;
        Made trial = made_of(*solved);
        if (trial.plan.layout.figure_to_page.scale <
                spared_scale * made.plan.layout.figure_to_page.scale ||
            trial.text_step > made.text_step || trial.numbers > 0)
          continue;
        trial.plan.blank = blank(asked_, lines);
        trial.plan.blanks_beside = true;
        trial.plan.copy_beside = copy_beside;
        return trial;
      }
    return made;
  }

  // A layout of an earlier run with what is new put in and as little moved as can be; nothing
  // when too much would move.
  std::optional<Made> kept(const read::KeptSheet& before) const {
    const std::vector<double>& steps = steps_[asked_];
    place::KeptLayout layout;
    layout.figure_to_page = before.figure_to_page;
    const auto step = std::find_if(steps.begin(), steps.end(), [&](double pt) {
      return std::abs(pt - before.text_pt) < 1e-3;
    });
    if (step == steps.end()) return std::nullopt;
    layout.text_step = static_cast<int>(step - steps.begin());
    bool changed = before.labels.size() != members_[asked_].measured.size();
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
          members_[asked_].measured.begin(), members_[asked_].measured.end(),
          [&](const MeasuredLabel& m) { return m.label->anchor == label.anchor; });
      staying += now != members_[asked_].measured.end();
      changed = changed || now == members_[asked_].measured.end() ||
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
    Solved solved = ask({&members_[asked_].measured}, area, {need});
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
    return made;
  }

  Result<Made> numbered() const {
    // Every label is a number; the list takes what it needs at the foot, if that is not too much.
    std::vector<std::vector<MeasuredLabel>> numbers;
    double height = 0;
    for (std::size_t m = 0; m < members_.size(); ++m) {
      std::vector<compose::ListEntry> entries;
      numbers.emplace_back();
      for (MeasuredLabel n : members_[m].measured) {
        LabelWay way;
        way.text = n.ways.front().text;
        way.width = n.number_width;
        way.extent = n.number_height;
        // One line high, whatever the wording's own lines.
        way.lines = {way.text};
        n.ways = {way};
        entries.push_back({99, way.text});
        numbers.back().push_back(std::move(n));
      }
      height = std::max(height, list_height(m, entries));
    }
    PageBox area = area_;
    const bool list = height <= most_list_share * area.h;
    if (list) area.h -= height + list_gap;
    std::vector<const std::vector<MeasuredLabel>*> measured;
    for (const auto& one : numbers) measured.push_back(&one);
    Solved solved = solve(measured, area, std::vector<LeastBox>(members_.size()));
    if (const auto* why = std::get_if<place::Infeasible>(&solved.result)) return does_not_fit(*why);
    if (list) solved.list_height = height;
    Made made = made_of(solved);
    made.plan.blank = blank(asked_, 1);
    return made;
  }

 private:
  struct Solved {
    place::FitRequest request;
    std::variant<place::Fit, place::Infeasible> result;
    std::vector<MemberRoom> rooms;
    JointLabels joint;
    double list_height = 0;
  };

  compose::Plan empty_plan(std::size_t m) const {
    compose::Plan plan;
    plan.frame = frames_[m];
    plan.layout.paper = paper_;
    plan.leading = style_.type.leading;
    plan.label_font = {compose::faces(style_), Length::pt(steps_[m].front()),
                       style_.type.bold_labels, false};
    return plan;
  }

  // What the solver is to be asked.
  Solved ask(const std::vector<const std::vector<MeasuredLabel>*>& measured, const PageBox& area,
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
    return solved;
  }

  Solved solve(const std::vector<const std::vector<MeasuredLabel>*>& measured, const PageBox& area,
               const std::vector<LeastBox>& least) const {
    Solved solved = ask(measured, area, least);
    solved.result = place::fit(solved.request);
    return solved;
  }

  compose::Plan plan_of(std::size_t m, const Solved& solved) const {
    compose::Plan plan = empty_plan(m);
    plan.layout = layout_of(std::get<place::Fit>(solved.result), solved.joint, solved.rooms[m],
                            paper_, loaded_.figure.painted, style_.leader.label_gap.mm());
    plan.label_font.size = plan.layout.text_size;
    plan.list_height = solved.list_height;
    return plan;
  }

  Made made_of(const Solved& solved) const {
    const place::Fit& fit = std::get<place::Fit>(solved.result);
    return {plan_of(asked_, solved),
            static_cast<int>(std::count(fit.as_number.begin(), fit.as_number.end(), true)),
            fit.text_step, solved.joint.labels.empty(), std::make_shared<const place::Fit>(fit)};
  }

  // Fits labels in their places, and where some become numbers, again with
  // room for their key at the foot, unless that would take too much.
  Result<Solved> fitted(const std::vector<LeastBox>& least, bool numbers_allowed) const {
    std::vector<const std::vector<MeasuredLabel>*> measured;
    for (const Member& member : members_) measured.push_back(&member.measured);
    PageBox area = area_;
    double kept_free = 0;
    for (int round = 0;; ++round) {
      Solved solved = solve(measured, area, least);
      if (const auto* why = std::get_if<place::Infeasible>(&solved.result))
        return does_not_fit(*why);
      solved.list_height = kept_free;
      double height = 0;
      for (std::size_t m = 0; m < members_.size(); ++m)
        if (const auto entries = compose::key_entries(plan_of(m, solved).layout); !entries.empty())
          height = std::max(height, list_height(m, entries));
      if (height <= kept_free || !numbers_allowed) return solved;
      if (height > most_list_share * area_.h || round == 3) {
        solved.list_height = 0;  // the key goes to a page of its own
        return solved;
      }
      kept_free = height;
      area = area_;
      area.h -= height + list_gap;
    }
  }

  compose::Frame framed(const Member& member) const {
    const std::lock_guard lock(typesetting_);
    return compose::frame(paper_, style_, *member.matter, *member.words, typesetter_);
  }

  double list_height(std::size_t m, const std::vector<compose::ListEntry>& entries) const {
    const std::lock_guard lock(typesetting_);
    return compose::set_list(entries, frames_[m].area.w, frames_[m].list_font,
                             members_[m].set->language, typesetter_)
        .height;
  }

  // Room for the longest answer of the set in the reader's hand: (letters + 1)
  // times the pitch; on two lines, no word broken. Common practice.
  compose::Blank blank(std::size_t m, int lines) const {
    double letters = 0, word = 0;
    for (const MeasuredLabel& label : members_[m].measured) {
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

  // Letters to trace with their ruling below.
  LeastBox copy_box(const compose::Plan& plan, std::size_t m, const compose::Blank& beside) const {
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

  // True when boxes of this size can't stand beside a figure nearly as large
  // as the poster's: cheaper than asking the solver.
  bool hopeless(LeastBox need, const Layout& poster) const {
    const double width = 2 * (need.width + style_.leader.gutter.mm() + style_.leader.label_gap.mm()) +
                         spared_scale * poster.figure_box.w;
    const double gap = style_.rules.label_gap.mm();
    std::size_t most = 0;
    for (const Member& member : members_) most = std::max(most, member.measured.size());
    const double heights = (need.height + gap) * std::ceil(static_cast<double>(most) / 2);
    return width > area_.w || heights - gap > area_.h;
  }

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

// Fewer numbers first, then the larger figure.
bool better(const Made& a, const Made& b) {
  if (a.numbers != b.numbers) return a.numbers < b.numbers;
  return a.plan.layout.figure_to_page.scale > b.plan.layout.figure_to_page.scale;
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
  std::optional<Result<Made>> best;
  if (orientation != Orientation::automatic ||
      std::abs(portrait.width.mm() - portrait.height.mm()) < 0.5) {
    best = make(oriented(loaded.paper, orientation));
  } else {
    // The solver is pure: the two ways round can be tried at once.
    auto other = std::async(std::launch::async, [&] { return make(landscape); });
    best = make(portrait);
    Result<Made> turned = other.get();
    if (turned.ok() && (!best->ok() || better(*turned, **best))) best = std::move(turned);
  }
  if (!best->ok()) return naming_a_paper(best->findings(), loaded.paper, orientation, make);
  Planned result;
  result.plan = std::move((*best)->plan);
  if (!(*best)->bare) result.fit = (*best)->fit;
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

namespace {

template <class Ask>
Result<Planned> plan(const Loaded& loaded, Orientation orientation,
                     const text::Typesetter& typesetter, const text::StrokeFont* strokes,
                     const Ask& ask) {
  std::size_t asked = 0;
  const std::vector<Member> members = members_of(loaded, typesetter, asked);
  std::mutex typesetting;
  return planned(loaded, orientation, [&](const Paper& paper) {
    return ask(Planner(loaded, paper, typesetter, strokes, members, asked, typesetting));
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
  return plan(loaded, orientation, typesetter, strokes,
              [](const Planner& planner) { return planner.shared(); });
}

Result<Planned> numbered_plan(const Loaded& loaded, Orientation orientation,
                              const text::Typesetter& typesetter) {
  return plan(loaded, orientation, typesetter, nullptr,
              [](const Planner& planner) { return planner.numbered(); });
}

Result<Planned> bare_plan(const Loaded& loaded, Orientation orientation,
                          const text::Typesetter& typesetter) {
  return plan(loaded, orientation, typesetter, nullptr,
              [](const Planner& planner) { return planner.bare(); });
}

Planned page_plan(const Loaded& loaded, Orientation orientation,
                  const text::Typesetter& typesetter) {
  const Member member{&loaded.set, &loaded.matter, &loaded.words, {}};
  std::mutex typesetting;
  const Paper paper = oriented(loaded.paper, orientation == Orientation::automatic
                                                 ? Orientation::portrait
                                                 : orientation);
  return {Planner(loaded, paper, typesetter, nullptr, {member}, 0, typesetting).page(), 0};
}

}  // namespace platewright
