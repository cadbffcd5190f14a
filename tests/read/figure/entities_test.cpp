#include "read/svg_entities.hpp"
#include "reading.hpp"

namespace platewright::read {
namespace {

TEST(Entities, Characters_and_the_five_predefined_are_known) {
  Entities entities;
  EXPECT_EQ(entities.expand("a&amp;&lt;&gt;&quot;&apos;&#65;&#x42;&#x1F600;"),
            "a&<>\"'AB\xF0\x9F\x98\x80");
}

TEST(Entities, An_escaped_ampersand_is_not_read_twice) {
  Entities entities(" svg [<!ENTITY lung 'x'>]");
  EXPECT_EQ(entities.expand("&amp;lung;"), "&lung;");
}

TEST(Entities, Declared_ones_are_put_in_also_within_each_other) {
  Entities entities(
      " svg [<!-- <!ENTITY b 'no'> --><!ENTITY a \"x&b;y\"> <!ENTITY b 'z'> <!ENTITY b 'second'>]");
  EXPECT_EQ(entities.expand("-&a;-"), "-xzy-");
}

TEST(Entities, Forbidden_characters_are_a_fault) {
  for (const char* text :
       {"&#0;", "&#xD800;", "&#x110000;", "&#xFFFF;", "&#;", "&#x;", "&#99999999999999999999;"}) {
    Entities entities;
    EXPECT_FALSE(entities.expand(text)) << text;
    EXPECT_EQ(entities.fault(), EntityFault::character) << text;
  }
}

TEST(Entities, Faults_tell_what_they_are) {
  Entities entities(" svg [<!ENTITY e SYSTEM 'file:///etc/passwd'><!ENTITY m '<g/>'>]");
  EXPECT_FALSE(entities.expand("&e;"));
  EXPECT_EQ(entities.fault(), EntityFault::external);
  EXPECT_FALSE(entities.expand("&m;"));
  EXPECT_EQ(entities.fault(), EntityFault::markup);
  EXPECT_FALSE(entities.expand("&n;"));
  EXPECT_EQ(entities.fault(), EntityFault::unknown);
  EXPECT_FALSE(entities.expand("black & white"));
  EXPECT_EQ(entities.fault(), EntityFault::malformed);
}

}  // namespace
}  // namespace platewright::read
