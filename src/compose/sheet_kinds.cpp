// Each kind of sheet in the order that help lists them; a new kind adds its
// function and one line to `compose_sheet`.
#include <algorithm>
#include <cmath>
#include <string>

#include "compose/brackets.hpp"
#include "compose/listing.hpp"
#include "compose/parts.hpp"
#include "compose/plan.hpp"
#include "compose/review/kinds.hpp"

namespace platewright::compose {
namespace {

std::string described(const SheetInput& input, bool with_words) {
  const Layout& layout = input.plan->layout;
  std::string text = fill(fill(input.words->at("describe-figure"), "title",
                               input.matter.title.empty() ? input.words->at("untitled")
                                                          : input.matter.title),
                          "number", std::to_string(layout.labels.size()));
  if (with_words && !layout.labels.empty()) {
    std::string names;
    for (const PlacedLabel* label : by_number(layout))
      names += (names.empty() ? "" : ", ") + label->text;
    text += ": " + names + ".";
  }
  return text;
}

Page figure_page(const SheetInput& input, std::string_view kind, std::string_view note,
                 bool with_words) {
  Page page = start_page(input, input.words->at(kind), note);
  page.description = described(input, with_words);
  add_figure(page, input, Art::painted,
             input.style->for_age(input.matter.youngest).colouring_line.mm());
  add_leaders(page, input);
  add_brackets(page, input);
  return page;
}

// A list at the foot of the figure's page where room was kept for it, else on pages of its own.
void add_list(std::vector<Page>& pages, const SheetInput& input,
              const std::vector<ListEntry>& entries, std::string_view kind) {
  const PageBox area = input.plan->frame.area;
  const ListSetting setting = set_list(entries, area.w, input.plan->frame.list_font,
                                       input.matter.language, *input.typesetter);
  if (input.plan->list_height >= setting.height - 1e-6) {
    pages.front().items.push_back(
        draw_list(input, entries, setting, area.left(), area.bottom() - setting.height));
    return;
  }
  struct Part {
    std::vector<ListEntry> entries;
    ListSetting setting;
  };
  // As many entries to a page as it holds, at most so many.
  const auto parts_of = [&](std::size_t most) {
    std::vector<Part> parts;
    for (std::size_t first = 0; first < entries.size();) {
      std::size_t count = std::min(most, entries.size() - first);
      Part part;
      for (;;) {
        part.entries.assign(entries.begin() + static_cast<std::ptrdiff_t>(first),
                            entries.begin() + static_cast<std::ptrdiff_t>(first + count));
        part.setting = set_list(part.entries, area.w, input.plan->frame.list_font,
                                input.matter.language, *input.typesetter);
        if (count == 1 || part.setting.height <= area.h) break;
        count = std::clamp<std::size_t>(
            static_cast<std::size_t>(static_cast<double>(count) * area.h / part.setting.height), 1,
            count - 1);
      }
      parts.push_back(std::move(part));
      first += count;
    }
    return parts;
  };
  // No page with one last entry: all that are needed hold about as many.
  std::vector<Part> parts = parts_of(entries.size());
  if (std::vector<Part> even = parts_of((entries.size() + parts.size() - 1) / parts.size());
      even.size() == parts.size())
    parts = std::move(even);
  for (const Part& part : parts) {
    Page page = start_page(input, input.words->at(kind), {});
    add_row(page, input, input.words->at("list-heading"), false);
    page.items.push_back(draw_list(input, part.entries, part.setting, area.left(), area.top()));
    pages.push_back(std::move(page));
  }
}

// The key of those labels that stand as numbers even on the poster.
void add_number_key(std::vector<Page>& pages, const SheetInput& input) {
  const std::vector<ListEntry> entries = key_entries(input.plan->layout);
  if (!entries.empty()) add_list(pages, input, entries, "list-heading");
}

std::string coded(const SheetInput& input) {
  return fill(input.words->at("fingerprint"), "code", input.check_code);
}

// Free height at the foot of the figure's area, below everything placed.
double free_foot(const SheetInput& input) {
  const Layout& layout = input.plan->layout;
  double lowest = layout.figure_box.bottom();
  for (const PlacedLabel& label : layout.labels) lowest = std::max(lowest, label.box.bottom());
  return input.plan->frame.area.bottom() - lowest - 4;
}

// A blank stands where the poster's label does, flush on the leader's side.
PageBox blank_box(const Plan& plan, const PlacedLabel& label) {
  const double width = plan.blank.width;
  const Align align = align_of(label);
  const double left = align == Align::right  ? label.box.right() - width
                      : align == Align::left ? label.box.left()
                                             : label.box.centre().x - width / 2;
  return {left, label.box.centre().y - plan.blank.height() / 2, width, plan.blank.height()};
}

void add_blank_rulings(Group& group, const SheetInput& input, const PageBox& box, bool guides) {
  const Blank& blank = input.plan->blank;
  for (int i = 0; i < blank.lines; ++i)
    group.items.push_back(ruling(input, box.left(),
                                 box.top() + blank.ruling + i * (blank.ruling + blank.descender),
                                 box.w, blank.ruling, guides));
}

void add_blanks(Page& page, const SheetInput& input) {
  const Plan& plan = *input.plan;
  for (const PlacedLabel* label : by_number(plan.layout)) {
    Group group{Role::label, label->anchor, {}};
    add_blank_rulings(group, input, blank_box(plan, *label),
                      plan.blank.ruling >= Length::in(0.5).mm() - 1e-9);
    page.items.push_back(std::move(group));
  }
}

void add_answers(Page& page, const SheetInput& input) {
  const Plan& plan = *input.plan;
  const double step = plan.blank.ruling + plan.blank.descender;
  const Length floor = input.style->for_age(input.matter.youngest).text_floor;
  for (const PlacedLabel* label : by_number(plan.layout)) {
    Group group{Role::label, label->anchor, {}};
    const PageBox box = blank_box(plan, *label);
    add_blank_rulings(group, input, box, false);
    // A long answer is set smaller before it takes more lines than its blank has.
    text::Font font = plan.label_font;
    text::Block block;
    for (;; font.size = std::max(floor, font.size * 0.9)) {
      block = input.typesetter->paragraph(label->text, font, input.matter.language, plan.leading,
                                          box.w);
      if (static_cast<int>(block.lines.size()) <= plan.blank.lines || font.size <= floor) break;
    }
    const double spare =
        std::max(0.0, plan.blank.lines - static_cast<double>(block.lines.size()));
    double baseline = box.top() + plan.blank.ruling + step * spare - 0.8;
    for (const text::Line& line : block.lines) {
      group.items.push_back(
          text_at(line, box.centre().x, baseline, Align::centre, input.style->type.ink));
      baseline += step;
    }
    page.items.push_back(std::move(group));
  }
}

}  // namespace

std::vector<Page> poster(const SheetInput& input) {
  std::vector<Page> pages{figure_page(input, "poster", {}, true)};
  add_label_texts(pages.front(), input);
  add_number_key(pages, input);
  return pages;
}

namespace {

// The word bank, where one is asked for and the figure leaves room below; false where it is
// still due.
bool add_bank_at_foot(Page& page, const SheetInput& input) {
  if (!input.word_bank) return true;
  const PageBox area = input.plan->frame.area;
  const double height = bank_height(input, area.w);
  if (height > free_foot(input)) return false;
  page.items.push_back(draw_bank(input, area.left(), area.bottom() - height, area.w));
  return true;
}

}  // namespace

std::vector<Page> worksheet(const SheetInput& input) {
  const std::string note = coded(input);
  std::vector<Page> pages{figure_page(input, "worksheet", note, false)};
  const PageBox area = input.plan->frame.area;
  const bool beside = input.plan->blanks_beside;
  add_row(pages.front(), input,
          input.words->at(beside ? "instruction-worksheet" : "instruction-worksheet-numbered"),
          true);
  if (beside)
    add_blanks(pages.front(), input);
  else
    add_label_numbers(pages.front(), input);
  const bool bank_due = !add_bank_at_foot(pages.front(), input);
  if (!beside) {
    for (Page& page : row_pages(input, Rows::blank, input.words->at("worksheet"),
                                input.words->at("instruction-worksheet-numbered"), note, bank_due))
      pages.push_back(std::move(page));
  } else if (bank_due) {
    Page page = start_page(input, input.words->at("word-bank"), note);
    page.items.push_back(draw_bank(input, area.left(), area.top(), area.w));
    pages.push_back(std::move(page));
  }
  return pages;
}

std::vector<Page> copywork(const SheetInput& input) {
  std::vector<Page> pages{figure_page(input, "copywork", {}, true)};
  const std::string& instruction = input.words->at(
      input.plan->copy_beside ? "instruction-copywork" : "instruction-copywork-numbered");
  add_row(pages.front(), input, instruction, true);
  if (input.plan->copy_beside) {
    const Plan& plan = *input.plan;
    for (const PlacedLabel* label : by_number(plan.layout)) {
      Group group{Role::label, label->anchor, {}};
      const double traced = trace_width(input, label->text, plan.blank.ruling);
      const double width = std::max(plan.blank.width, traced);
      const bool right = align_of(*label) == Align::right;
      const double left = right ? label->box.right() - width : label->box.left();
      const double step = plan.blank.ruling + plan.blank.descender;
      const double baseline = label->box.centre().y - step + plan.blank.ruling;
      group.items.push_back(ruling(input, left, baseline, width, plan.blank.ruling, true));
      add_trace(group, input, label->text, left, baseline, plan.blank.ruling);
      group.items.push_back(ruling(input, left, baseline + step, width, plan.blank.ruling, true));
      pages.front().items.push_back(std::move(group));
    }
    return pages;
  }
  add_label_numbers(pages.front(), input);
  for (Page& page : row_pages(input, Rows::trace, input.words->at("copywork"),
                              input.words->at("instruction-copywork"), {}, false))
    pages.push_back(std::move(page));
  return pages;
}

std::vector<Page> key(const SheetInput& input) {
  const std::string note = coded(input);
  std::vector<Page> pages{figure_page(input, "key", note, true)};
  add_row(pages.front(), input, input.words->at("key-mark"), false);
  if (input.plan->blanks_beside) {
    add_answers(pages.front(), input);
    add_bank_at_foot(pages.front(), input);
    return pages;
  }
  add_label_numbers(pages.front(), input);
  // The worksheet's bank stands here too: its rows lie where the worksheet's do.
  const bool bank_due = !add_bank_at_foot(pages.front(), input);
  for (Page& page : row_pages(input, Rows::answered, input.words->at("key"),
                              input.words->at("key-mark"), note, bank_due))
    pages.push_back(std::move(page));
  return pages;
}

std::vector<Page> colouring(const SheetInput& input) {
  Page page = start_page(input, input.words->at("colouring"), {});
  page.description = described(input, input.labels);
  add_row(page, input, input.words->at("instruction-colouring"), false);
  add_figure(page, input, Art::outlines,
             input.style->for_age(input.matter.youngest).colouring_line.mm());
  std::vector<Page> pages{std::move(page)};
  if (input.labels) {
    add_leaders(pages.front(), input);
    add_brackets(pages.front(), input);
    add_label_texts(pages.front(), input);
    add_number_key(pages, input);
  }
  return pages;
}

std::vector<Page> numbered(const SheetInput& input) {
  std::vector<Page> pages{figure_page(input, "numbered", {}, true)};
  add_label_numbers(pages.front(), input);
  std::vector<ListEntry> entries;
  for (const PlacedLabel* label : by_number(input.plan->layout))
    entries.push_back({label->number, label->text});
  add_list(pages, input, entries, "numbered");
  return pages;
}

Result<ComposedSheet> compose_sheet(SheetKind kind, const SheetInput& input) {
  switch (kind) {
    case SheetKind::poster: return ComposedSheet{poster(input), {}};
    case SheetKind::worksheet: return ComposedSheet{worksheet(input), {}};
    case SheetKind::copywork: return ComposedSheet{copywork(input), {}};
    case SheetKind::key: return ComposedSheet{key(input), {}};
    case SheetKind::colouring: return ComposedSheet{colouring(input), {}};
    case SheetKind::numbered: return ComposedSheet{numbered(input), {}};
    case SheetKind::paste: return paste(input);
    case SheetKind::matching: return matching(input);
    case SheetKind::locate: return locate(input);
    case SheetKind::sort: return sort_groups(input);
    case SheetKind::odd_one_out: return odd_one_out(input);
    case SheetKind::true_or_false: return true_or_false(input);
    case SheetKind::fill_in: return fill_in(input);
    case SheetKind::word_search: return word_search_sheet(input);
    case SheetKind::criss_cross: return criss_cross_sheet(input);
    case SheetKind::scramble: return scramble(input);
    case SheetKind::missing_letters: return missing_letters(input);
    case SheetKind::maze: return maze_sheet(input);
    case SheetKind::cards: return cards(input);
    case SheetKind::memory: return memory(input);
    case SheetKind::bingo: return bingo(input);
    case SheetKind::quiz: return quiz(input);
    case SheetKind::track: return track(input);
    case SheetKind::mat: return mat(input);
  }
  return ComposedSheet{};
}

}  // namespace platewright::compose
