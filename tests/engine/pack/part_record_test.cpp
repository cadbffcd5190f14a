// A part as it is kept: the same after writing and reading, nothing when cut.
#include <gtest/gtest.h>

#include "engine/part.hpp"

namespace {

platewright::PartRecord record() {
  platewright::PartRecord r;
  r.title = "Das Herz";
  r.sheets = {{"poster", "Poster", "", "AB12CD", 1, 0, false},
              {"matching", "Zuordnen", "dunkle Haut", "", 2, 1, false}};
  r.pages = {{210, 297, 0}, {297, 210, 3}, {210, 297, 0}, {210, 297, 0}};
  platewright::Finding f = platewright::warning("a-code", {"f.svg", 3, 4}, "what", "do");
  f.notes.push_back({{"g.svg", 1, 2}, "note"});
  r.warnings = {f};
  r.pdf = std::string("%PDF\0bytes", 10);
  return r;
}

TEST(Part_record, Comes_back_as_it_was) {
  const auto back = platewright::record_from(to_bytes(record()));
  ASSERT_TRUE(back);
  EXPECT_EQ(back->title, "Das Herz");
  EXPECT_EQ(back->sheets[1].version, "dunkle Haut");
  EXPECT_EQ(back->sheets[1].keys, 1);
  EXPECT_EQ(back->pages[1].around, 3);
  EXPECT_EQ(back->warnings, record().warnings);
  EXPECT_EQ(back->pdf, record().pdf);
  EXPECT_EQ(to_bytes(*back), to_bytes(record()));
}

TEST(Part_record, Is_none_when_cut_anywhere_or_longer) {
  const std::string bytes = to_bytes(record());
  for (std::size_t size = 0; size < bytes.size(); ++size)
    EXPECT_FALSE(platewright::record_from(bytes.substr(0, size))) << size;
  EXPECT_FALSE(platewright::record_from(bytes + "x"));
}

}  // namespace
