// Letters that hang out of their line keep the leader's gap as all others do.
#include <gtest/gtest.h>

#include <set>

#include "engine/composing.hpp"
#include "page_ink.hpp"
#include "support/demo.hpp"
#include "support/scratch.hpp"

namespace platewright {
namespace {

TEST(Label_ink, Keeps_the_gap_to_its_own_leader_where_letters_hang_out_of_the_line) {
  const support::Scratch scratch;
  // A j hangs out to the left where it begins a line, an f to the right where it ends one.
  support::write(scratch / "t.terms.yaml",
                 "sets: {little: {ages: 4-6, language: en}}\nterms:\n"
                 "  pupil: {little: \"jaj\\njuj\", side: right}\n"
                 "  vitreous: {little: \"jam\\njelly\", side: right}\n"
                 "  lens: {little: \"stiff\\nleaf\", side: left}\n"
                 "  cornea: {little: \"reef\", side: left}\n");
  SheetRequest request;
  request.figure = support::demo_svg("eye");
  request.terms = scratch / "t.terms.yaml";
  request.paper = "a3";
  request.kinds = {SheetKind::poster};
  const text::Typesetter typesetter;
  auto loaded = load_to_compose(request, usual_environment(), typesetter);
  ASSERT_TRUE(loaded.ok());
  const auto made = compose_figure(*loaded, request, typesetter, nullptr);
  ASSERT_TRUE(made.ok());
  const ComposedSheet& sheet = made->sheets.front();
  const double gap = (*loaded)->style.leader.label_gap.mm();
  std::multiset<Side> sides;
  for (const PlacedLabel& label : sheet.planned->plan.layout.labels) {
    sides.insert(label.side);
    for (const std::string& line : label.lines)
      for (const Ink& ink : ink_of(sheet.pages.front())) {
        if (ink.text != line) continue;
        const double room = label.side == Side::left ? label.port.x - ink.box.right()
                                                     : ink.box.left() - label.port.x;
        EXPECT_GE(room, gap - 0.05) << line;
      }
  }
  EXPECT_EQ(sides, (std::multiset<Side>{Side::left, Side::left, Side::right, Side::right}));
}

}  // namespace
}  // namespace platewright
