// Cards to cut out, printed on both sides: fronts on one page, their backs on the next.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "compose/review/duplex.hpp"
#include "compose/review/flow.hpp"

namespace platewright::compose {

// What is drawn into a card's safe inside, which no drift of the printer cuts.
using CardFace = std::function<void(Group&, const SheetInput&, const PageBox&)>;

struct Card {
  CardFace front;
  CardFace back;
};

// The page as it lies for most cards of the style's size (or as asked), their places, and what
// stands above them.
struct CardPaper {
  Plan plan;
  CardGrid grid;
  bool over_horizontal = false;  // how the printer turns it
  text::Block head;
};
// `instruction` is set no smaller than the readers' floor, unless not one card fits with it; it
// makes cards smaller by a fifth at most where there would be fewer else.
CardPaper card_paper(const SheetInput& input, const std::string& instruction);

// Front page, back page, front page ... The instruction stands above the cards; credit and check
// code at the foot. Error `card-large` where not one card fits the paper.
Result<std::vector<Page>> card_pages(const SheetInput& input, std::string_view kind,
                                     const std::string& instruction,
                                     const std::vector<Card>& cards);

}  // namespace platewright::compose
