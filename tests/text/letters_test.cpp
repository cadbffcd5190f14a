// Words as puzzles spell them. Greek capitals: The Unicode Standard, section 5.18 (case
// mappings, Greek), from memory.
#include "text/letters.hpp"

#include <gtest/gtest.h>

namespace platewright::text {
namespace {

using Letters = std::vector<std::string>;

TEST(Capitals, Of_greek_have_no_tonos_and_keep_their_diaeresis) {
  EXPECT_EQ(capitals("κέλυφος", "el"), (Letters{"Κ", "Ε", "Λ", "Υ", "Φ", "Ο", "Σ"}));
  EXPECT_EQ(capitals("Ήπαρ", "el"), (Letters{"Η", "Π", "Α", "Ρ"}));
  EXPECT_EQ(capitals("μαΐου", "el"), (Letters{"Μ", "Α", "Ϊ", "Ο", "Υ"}));
}

TEST(Capitals, Of_other_scripts_keep_their_marks_unless_folded) {
  EXPECT_EQ(capitals("œil né", "fr"), (Letters{"Œ", "I", "L", "N", "É"}));
  EXPECT_EQ(capitals("né", "fr", true), (Letters{"N", "E"}));
  EXPECT_EQ(capitals("Fuß", "de"), (Letters{"F", "U", "S", "S"}));
}

}  // namespace
}  // namespace platewright::text
