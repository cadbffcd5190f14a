// Sheets from a hand-made layout: what stands where, in millimetres.
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <utility>

#include "compose/extent.hpp"
#include "compose/listing.hpp"
#include "compose/parts.hpp"
#include "compose/review/flow.hpp"

namespace platewright::compose {
namespace {

struct Made {
  text::Typesetter typesetter;
  Style style;
  Words words;
  Figure figure;
  Plan plan;
  SheetInput input;

  explicit Made(int labels = 5) {
    for (const WordKey& key : word_keys()) {
      std::string text(key.key);
      for (const std::string_view p : key.placeholders) text += " {" + std::string(p) + "}";
      words.by_key[std::string(key.key)] = text;
    }
    input.matter.title = "A figure";
    input.matter.language = "en";
    const Paper a4 = oriented(*find_paper("a4"), Orientation::portrait);
    plan.frame = frame(a4, style, input.matter, words, typesetter);
    plan.layout.paper = a4;
    plan.label_font = {"Andika", Length::pt(14), false, false};
    plan.blank = {80, 1, 12.7, 6.35};
    for (int i = 0; i < labels; ++i) {
      PlacedLabel label;
      label.anchor = std::string("a") + static_cast<char>('a' + i);
      label.text = "Word " + std::string(1, static_cast<char>('A' + i));
      label.lines = {label.text};
      label.number = i + 1;
      label.side = i % 2 ? Side::right : Side::left;
      label.box = {i % 2 ? 150.0 : 20.0, 60.0 + 20 * i, 40, 9};
      label.port = {i % 2 ? 148.8 : 61.2, 64.5 + 20 * i};
      label.targets = {{105, 64.5 + 20 * i}};
      label.leaders = {{label.port, label.targets[0]}};
      plan.layout.labels.push_back(label);
    }
    input.figure = &figure;
    input.plan = &plan;
    input.style = &style;
    input.words = &words;
    input.typesetter = &typesetter;
    input.check_code = "BCDFGH";
  }
};

void each(const std::vector<Item>& items, const std::function<void(const Item&)>& visit) {
  for (const Item& item : items) {
    visit(item);
    if (const auto* group = std::get_if<Group>(&item)) each(group->items, visit);
  }
}

std::vector<std::string> texts(const Page& page) {
  std::vector<std::string> found;
  each(page.items, [&](const Item& item) {
    if (const auto* text = std::get_if<TextItem>(&item)) found.push_back(text->line.text);
  });
  return found;
}

TEST(Worksheet, Puts_numbers_at_the_leaders_and_rulings_of_the_blank_s_length_on_the_next_page) {
  Made made;
  const std::vector<Page> pages = worksheet(made.input);
  ASSERT_EQ(pages.size(), 2U);
  int rulings = 0;
  each(pages[1].items, [&](const Item& item) {
    const auto* group = std::get_if<Group>(&item);
    if (!group || group->role != Role::ruling) return;
    ++rulings;
    const PageBox box = *extent(*group);
    EXPECT_NEAR(box.w, 80, 1e-9);
    EXPECT_NEAR(box.h, 12.7, 1e-9);  // top line to baseline: 1/2 in
  });
  EXPECT_EQ(rulings, 5);
  // No answer anywhere, also not for screen readers.
  for (const Page& page : pages) {
    for (const std::string& text : texts(page)) EXPECT_FALSE(text.starts_with("Word ")) << text;
    EXPECT_EQ(page.description.find("Word "), std::string::npos);
  }
}

std::size_t ruled_rows(const Page& page) {
  return static_cast<std::size_t>(
      std::count_if(page.items.begin(), page.items.end(), [](const Item& item) {
        const auto* group = std::get_if<Group>(&item);
        return group && group->role == Role::blank_list;
      }));
}

TEST(Worksheet_and_copywork, Spread_their_rows_evenly_over_as_few_pages_as_hold_them) {
  Made made(60);
  const std::vector<PlacedLabel> all = made.plan.layout.labels;
  for (const auto& [sheet, columns] :
       {std::pair(&worksheet, std::size_t{2}), std::pair(&key, std::size_t{2}),
        std::pair(&copywork, std::size_t{1})}) {
    std::size_t most = 0;  // rows that a page ever held
    for (std::size_t labels = 1; labels <= all.size(); ++labels) {
      made.plan.layout.labels.assign(all.begin(), all.begin() + static_cast<long>(labels));
      const std::vector<Page> pages = sheet(made.input);
      std::size_t total = 0, least = 1000, largest = 0;
      for (std::size_t p = 1; p < pages.size(); ++p) {
        total += ruled_rows(pages[p]);
        least = std::min(least, ruled_rows(pages[p]));
        largest = std::max(largest, ruled_rows(pages[p]));
      }
      EXPECT_EQ(total, labels);
      // Columns of all pages are level to a row; the last takes what is left.
      EXPECT_GT(least + 2 * columns, largest) << labels << " labels";
      // No more pages than full ones: until a second page is needed, all are on one.
      if (pages.size() == 2) most = largest;
      EXPECT_EQ(pages.size() - 1, (total + most - 1) / most) << labels << " labels";
    }
    EXPECT_GT(most, 4U);
  }
}

TEST(Worksheet, Draws_blanks_in_place_when_they_fit_beside) {
  Made made;
  made.plan.blanks_beside = true;
  made.plan.blank = {36, 1, 8.7, 4.35};
  const std::vector<Page> pages = worksheet(made.input);
  ASSERT_EQ(pages.size(), 1U);
  int blanks = 0;
  for (const Item& item : pages[0].items)
    if (const auto* group = std::get_if<Group>(&item); group && group->role == Role::label) {
      ++blanks;
      EXPECT_NEAR(extent(*group)->w, 36, 1e-9);
    }
  EXPECT_EQ(blanks, 5);
}

TEST(Worksheet_and_key, Carry_the_same_check_code) {
  Made made;
  for (const auto& pages : {worksheet(made.input), key(made.input)})
    for (const Page& page : pages) {
      bool found = false;
      for (const std::string& text : texts(page)) found |= text.find("BCDFGH") != std::string::npos;
      EXPECT_TRUE(found);
    }
}

TEST(Key, Answers_every_number) {
  Made made;
  std::vector<std::string> all;
  for (const Page& page : key(made.input))
    for (const std::string& text : texts(page)) all.push_back(text);
  for (const PlacedLabel& label : made.plan.layout.labels)
    EXPECT_EQ(std::count(all.begin(), all.end(), label.text), 1) << label.text;
}

TEST(Rows, Never_leave_the_area_and_go_on_a_further_page) {
  Made made(26);
  for (const Rows kind : {Rows::blank, Rows::answered, Rows::trace}) {
    const std::vector<Page> pages = row_pages(made.input, kind, "x", "do it", "", false);
    EXPECT_GT(pages.size(), 1U);
    for (const Page& page : pages)
      for (const Item& item : page.items)
        if (const auto* group = std::get_if<Group>(&item);
            group && group->role == Role::blank_list) {
          const PageBox box = *extent(*group);
          EXPECT_GE(box.left(), made.plan.frame.margin - 1e-6);
          EXPECT_LE(box.right(), made.plan.frame.width - made.plan.frame.margin + 1e-6);
          EXPECT_LE(box.bottom(), made.plan.frame.area.bottom() + 0.5 * 12.7 + 1e-6);
        }
  }
}

TEST(Rows, To_trace_hold_the_longest_word_and_split_what_no_page_holds) {
  Made made(2);
  made.plan.blank.ruling = 25.4;  // 1 in, for the youngest (common practice)
  made.plan.layout.labels[0].text = "Herzmuskelfasern";
  made.plan.layout.labels[1].text = "Seventeen marvellous waterproof wonderful elephants";
  for (const Orientation way : {Orientation::portrait, Orientation::landscape}) {
    const Paper a4 = oriented(*find_paper("a4"), way);
    made.plan.layout.paper = a4;
    made.plan.frame = frame(a4, made.style, made.input.matter, made.words, made.typesetter);
    const std::vector<Page> pages = row_pages(made.input, Rows::trace, "x", "do it", "", false);
    EXPECT_GT(pages.size(), 1U);
    for (const Page& page : pages)
      for (const Item& item : page.items)
        if (const auto* group = std::get_if<Group>(&item);
            group && group->role == Role::blank_list) {
          const PageBox box = *extent(*group);
          EXPECT_GE(box.left(), made.plan.frame.margin - 1e-6);
          EXPECT_LE(box.right(), page.width - made.plan.frame.margin + 1e-6);
          EXPECT_LE(box.bottom(), page.height - made.plan.frame.margin + 1e-6);
        }
  }
}

TEST(Rows, Of_worksheet_and_key_lie_alike_with_and_without_a_word_bank) {
  Made made(15);
  made.plan.blank.width = 136;  // 16 letters and one more at 8 mm: one column either way round
  made.plan.layout.paper = oriented(*find_paper("letter"), Orientation::landscape);
  made.plan.frame = frame(made.plan.layout.paper, made.style, made.input.matter, made.words,
                          made.typesetter);
  const std::vector<Page> answered = row_pages(made.input, Rows::answered, "x", "do it", "", false);
  for (const bool bank : {false, true}) {
    const std::vector<Page> blank = row_pages(made.input, Rows::blank, "x", "do it", "", bank);
    EXPECT_EQ(blank.front().width, answered.front().width);
    // 15 rows of 1/2 in with room below need two upright letter pages, bank or not.
    EXPECT_EQ(blank.size(), 2U);
    EXPECT_LT(blank.front().width, blank.front().height);
  }
}

TEST(Word_bank, Is_shuffled_by_its_seed_and_holds_each_word_once) {
  Made made(20);
  const auto first = bank_words(made.plan.layout, 1), again = bank_words(made.plan.layout, 1);
  EXPECT_EQ(first, again);
  EXPECT_NE(first, bank_words(made.plan.layout, 2));
  auto sorted = first;
  std::sort(sorted.begin(), sorted.end());
  EXPECT_EQ(std::unique(sorted.begin(), sorted.end()) - sorted.begin(), 20);
}

TEST(Word_bank, Has_no_word_where_its_answer_stands) {
  for (const int labels : {4, 6, 20}) {
    Made made(labels);
    for (std::uint64_t seed = 1; seed <= 50; ++seed) {
      const auto words = bank_words(made.plan.layout, seed);
      for (std::size_t i = 0; i < words.size(); ++i)
        EXPECT_NE(words[i], made.plan.layout.labels[i].text) << labels << " by " << seed;
    }
  }
}

// Where each ruling of a page stands.
std::vector<PageBox> rulings_of(const Page& page) {
  std::vector<PageBox> boxes;
  each(page.items, [&](const Item& item) {
    const auto* group = std::get_if<Group>(&item);
    if (group && group->role == Role::ruling) boxes.push_back(*extent(*group));
  });
  return boxes;
}

TEST(Key, Has_its_rows_where_the_worksheet_with_a_word_bank_has_them) {
  Made made(17);
  made.input.word_bank = true;
  const std::vector<Page> blank = worksheet(made.input), answered = key(made.input);
  ASSERT_EQ(blank.size(), answered.size());
  for (std::size_t p = 0; p < blank.size(); ++p) {
    const auto ours = rulings_of(blank[p]), theirs = rulings_of(answered[p]);
    ASSERT_EQ(ours.size(), theirs.size()) << p;
    for (std::size_t i = 0; i < ours.size(); ++i) {
      EXPECT_NEAR(ours[i].x, theirs[i].x, 1e-9) << p;
      EXPECT_NEAR(ours[i].bottom(), theirs[i].bottom(), 1e-9) << p;
    }
  }
}

TEST(Rows, Of_several_lines_to_an_answer_keep_off_the_next_answer) {
  Made made(3);
  made.plan.blank.width = 320;  // two lines and more on A4
  const std::vector<Page> pages = worksheet(made.input);
  ASSERT_EQ(pages.size(), 2U);
  const auto lines = rulings_of(pages[1]);
  ASSERT_EQ(lines.size() % 3, 0U);
  const std::size_t each_answer = lines.size() / 3;
  ASSERT_GT(each_answer, 1U);
  const double within = lines[1].bottom() - lines[0].bottom();
  const double between = lines[each_answer].bottom() - lines[each_answer - 1].bottom();
  EXPECT_GT(between, 1.25 * within);
}

TEST(List, Of_numbers_on_several_pages_has_no_page_with_one_last_entry) {
  for (int labels = 30; labels <= 60; labels += 6) {
    Made some(labels);
    some.plan.frame.area.h = 60;
    for (PlacedLabel& label : some.plan.layout.labels)
      label.text = "A long name of part " + label.text;
    const std::vector<Page> pages = numbered(some.input);
    std::size_t least = 1000, most = 0, total = 0;
    for (std::size_t p = 1; p < pages.size(); ++p) {
      std::size_t entries = 0;
      for (const std::string& text : texts(pages[p])) entries += text.starts_with("A long name");
      least = std::min(least, entries), most = std::max(most, entries), total += entries;
    }
    EXPECT_EQ(total, static_cast<std::size_t>(labels));
    EXPECT_LE(most - least, pages.size()) << labels;
  }
}

TEST(List, Wraps_a_few_long_entries_where_that_makes_it_much_lower) {
  Made made;
  std::vector<ListEntry> entries;
  for (int i = 1; i <= 24; ++i) entries.push_back({i, "Entry " + std::to_string(i)});
  const double width = 180;
  const auto set = [&] {
    return set_list(entries, width, made.plan.frame.list_font, "en", made.typesetter);
  };
  entries[7].text = "The one entry of this list that has a great many words to say, all in one row";
  const ListSetting one_long = set();
  EXPECT_GE(one_long.columns, 2);
  EXPECT_LE(one_long.height, 0.6 * 24 * one_long.step);  // of one column
  for (const auto& lines : one_long.lines)
    for (const text::Line& line : lines)
      EXPECT_LE(line.advance, one_long.column_width - one_long.number_width + 1e-6);
}

TEST(Sort, Keeps_many_words_and_a_large_group_inside_the_page) {
  Made made;
  for (int i = 0; i < 70; ++i)
    made.input.terms.push_back({"t" + std::to_string(i), "Part number " + std::to_string(i), "",
                                i < 50 ? "Inner" : "Outer"});
  made.input.terms[9].text =
      "A part whose name is as long as a line of this page is wide, and longer";
  const auto sheet = compose_sheet(SheetKind::sort, made.input);
  ASSERT_TRUE(sheet.ok());
  std::size_t rulings = 0;
  for (const std::vector<Page>* pages : {&sheet->pages, &sheet->keys})
    for (const Page& page : *pages)
      each(page.items, [&](const Item& item) {
        const auto* group = std::get_if<Group>(&item);
        if (!group || group->role != Role::blank_list) return;
        const PageBox box = *extent(*group);
        EXPECT_LE(box.bottom(), made.plan.frame.area.bottom() + 0.5);
        EXPECT_LE(box.right(), made.plan.frame.area.right() + 0.5);
      });
  for (const Page& page : sheet->pages) rulings += rulings_of(page).size();
  EXPECT_GE(rulings, 70U);  // a line for each word
  std::size_t answers = 0;
  for (const Page& page : sheet->keys)
    for (const std::string& text : texts(page)) answers += text.starts_with("Part number");
  EXPECT_GE(answers, 2 * 69U);  // in the bank and in its group
}

TEST(Part_picture, Shows_its_mark_wherever_the_part_lies) {
  Made made;
  made.figure.painted = made.figure.view_box = {0, 0, 400, 300};
  for (const double x : {2.0, 200.0, 398.0})
    for (const double y : {2.0, 150.0, 298.0})
      for (const AnchorKind kind : {AnchorKind::point, AnchorKind::region}) {
        Anchor anchor;
        anchor.name = "part";
        anchor.kind = kind;
        anchor.points = {{{x, y}, 0}};
        // A tall region whose best place is near its upper end.
        anchor.box = {x - 1, y - 1, 2, 200};
        made.figure.anchors = {anchor};
        for (const PageBox& box : {PageBox{0, 0, 40, 40}, PageBox{0, 0, 60, 20}}) {
          Group group;
          add_part_picture(group, made.input, "part", box, 1.6, true);
          // The window, and two circles.
          EXPECT_EQ(group.items.size(), 3U) << x << ' ' << y << ' ' << box.w;
        }
      }
}

TEST(List, Fits_its_columns_and_keeps_every_entry) {
  Made made;
  std::vector<ListEntry> entries;
  for (int i = 1; i <= 23; ++i) entries.push_back({i, "Entry " + std::to_string(i)});
  for (const double width : {40.0, 90.0, 180.0}) {
    const ListSetting setting =
        set_list(entries, width, made.plan.frame.list_font, "en", made.typesetter);
    const Group group = draw_list(made.input, entries, setting, 10, 20);
    const PageBox box = *extent(group);
    EXPECT_GE(box.left(), 10 - 1e-6);
    EXPECT_LE(box.right(), 10 + width + 1e-6);
    EXPECT_LE(box.h, setting.height + 1);
    EXPECT_EQ(group.items.size(), 46U);
  }
}

TEST(Right_to_left, Mirrors_the_row_of_the_name) {
  Made made;
  const auto name_x = [&](text::Direction direction) {
    made.input.matter.direction = direction;
    Page page;
    add_row(page, made.input, "do it", true);
    double x = 0;
    each(page.items, [&](const Item& item) {
      if (const auto* text = std::get_if<TextItem>(&item); text && text->line.text == "name-line")
        x = text->at.x;
    });
    return x;
  };
  EXPECT_GT(name_x(text::Direction::left_to_right), made.plan.frame.width / 2);
  EXPECT_LT(name_x(text::Direction::right_to_left), made.plan.frame.width / 2);
}

TEST(Instruction, Keeps_off_the_title_however_long_it_is) {
  Made made;
  made.words.by_key["instruction-copywork-numbered"] =
      "Find the number, trace the word with care and a sharp pencil, then copy it on the line below";
  made.input.matter.youngest = 4;
  made.plan.frame = frame(made.plan.layout.paper, made.style, made.input.matter, made.words,
                          made.typesetter);
  const Page page = copywork(made.input).front();
  std::optional<PageBox> title, row;
  for (const Item& item : page.items)
    if (const auto* group = std::get_if<Group>(&item)) {
      if (group->role == Role::title) title = extent(*group);
      if (group->role == Role::instruction) row = extent(*group);
    }
  ASSERT_TRUE(title && row);
  // Line boxes overlap by the white of both types; the letters may not.
  EXPECT_GT(row->top() + 0.4 * made.plan.frame.row_font.size.mm(),
            title->bottom() - 0.39 * made.plan.frame.title_font.size.mm());
  EXPECT_LE(row->bottom(), made.plan.frame.area.top() + 1e-6);
}

TEST(Dump, Is_the_same_each_time) {
  Made made;
  EXPECT_EQ(dump(poster(made.input)[0]), dump(poster(made.input)[0]));
  EXPECT_NE(dump(poster(made.input)[0]).find("group leader aa"), std::string::npos);
}

TEST(Poster, Draws_a_leader_from_the_label_to_the_target_and_a_mark_on_it) {
  Made made;
  const Page page = poster(made.input)[0];
  int leaders = 0, marks = 0;
  for (const Item& item : page.items)
    if (const auto* group = std::get_if<Group>(&item)) {
      if (group->role == Role::leader) {
        ++leaders;
        ASSERT_EQ(group->items.size(), 1U);
        const auto& steps = std::get<PathItem>(group->items[0]).steps;
        EXPECT_TRUE(std::holds_alternative<MoveTo>(steps.front()));
        EXPECT_NEAR(std::get<LineTo>(steps.back()).to.x, 105, 1e-9);
      }
      if (group->role == Role::mark) ++marks;
    }
  EXPECT_EQ(leaders, 5);
  EXPECT_EQ(marks, 5);
}

TEST(Review_flow, Sets_type_as_large_as_the_pages_it_takes_allow) {
  Made made;
  made.input.matter.youngest = 11;
  const std::vector<Length> sizes = reading_sizes(made.input);
  constexpr double gap = 3;
  int several = 0, larger = 0;
  for (int items = 1; items <= 70; ++items) {
    const auto height_at = [](Length size) { return 3.2 * size.mm(); };
    double drawn = 0;  // height of the blocks that were drawn
    ReviewPages review(made.input, "true-or-false", "Is it true or false?", false);
    flow(review, gap, [&](const text::Font& font, double) {
      const double height = height_at(font.size);
      return std::vector<FlowBlock>(
          static_cast<std::size_t>(items),
          {height, [&drawn, height](Group&, const PageBox&) { drawn = height; }});
    });
    const double room = review.area().h + gap + 1e-6;
    const std::size_t pages = review.take().size();
    // All blocks are of one height, so that pages are counted by dividing.
    const auto pages_at = [&](Length size) {
      const int each = static_cast<int>(room / (height_at(size) + gap));
      return static_cast<std::size_t>((items + each - 1) / each);
    };
    EXPECT_LE(pages, pages_at(sizes.front() * 0.8)) << items;
    if (pages == 1) continue;
    ++several;
    larger += drawn > height_at(sizes.front() * 0.8) + 1e-9;
    for (const Length size : sizes) {
      if (height_at(size) > drawn + 1e-9) {
        EXPECT_GT(pages_at(size), pages) << items;
      }
    }
  }
  EXPECT_GT(several, 20);
  EXPECT_GT(larger, several / 2);
}

}  // namespace
}  // namespace platewright::compose
