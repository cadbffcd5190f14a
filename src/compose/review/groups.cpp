// Sheets about the groups that parts belong to: sort them, find the odd one out.
#include <algorithm>
#include <cmath>

#include "base/random.hpp"
#include "compose/listing.hpp"
#include "compose/review/flow.hpp"
#include "compose/review/kinds.hpp"

namespace platewright::compose {
namespace {

constexpr double padding = 3;       // mm inside boxes
constexpr double box_gap = 5;       // mm between boxes
constexpr double row_number_room = 1.9;  // ems

Pen frame_pen(const SheetInput& input) { return {input.style->ruling.base, 0.4, {}, true}; }

std::vector<Page> sort_pages(const SheetInput& input, const std::vector<TermGroup>& all_groups,
                             const std::vector<std::string>& bank, bool key) {
  ReviewPages pages(input, "sort", input.words->at("instruction-sort"), key);
  const SheetInput& in = pages.input();
  const AgeRow& age = in.style->for_age(in.matter.youngest);
  flow(pages, box_gap, [&](const text::Font& font, double width) {
    text::Font bold = font;
    bold.bold = true;
    std::vector<FlowBlock> blocks;
    // A bank of more words than a page holds stands in several boxes.
    const double page_height = pages.area().h;
    const auto bank_block = [&](std::size_t first, std::size_t count) {
      std::vector<ListEntry> entries;
      for (std::size_t i = first; i < std::min(first + count, bank.size()); ++i)
        entries.push_back({0, bank[i]});
      const ListSetting list =
          set_list(entries, width - 2 * padding, font, in.matter.language, *in.typesetter);
      return FlowBlock{
          list.height + 2 * padding, [=, &in](Group& group, const PageBox& box) {
            group.items.push_back(rectangle(box, std::nullopt, frame_pen(in), 3));
            group.items.push_back(draw_list(in, entries, list, box.x + padding, box.y + padding));
          }};
    };
    for (std::size_t boxes = 1; boxes <= bank.size(); ++boxes) {
      const std::size_t each = (bank.size() + boxes - 1) / boxes;
      blocks.clear();
      bool fits = true;
      for (std::size_t first = 0; first < bank.size(); first += each) {
        blocks.push_back(bank_block(first, each));
        fits = fits && blocks.back().height <= page_height;
      }
      if (fits) break;
    }
    const std::size_t columns = width > 230 ? 3 : 2;
    const double box_width =
        (width - box_gap * static_cast<double>(columns - 1)) / static_cast<double>(columns);
    // Smaller type brings lower rulings, down to two thirds.
    const double shrink = std::max(0.66, font.size.mm() / age.text_wanted.mm());
    const double step = age.ruling.mm() * (1 + in.style->ruling.gap * 0.6) * shrink;
    // Nor is a group's box taller than a page: the rest of it goes into another.
    const auto most_lines = static_cast<std::size_t>(
        std::max(1.0, std::floor((page_height - 4 * font.size.mm() - 2 * padding) / step)));
    std::vector<TermGroup> groups;
    for (const TermGroup& whole : all_groups) {
      const std::size_t boxes = (whole.terms.size() + most_lines - 1) / most_lines;
      const std::size_t each = (whole.terms.size() + boxes - 1) / boxes;  // no group is empty
      for (std::size_t first = 0; first < whole.terms.size(); first += each) {
        const auto from = whole.terms.begin() + static_cast<std::ptrdiff_t>(first);
        TermGroup& part = groups.emplace_back(whole);
        part.terms.assign(
            from, from + static_cast<std::ptrdiff_t>(std::min(each, whole.terms.size() - first)));
      }
    }
    for (std::size_t first = 0; first < groups.size(); first += columns) {
      const std::size_t last = std::min(groups.size(), first + columns);
      // Boxes side by side have as many lines as the larger group needs.
      std::size_t most = 1;
      for (std::size_t g = first; g < last; ++g) most = std::max(most, groups[g].terms.size());
      double title = 0;
      std::vector<text::Block> names;
      for (std::size_t g = first; g < last; ++g) {
        names.push_back(set_text(in, plain(groups[g].name), bold, box_width - 2 * padding));
        title = std::max(title, names.back().height);
      }
      const double height = title + static_cast<double>(most) * step + 2 * padding;
      const std::vector<TermGroup> row(groups.begin() + static_cast<std::ptrdiff_t>(first),
                                       groups.begin() + static_cast<std::ptrdiff_t>(last));
      blocks.push_back({height, [=, &in](Group& group, const PageBox& box) {
        for (std::size_t g = 0; g < row.size(); ++g) {
          const PageBox frame =
              part_of(in, box, static_cast<double>(g) * (box_width + box_gap), box_width);
          const PageBox inner{frame.x + padding, frame.y, frame.w - 2 * padding, frame.h};
          group.items.push_back(rectangle(frame, std::nullopt, frame_pen(in), 3));
          add_text(group, in, names[g], inner, box.top() + padding * 0.6, in.style->type.ink);
          for (std::size_t i = 0; i < most; ++i) {
            const double baseline =
                box.top() + padding + title + static_cast<double>(i + 1) * step - 0.25 * step;
            group.items.push_back(ruling(in, inner.left(), baseline, inner.w, step * 0.75, false));
            if (!key || i >= row[g].terms.size()) continue;
            add_centred(group, in, plain(row[g].terms[i].text), font,
                        {inner.x, baseline - step * 0.8, inner.w, step * 0.78},
                        in.style->type.ink);
          }
        }
      }});
    }
    return blocks;
  });
  return pages.take();
}

struct OddRow {
  std::vector<StudyTerm> words;
  std::size_t odd = 0;
  std::string group;      // of the others
};

// `size` words a row, all but one of one group; each odd word as seldom as can be.
std::vector<OddRow> odd_rows(const std::vector<TermGroup>& groups, std::size_t size,
                             std::size_t most, Random& random) {
  std::vector<OddRow> rows;
  std::vector<std::size_t> large;
  for (std::size_t g = 0; g < groups.size(); ++g)
    if (groups[g].terms.size() + 1 >= size) large.push_back(g);
  if (large.empty() || groups.size() < 2) return rows;
  // Strangers of all groups, each once before any comes again.
  std::vector<std::pair<std::size_t, StudyTerm>> strangers;
  for (std::size_t g = 0; g < groups.size(); ++g)
    for (const StudyTerm& term : groups[g].terms) strangers.emplace_back(g, term);
  shuffle(strangers, random);
  std::vector<bool> used(strangers.size(), false);
  std::vector<std::vector<std::string>> made;
  for (std::size_t turn = 0; rows.size() < most && turn < 6 * most; ++turn) {
    if (turn % large.size() == 0) shuffle(large, random);
    const std::size_t home = large[turn % large.size()];
    auto pick = strangers.end();
    for (const bool fresh : {true, false}) {
      for (auto it = strangers.begin(); it != strangers.end() && pick == strangers.end(); ++it)
        if (it->first != home &&
            (!fresh || !used[static_cast<std::size_t>(it - strangers.begin())]))
          pick = it;
      if (pick != strangers.end()) break;
    }
    if (pick == strangers.end()) continue;
    OddRow row;
    row.words = dealt(groups[home].terms, size - 1, random);
    row.group = groups[home].name;
    row.words.push_back(pick->second);
    std::vector<std::string> names;
    for (const StudyTerm& t : row.words) names.push_back(plain(t.text));
    std::sort(names.begin(), names.end());
    // No word twice in a row (two parts may bear one name), no row twice on the sheet.
    if (std::adjacent_find(names.begin(), names.end()) != names.end() ||
        std::find(made.begin(), made.end(), names) != made.end())
      continue;
    made.push_back(names);
    used[static_cast<std::size_t>(pick - strangers.begin())] = true;
    row.odd = random.below(size);
    std::swap(row.words[row.odd], row.words.back());
    rows.push_back(std::move(row));
  }
  return rows;
}

std::vector<Page> odd_pages(const SheetInput& input, const std::vector<OddRow>& rows, bool key) {
  ReviewPages pages(input, "odd-one-out", input.words->at("instruction-odd-one-out"), key);
  const SheetInput& in = pages.input();
  flow(pages, 4, [&](const text::Font& font, double width) {
    std::vector<FlowBlock> blocks;
    const double em = font.size.mm();
    text::Font small = font;
    small.size = std::max(floor_of(in), font.size * 0.6);
    for (std::size_t r = 0; r < rows.size(); ++r) {
      const auto count = static_cast<double>(rows[r].words.size());
      const double cell = (width - row_number_room * em - box_gap * 0.6 * (count - 1)) / count;
      double tallest = 0;
      for (const StudyTerm& term : rows[r].words) {
        const auto ways = in.typesetter->ways(plain(term.text), font, in.matter.language, 1.25, 3);
        // Words that no break makes narrow enough ask for smaller type.
        tallest = std::max(tallest, ways.back().width > cell - 3
                                        ? 60.0
                                        : std::find_if(ways.begin(), ways.end(), [&](const auto& w) {
                                            return w.width <= cell - 3;
                                          })->height);
      }
      if (tallest >= 60.0 && em < 1.02 * in.style->for_age(in.matter.youngest).text_floor.mm())
        tallest = 3 * 1.25 * em;
      const double height = std::max(tallest + 3, 2.4 * em);
      const OddRow row = rows[r];
      blocks.push_back({height + small.size.mm() * 1.5, [=, &in](Group& group,
                                                                            const PageBox& box) {
        const Colour ink = in.style->type.ink;
        text::Font bold = font;
        bold.bold = true;
        const text::Line number =
            in.typesetter->line(std::to_string(r + 1), bold, in.matter.language);
        group.items.push_back(text_at(number, start_of(in, box), box.top() + height / 2 + 0.35 * em,
                                      at_start(in), ink));
        for (std::size_t w = 0; w < row.words.size(); ++w) {
          PageBox frame =
              part_of(in, box,
                      row_number_room * em + static_cast<double>(w) * (cell + box_gap * 0.6), cell);
          frame.h = height;
          group.items.push_back(rectangle(frame, std::nullopt, frame_pen(in), 2));
          add_centred(group, in, plain(row.words[w].text), font, frame.grown(-1.5), ink);
          if (!key || w != row.odd) continue;
          const Pen cross{in.style->ruling.base, 0.7, {}, true};
          group.items.push_back(stroke({frame.left() + 1, frame.top() + 1},
                                       {frame.right() - 1, frame.bottom() - 1}, cross));
          group.items.push_back(stroke({frame.left() + 1, frame.bottom() - 1},
                                       {frame.right() - 1, frame.top() + 1}, cross));
        }
        if (!key) return;
        const text::Block why = set_text(in, plain(row.group), small, box.w - row_number_room * em);
        add_text(group, in, why,
                 part_of(in, box, row_number_room * em, box.w - row_number_room * em),
                 box.top() + height + 0.2, in.style->type.quiet_ink);
      }});
    }
    return blocks;
  });
  return pages.take();
}

}  // namespace

Result<ComposedSheet> sort_groups(const SheetInput& input) {
  auto terms = with_groups(input, 2);
  if (!terms.ok()) return terms.findings();
  std::vector<TermGroup> groups = grouped(*terms);
  if (groups.size() < 2)
    return error("groups-missing", {input.table, 0, 0},
                 "all terms of the label set are of one group, so there is nothing to sort",
                 "give group: of at least two kinds to their rows");
  Random random(input.seed, "sort");
  shuffle(groups, random);
  std::vector<std::string> bank;
  for (TermGroup& group : groups) {
    // Parts of one group that bear one name are written once.
    std::vector<StudyTerm> once;
    for (const StudyTerm& term : group.terms)
      if (std::none_of(once.begin(), once.end(), [&](const StudyTerm& t) {
            return plain(t.text) == plain(term.text);
          }))
        once.push_back(term);
    group.terms = std::move(once);
    for (const StudyTerm& term : group.terms) bank.push_back(plain(term.text));
  }
  shuffle(bank, random);
  return {ComposedSheet{sort_pages(input, groups, bank, false),
                        sort_pages(input, groups, bank, true)},
          terms.findings()};
}

Result<ComposedSheet> odd_one_out(const SheetInput& input) {
  auto terms = with_groups(input, 3);
  if (!terms.ok()) return terms.findings();
  const std::vector<TermGroup> groups = grouped(*terms);
  const int age = input.matter.youngest;
  const auto most = static_cast<std::size_t>(
      std::min(input.style->puzzles_for(age).words, age <= 6 ? 6 : age <= 10 ? 8 : 10));
  Random random(input.seed, "odd-one-out");
  // Three of a kind and a stranger; for the young, and where groups are small, two.
  std::vector<OddRow> rows;
  if (age > 6) rows = odd_rows(groups, 4, most, random);
  if (rows.size() < 3) rows = odd_rows(groups, 3, most, random);
  if (rows.empty())
    return error("groups-missing", {input.table, 0, 0},
                 "no group of the label set has two terms beside a stranger",
                 "give the same group: to two or three rows, and another to the rest");
  return {ComposedSheet{odd_pages(input, rows, false), odd_pages(input, rows, true)},
          terms.findings()};
}

}  // namespace platewright::compose
