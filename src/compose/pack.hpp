// The pages that a pack adds to its sheets: cover, contents, pages of the
// writer's own text, and the line at the foot of every page.
#pragma once

#include <string>
#include <vector>

#include "compose/page.hpp"
#include "compose/plan.hpp"
#include "platewright/figure.hpp"
#include "platewright/page_text.hpp"
#include "platewright/paper.hpp"

namespace platewright::compose {

// Everything that these pages are made from. `matter.title` is the pack's; it credits who
// compiled the pack, and no drawing.
struct PackInput {
  const Style* style = nullptr;
  const Words* words = nullptr;
  const text::Typesetter* typesetter = nullptr;
  Matter matter;
  Paper paper;           // upright
};

// A place on a page that leads to another: to entry `target` of the caller's
// list, or where that is negative to a web address.
struct PageLink {
  PageBox box;
  int target = -1;
  std::string address;
  std::string says;      // for screen readers
};

struct LinkedPage {
  Page page;
  std::vector<PageLink> links;
};

struct Cover {
  std::string title;
  std::string subtitle;        // may be empty
  std::string readers;         // "Ages 7–10"
  const Figure* figure = nullptr;  // may be null
  std::string credit, licence;     // the figure's; may be empty
};
LinkedPage pack_cover(const PackInput& input, const Cover& cover);

struct ContentsEntry {
  std::string text;
  int level = 0;               // 0: section, 1: figure or page, 2: sheet
  std::string page;            // its number as printed; may be empty
  int target = -1;             // for the link
};
// In one column where that fits one page, else in two. `note` goes below the
// last entry. The number of pages does not depend on the page numbers.
std::vector<LinkedPage> contents_pages(const PackInput& input, const std::string& title,
                                       const std::vector<ContentsEntry>& entries,
                                       const std::string& note);

// A page of text in the type of its readers, on as many pages as it takes.
std::vector<LinkedPage> text_pages(const PackInput& input, const PageText& text);

// A page with nothing on it but its footer.
LinkedPage empty_page(const PackInput& input);

// The line in the bottom margin of a page: what it belongs to, and its number.
struct RunningLine {
  double width = 0, height = 0;  // mm, of the trimmed page
  double around = 0;             // mm of bleed and slug on each side
  std::string text;
  std::string number;
};
Page running_page(const PackInput& input, const RunningLine& line);

}  // namespace platewright::compose
