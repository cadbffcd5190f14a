// Sheets with one fault planted in each, of every rule at least one: proof names
// that fault and no other, and with the rule left out in a style, nothing.
#include <gtest/gtest.h>

#include <algorithm>
#include <ostream>
#include <set>

#include "engine/proof/faulty.hpp"
#include "platewright/proof.hpp"
#include "platewright/true_size.hpp"
#include "support/demo.hpp"
#include "support/scratch.hpp"

namespace proof_test {
namespace {

using platewright::Length;
using platewright::ProofRequest;

struct Faulty {
  std::string name;
  std::string code;
  std::function<void(const std::string& folder)> make;
  std::function<void(ProofRequest&)> ask = [](ProofRequest&) {};
};

void PrintTo(const Faulty& faulty, std::ostream* out) { *out << faulty.name; }

// A sheet drawn by Cairo.
Faulty drawn(std::string name, std::string code, std::function<void(const Pen&)> draw) {
  return {std::move(name), std::move(code),
          [draw](const std::string& folder) { write_page(folder + "/sheet.pdf", 210, 297, draw); }};
}
Faulty svg(std::string name, std::string code, std::string inside) {
  return {std::move(name), std::move(code), [inside](const std::string& folder) {
            support::write(folder + "/sheet.svg", svg_sheet(inside));
          }};
}
// The same with boxes of a bleed around A4.
Faulty bled(std::string name, std::string code, std::function<void(const Pen&)> draw) {
  return {std::move(name), std::move(code), [draw](const std::string& folder) {
            const std::string file = folder + "/sheet.pdf";
            write_page(file, 220, 307, draw);
            set_box(file, "/TrimBox", 5, 5, 215, 302);
            set_box(file, "/BleedBox", 2, 2, 218, 305);
          }};
}
std::function<void(const Pen&)> coloured_boxes(int left, int right) {
  return [=](const Pen& pen) {
    pen.colour(left);
    pen.box(30, 100, 40, 40);
    pen.colour(right);
    pen.box(70, 100, 40, 40);
  };
}
std::function<void(const Pen&)> text_in(int colour, double pt, const std::string& words) {
  return [=](const Pen& pen) {
    pen.colour(colour);
    pen.text(30, 120, pt, words);
  };
}
void coded(const std::string& file, const std::string& mark, const std::string& code) {
  write_page(file, 210, 297, [&](const Pen& pen) {
    if (!mark.empty()) pen.text(20, 50, 12, mark);
    pen.text(150, 285, 8, "Check code " + code);
  });
}

std::vector<Faulty> faulty_sheets() {
  std::vector<Faulty> all;
  all.push_back({"trim_beyond_the_bleed", "proof-boxes", [](const std::string& folder) {
                   write_page(folder + "/sheet.pdf", 210, 297, [](const Pen&) {});
                   set_box(folder + "/sheet.pdf", "/TrimBox", 0, 0, 210, 297);
                   set_box(folder + "/sheet.pdf", "/BleedBox", 5, 5, 200, 290);
                 }});
  all.push_back({"paper_of_no_size", "proof-page-size", [](const std::string& folder) {
                   write_page(folder + "/sheet.pdf", 200, 200, [](const Pen&) {});
                 }});
  all.push_back({"font_left_out", "proof-font", [](const std::string& folder) {
                   support::write(folder + "/sheet.pdf", without_font());
                 }});
  all.push_back(drawn("tiny_text", "proof-text-small", text_in(0, 4, "tiny")));
  all.push_back(drawn("text_small_for_five_years", "proof-text-small", text_in(0, 12, "Stalk")));
  all.back().ask = [](ProofRequest& r) { r.age = 5; };  // 14 pt
  all.push_back(drawn("hairline", "proof-line-thin",
                      [](const Pen& pen) { pen.line(30, 120, 90, 120, 0.1); }));
  all.push_back({"line_thin_once_shrunk", "proof-line-thin", [](const std::string& folder) {
                   write_page(folder + "/sheet.pdf", 210, 297,
                              [](const Pen& pen) { pen.line(30, 120, 90, 120, 0.3); });
                   shrink(folder + "/sheet.pdf", 0.7);
                 }});
  all.push_back(drawn("pale_text", "proof-contrast", text_in(0x777777, 14, "Stalk and blade")));
  all.push_back(drawn("dark_text_on_a_dark_box", "proof-contrast", [](const Pen& pen) {
    pen.colour(0x204060);
    pen.box(20, 100, 120, 40);
    pen.colour(0x1f1d26);
    pen.text(30, 120, 14, "Stalk and blade");
  }));
  all.push_back(drawn("colours_one_in_grey", "proof-colours-merge", coloured_boxes(0xd04040, 0x308430)));
  // 35 apart for most eyes and in grey 9, without red cones 2.5 (computed apart from proof).
  all.push_back(drawn("colours_one_without_red_cones", "proof-colours-merge",
                      coloured_boxes(0x3d5ba8, 0xbb43ae)));
  all.push_back(drawn("image_of_100_ppi", "proof-image-coarse",
                      [](const Pen& pen) { pen.image(60, 120, 40, 157); }));
  all.push_back(drawn("image_of_200_ppi", "proof-image-soft",
                      [](const Pen& pen) { pen.image(60, 120, 40, 315); }));
  all.push_back(drawn("box_at_the_edge", "proof-edge", [](const Pen& pen) { pen.box(1, 100, 10, 10); }));
  all.push_back(bled("words_at_the_cut", "proof-edge",
                     [](const Pen& pen) { pen.text(6, 150, 14, "Stalk"); }));
  all.push_back(bled("band_without_a_bleed", "proof-bleed", [](const Pen& pen) {
    pen.colour(0x88aacc);
    pen.box(5, 100, 40, 60);
  }));
  all.push_back({"page_full_of_ink", "proof-ink", [](const std::string& folder) {
                   write_bare_page(folder + "/sheet.pdf", 210, 297, [](const Pen& pen) {
                     pen.colour(0x101050);
                     pen.box(4, 4, 202, 289);
                   });
                 }});
  all.push_back(svg("labels_on_one_another", "proof-labels-overlap",
                    svg_label("stalk", 100, 50, 60, 55) + svg_label("blade", 100, 53, 60, 60)));
  all.push_back(drawn("words_on_one_another", "proof-labels-overlap", [](const Pen& pen) {
    pen.text(30, 120, 14, "Stalk");
    pen.text(34, 121, 14, "Blade");
  }));
  all.push_back(svg("leaders_across", "proof-leaders-cross",
                    svg_label("stalk", 100, 50, 60, 80) + svg_label("blade", 100, 70, 60, 55)));
  all.push_back({"leaders_across_in_a_PDF", "proof-leaders-cross", [](const std::string& folder) {
                   write_page(folder + "/sheet.pdf", 210, 297, [](const Pen&) {});
                   add_leader(folder + "/sheet.pdf", "stalk", 60, 150, 120, 180);
                   add_leader(folder + "/sheet.pdf", "blade", 60, 180, 120, 150);
                 }});
  all.push_back({"key_of_another_version", "proof-check-code", [](const std::string& folder) {
                   coded(folder + "/worksheet.pdf", "", "AB12CD");
                   coded(folder + "/key.pdf", "Answer key", "ZZ99ZZ");
                 }});
  all.push_back({"ruler_fitted_to_a_page", "proof-ruler", [](const std::string& folder) {
                   platewright::TrueSizeRequest body;
                   body.figure = support::demo_svg("honeybee");
                   body.size.between = "front,rear=30cm";
                   body.out = folder + "/sheet.pdf";
                   if (platewright::make_true_size(body, platewright::usual_environment()).ok())
                     shrink(body.out, 0.9412);  // letter into 0.25 in margins (computed)
                 }});
  // 20 minutes of arc at 3 m are 17.45 mm, 70.7 pt of type with capitals of 0.70 em and 68.2 with
  // Andika's 0.725 (TRADE's formula, computed).
  all.push_back({"title_too_far", "proof-text-far", [](const std::string& folder) {
                   write_bare_page(folder + "/sheet.pdf", 210, 297, [](const Pen& pen) {
                     pen.text(20, 60, 69, "Leaf");
                     pen.text(20, 120, 67, "Stalk");
                   });
                 }, [](ProofRequest& r) { r.distance = Length::m(3); }});
  all.push_back(svg("leader_lost_on_the_figure", "proof-leader-contrast",
                    "<rect x=\"40\" y=\"40\" width=\"40\" height=\"40\" fill=\"#30302c\"/>" +
                        svg_label("stalk", 100, 50, 60, 60)));
  all.push_back(svg("leader_through_words", "proof-leader-over-words",
                    svg_label("stalk", 100, 50, 60, 60) + svg_label("blade", 70, 58.5, 50, 90)));
  all.push_back({"leader_through_words_in_a_PDF", "proof-leader-over-words",
                 [](const std::string& folder) {
                   write_page(folder + "/sheet.pdf", 210, 297,
                              [](const Pen& pen) { pen.text(70, 120, 14, "Stalk"); });
                   add_leader(folder + "/sheet.pdf", "blade", 60, 125, 90, 112);
                 }});
  all.push_back(svg("misspelt_label", "proof-spelling",
                    svg_label("stallk", 100, 50, 60, 60) + svg_label("blade", 100, 70, 60, 80)));
  all.back().ask = [](ProofRequest& r) {
    const std::string list = r.paths[0] + "/words.txt";
    support::write(list, "# parts of a leaf\nstalk\nblade\n");
    r.words = {list};
  };
  return all;
}

class FaultySheet : public testing::TestWithParam<Faulty> {
 protected:
  std::multiset<std::string> found(const ProofRequest& request) {
    const auto looked = platewright::proof(request, platewright::usual_environment());
    std::multiset<std::string> codes;
    for (const auto& finding : looked.findings()) codes.insert(finding.code);
    if (looked.ok())
      for (const auto& place : looked->found) codes.insert(place.finding.code);
    return codes;
  }
};

TEST_P(FaultySheet, Is_found_for_its_fault_and_no_other) {
  const support::Scratch scratch;
  const Faulty& faulty = GetParam();
  faulty.make(scratch.path().string());
  ProofRequest request;
  request.paths = {scratch.path().string()};
  faulty.ask(request);
  const auto codes = found(request);
  EXPECT_EQ(std::set(codes.begin(), codes.end()), std::set{faulty.code});
  request.style = scratch / "left-out.yaml";
  support::write(request.style, "extends: classroom\nproof:\n  leave: [" + faulty.code + "]\n");
  EXPECT_EQ(found(request).size(), 0U);
}

INSTANTIATE_TEST_SUITE_P(All, FaultySheet, testing::ValuesIn(faulty_sheets()),
                         [](const auto& each) { return each.param.name; });

TEST(FaultySheets, Are_of_every_rule_at_least_one) {
  std::set<std::string> planted;
  for (const Faulty& faulty : faulty_sheets()) planted.insert(faulty.code);
  for (const auto& rule : platewright::proof_rules())
    EXPECT_TRUE(planted.contains(std::string(rule.code))) << rule.code;
  EXPECT_GE(faulty_sheets().size(), 25U);
}

}  // namespace
}  // namespace proof_test
