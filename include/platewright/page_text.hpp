// A page of plain text that a pack's writer adds, block by block.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "platewright/finding.hpp"

namespace platewright {

// Bytes [from, to) of a text that stand out; they nest.
struct Emphasis {
  std::size_t from = 0, to = 0;
  bool bold = false, italic = false;
};
struct PageBlock {
  enum class Kind { heading, paragraph, bullet, number, caution, link, new_page };
  Kind kind = Kind::paragraph;
  std::string text;
  std::vector<Emphasis> emphasis;  // of all but a link
  int number = 0;    // of a numbered item
  int lines = 0;     // ruled lines to write on below it
  std::string link;  // address, printed as a code
  SourcePosition at;
};
struct PageText {
  std::string title;
  std::vector<PageBlock> blocks;
};

}  // namespace platewright
