// Every rule of proof with a sheet that breaks it, and it alone; limits relaxed
// in a style; files that are none.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "engine/proof/faulty.hpp"
#include "platewright/proof.hpp"
#include "platewright/true_size.hpp"
#include "support/demo.hpp"
#include "support/process.hpp"
#include "support/scratch.hpp"
#include "support/words.hpp"

namespace proof_test {
namespace {

using Set = std::set<std::string>;

class Proof : public testing::Test {
 protected:
  const support::Scratch scratch_;
  platewright::ProofRequest request_;
  const std::string file_ = scratch_ / "sheet.pdf";

  Set found() {
    if (request_.paths.empty()) request_.paths = {file_};
    const auto looked = platewright::proof(request_, platewright::usual_environment());
    Set codes;
    for (const auto& finding : looked.findings()) codes.insert(finding.code);
    if (looked.ok())
      for (const auto& place : looked->found) codes.insert(place.finding.code);
    return codes;
  }
  // A style with these lines in its proof section.
  void relax(const std::string& lines) {
    request_.style = scratch_ / "relaxed.yaml";
    support::write(request_.style, "extends: classroom\nproof:\n" + lines);
  }
  // An A4 page with something more.
  Set with(const std::function<void(const Pen&)>& draw) {
    write_page(file_, 210, 297, draw);
    return found();
  }
};

TEST_F(Proof, Of_a_sound_page_finds_nothing) {
  EXPECT_EQ(with([](const Pen&) {}), Set{});
}

TEST_F(Proof, Finds_boxes_that_stick_out) {
  write_page(file_, 210, 297, [](const Pen&) {});
  set_box(file_, "/TrimBox", 0, 0, 210, 297);
  EXPECT_EQ(found(), Set{});
  set_box(file_, "/BleedBox", 5, 5, 200, 290);
  EXPECT_EQ(found(), Set{"proof-boxes"});
}

TEST_F(Proof, Finds_a_crop_box_that_hides_some_of_the_page) {
  write_page(file_, 210, 297, [](const Pen&) {});
  set_box(file_, "/CropBox", 0, 0, 210, 297);
  EXPECT_EQ(found(), Set{});
  set_box(file_, "/CropBox", 0, 0, 210, 250);
  EXPECT_TRUE(found().contains("proof-boxes"));
}

// ISO 32000-1, 14.11.2: a page's unit is 1/72 inch times its UserUnit.
TEST_F(Proof, Finds_a_page_that_counts_in_another_unit) {
  write_page(file_, 210, 297, [](const Pen&) {});
  set_unit(file_, 1);
  EXPECT_EQ(found(), Set{});
  set_unit(file_, 2);
  EXPECT_EQ(found(), Set{"proof-boxes"});
}

TEST_F(Proof, Knows_the_paper_that_prints_on_letter_and_a4) {
  write_page(file_, 210, 279.4, [](const Pen&) {});
  EXPECT_EQ(found(), Set{});
}

TEST_F(Proof, Finds_a_page_that_no_paper_fits) {
  write_page(file_, 200, 200, [](const Pen&) {});
  EXPECT_EQ(found(), Set{"proof-page-size"});
}

TEST_F(Proof, Finds_a_font_that_is_not_in_the_file) {
  support::write(file_, without_font());
  EXPECT_EQ(found(), Set{"proof-font"});
}

TEST_F(Proof, Finds_text_below_any_floor_and_below_the_readers_own) {
  EXPECT_EQ(with([](const Pen& pen) { pen.text(30, 120, 4, "tiny"); }), Set{"proof-text-small"});
  relax("  least-text: 3 pt\n");
  EXPECT_EQ(found(), Set{});
  EXPECT_EQ(with([](const Pen& pen) { pen.text(30, 120, 12, "Stalk"); }), Set{});
  request_.age = 5;  // 14 pt
  EXPECT_EQ(found(), Set{"proof-text-small"});
  // Small print at the foot may be small.
  EXPECT_EQ(with([](const Pen& pen) { pen.text(20, 285, 7, "For learning"); }), Set{});
}

TEST_F(Proof, Tells_the_small_words_of_a_page_once_with_the_smallest) {
  request_.age = 5;  // 14 pt
  request_.paths = {file_};
  write_page(file_, 210, 297, [](const Pen& pen) {
    pen.text(30, 120, 12, "stalk");
    pen.text(30, 130, 9, "blade");
    pen.text(30, 140, 12, "vein");
    pen.text(20, 285, 4, "tiny");  // small print, which may be 5 pt
  });
  const auto looked = platewright::proof(request_, platewright::usual_environment());
  ASSERT_TRUE(looked.ok());
  ASSERT_EQ(looked->found.size(), 2U);
  EXPECT_EQ(looked->found[0].finding.message,
            "1 word is set smaller than 5 pt, the smallest \"tiny\" in 4 pt");
  EXPECT_EQ(looked->found[1].finding.message,
            "3 words are set smaller than 14 pt, the smallest \"blade\" in 9 pt");
}

TEST_F(Proof, Lets_the_number_in_the_corner_of_a_square_be_smaller) {
  request_.age = 5;
  const auto in_square = [](double x, double y, double pt, const std::string& text) {
    return [=](const Pen& pen) {
      for (int i = 0; i < 3; ++i) pen.frame(40 + 10 * i, 100, 10);
      pen.text(40 + x, 100 + y, pt, text);
    };
  };
  EXPECT_EQ(with(in_square(0.8, 3, 7, "12")), Set{});
  const Set small{"proof-text-small"};
  EXPECT_EQ(with(in_square(0.8, 3, 5.5, "12")), small);
  EXPECT_EQ(with(in_square(0.8, 3, 7, "123")), small);
  EXPECT_EQ(with(in_square(0.8, 3, 7, "ab")), small);
  EXPECT_EQ(with(in_square(4.2, 6, 7, "1")), small) << "in the middle: a label";
  EXPECT_EQ(with([](const Pen& pen) { pen.text(40, 100, 7, "12"); }), small);
}

TEST_F(Proof, Tells_at_most_500_findings_of_a_rule_on_a_page) {
  write_page(file_, 210, 297, [](const Pen& pen) {
    pen.colour(0xcccccc);
    for (int i = 0; i < 700; ++i) pen.text(20 + 5 * (i % 35), 60 + 4 * (i / 35), 8, "o");
  });
  request_.paths = {file_};
  const auto looked = platewright::proof(request_, platewright::usual_environment());
  ASSERT_TRUE(looked.ok());
  EXPECT_EQ(looked->found.size(), 500U);
  EXPECT_EQ(std::count_if(looked->found.begin(), looked->found.end(), [](const auto& place) {
              return support::contains(place.finding.message, "there are more");
            }), 1);
}

TEST_F(Proof, Ends_soon_on_places_that_no_page_has) {
  write_page(file_, 210, 297, [](const Pen&) {});
  for (int i = 0; i < 50; ++i) add_leader(file_, "l" + std::to_string(i), -1e12, 1e14, 1e15, -1e13 * i);
  set_box(file_, "/TrimBox", -1e30, -1e30, 1e30, 1e30);
  const auto done = support::platewright({"proof", file_});
  EXPECT_EQ(done.code, 1) << done.said();
  EXPECT_LT(done.processor_seconds, 10) << done.said();
}

TEST_F(Proof, Ends_soon_on_leaders_to_and_fro_across_the_page) {
  write_page(file_, 210, 297, [](const Pen&) {});
  add_zigzag(file_, "stalk", 2400, 9000);
  add_zigzag(file_, "blade", 2400, 1);
  const auto done = support::platewright({"proof", file_});
  EXPECT_EQ(done.code, 1) << done.said();
  EXPECT_LT(done.processor_seconds, 10) << done.said();
  add_zigzag(file_, "tip", 300, 1);
  EXPECT_EQ(found(), Set{"pdf-large"});
}

TEST_F(Proof, Of_an_SVG_whose_leaders_have_too_many_points_is_a_finding) {
  std::string path = "M0 0";
  for (int i = 0; i < 5000; ++i) path += i % 2 ? "L10 20" : "L200 30";
  support::write(scratch_ / "sheet.svg",
                 svg_sheet("<path class=\"pw-leader\" data-anchor=\"stalk\" d=\"" + path + "\"/>"));
  request_.paths = {scratch_ / "sheet.svg"};
  EXPECT_EQ(found(), Set{"svg-large"});
}

TEST_F(Proof, Finds_lines_too_thin_whatever_scales_them) {
  EXPECT_EQ(with([](const Pen& pen) { pen.line(30, 120, 90, 120, 0.25); }), Set{});
  EXPECT_EQ(with([](const Pen& pen) { pen.line(30, 120, 90, 120, 0.2); }), Set{"proof-line-thin"});
  EXPECT_EQ(with([](const Pen& pen) { pen.line(30, 120, 90, 120, 0.3); }), Set{});
  shrink(file_, 0.7);  // 0.21 pt
  EXPECT_EQ(found(), Set{"proof-line-thin"});
  relax("  least-line: 0 pt\n");
  EXPECT_EQ(found(), Set{});
}

TEST_F(Proof, Finds_thin_lines_of_a_figure_in_an_svg_sheet_whatever_scales_them) {
  const std::string sheet = scratch_ / "sheet.svg";
  request_.paths = {sheet};
  // A figure of 400 units on 100 mm: 0.25 mm a unit, so 0.35 units are 0.25 pt (0.0882 mm).
  const auto with_line = [&](const std::string& inside) {
    support::write(sheet, svg_sheet("<svg x=\"50\" y=\"50\" width=\"100\" height=\"100\" "
                                    "viewBox=\"0 0 400 400\">" +
                                    inside + "</svg>"));
    return found();
  };
  const auto line = [](const std::string& width) {
    return "<path d=\"M50 50C90 200 200 90 300 300\" fill=\"none\" stroke=\"#000\" " + width + "/>";
  };
  const Set thin{"proof-line-thin"};
  const std::string sound = line("stroke-width=\"2\"");
  EXPECT_EQ(with_line(line("stroke-width=\"0.36\"")), Set{});
  EXPECT_EQ(with_line(line("stroke-width=\"0.34\"")), thin);
  EXPECT_EQ(with_line("<style>path{stroke-width:0.2}</style>" + line("class=\"a\"")), thin);
  EXPECT_EQ(with_line("<g transform=\"scale(0.5)\">" + line("stroke-width=\"0.6\"") + "</g>"),
            thin);
  EXPECT_EQ(with_line("<g transform=\"scale(0.5)\">" + line("stroke-width=\"0.8\"") + "</g>"),
            Set{});
  EXPECT_EQ(with_line("<g opacity=\"0.5\">" + line("stroke-width=\"0.2\"") + "</g>"), thin);
  EXPECT_EQ(with_line("<defs><g id=\"d\">" + line("stroke-width=\"0.5\"") +
                      "</g></defs><use href=\"#d\" transform=\"scale(0.6)\"/>"),
            thin);
  EXPECT_EQ(with_line("<defs>" + line("stroke-width=\"0.1\"") + "</defs>" + sound), Set{});
  EXPECT_EQ(with_line(line("stroke-width=\"0\"") + sound), Set{});
}

TEST_F(Proof, Finds_coarse_images_of_a_figure_in_an_svg_sheet) {
  const std::string sheet = scratch_ / "sheet.svg";
  request_.paths = {sheet};
  // Two pixels a side (a PNG of 2 by 2, grey, by hand of zlib), on 60 mm.
  const std::string image =
      "<image x=\"50\" y=\"100\" width=\"60\" height=\"60\" href=\"data:image/png;base64,"
      "iVBORw0KGgoAAAANSUhEUgAAAAIAAAACCAAAAABX3VL4AAAADklEQVR4nGOY0MDQMAEABm"
      "YCIXFLLBUAAAAASUVORK5CYII=\"/>";
  support::write(sheet, svg_sheet(image));
  EXPECT_EQ(found(), Set{"proof-image-coarse"});
  // What a filter paints is as fine as who draws it makes it.
  support::write(sheet,
                 svg_sheet("<filter id=\"f\"><feGaussianBlur stdDeviation=\"2\"/></filter><rect "
                           "x=\"50\" y=\"50\" width=\"60\" height=\"60\" fill=\"#333\" "
                           "filter=\"url(#f)\"/>"));
  EXPECT_EQ(found(), Set{});
}

TEST_F(Proof, Finds_text_too_like_its_ground) {
  // #767676 on white has 4.54, #777777 4.48 (computed by WCAG's formula).
  EXPECT_EQ(with([](const Pen& pen) {
              pen.colour(0x767676);
              pen.text(30, 120, 14, "Stalk and blade");
            }),
            Set{});
  EXPECT_EQ(with([](const Pen& pen) {
              pen.colour(0x777777);
              pen.text(30, 120, 14, "Stalk and blade");
            }),
            Set{"proof-contrast"});
  // Large text needs 3.
  EXPECT_EQ(with([](const Pen& pen) {
              pen.colour(0x777777);
              pen.text(30, 120, 20, "Stalk and blade");
            }),
            Set{});
  // What is beneath counts, not the paper.
  EXPECT_EQ(with([](const Pen& pen) {
              pen.colour(0x204060);
              pen.box(20, 100, 120, 40);
              pen.colour(0x1f1d26);
              pen.text(30, 120, 14, "Stalk and blade");
            }),
            Set{"proof-contrast"});
  EXPECT_EQ(with([](const Pen& pen) {
              pen.colour(0x204060);
              pen.box(20, 100, 120, 40);
              pen.colour(0xffffff);
              pen.text(30, 120, 14, "Stalk and blade");
            }),
            Set{});
}

TEST_F(Proof, Finds_colours_that_touch_and_are_one_in_grey) {
  // Luminances .1745 and .1744 (computed).
  const auto red_and_green = [&](double gap) {
    return with([gap](const Pen& pen) {
      pen.colour(0xd04040);
      pen.box(30, 100, 40, 40);
      pen.colour(0x308430);
      pen.box(70 + gap, 100, 40, 40);
    });
  };
  EXPECT_EQ(red_and_green(0), Set{"proof-colours-merge"});
  EXPECT_EQ(red_and_green(3), Set{}) << "paper between them tells them apart";
  EXPECT_EQ(with([](const Pen& pen) {
              pen.colour(0xd04040);
              pen.box(30, 100, 40, 40);
              pen.colour(0x308430);
              pen.box(70, 100, 40, 40);
              pen.colour(0);
              pen.line(70, 100, 70, 140, 3);
            }),
            Set{})
      << "a line between them tells them apart";
  red_and_green(0);
  add_leader(file_, "blade", 50, 120, 100, 121);
  EXPECT_EQ(found(), Set{"proof-colours-merge"}) << "a leader across does not";
}

TEST_F(Proof, Finds_images_of_too_few_pixels) {
  // 40 mm are 1.575 in: 100, 200 and 320 pixels in an inch (computed).
  EXPECT_EQ(with([](const Pen& pen) { pen.image(60, 120, 40, 157); }), Set{"proof-image-coarse"});
  EXPECT_EQ(with([](const Pen& pen) { pen.image(60, 120, 40, 315); }), Set{"proof-image-soft"});
  EXPECT_EQ(with([](const Pen& pen) { pen.image(60, 120, 40, 504); }), Set{});
}

TEST_F(Proof, Finds_what_lies_at_the_edge) {
  EXPECT_EQ(with([](const Pen& pen) { pen.box(1, 100, 10, 10); }), Set{"proof-edge"});
  EXPECT_EQ(with([](const Pen& pen) { pen.box(3.5, 100, 10, 10); }), Set{});
  relax("  edge: 5 mm\n");
  EXPECT_EQ(found(), Set{"proof-edge"});
}

TEST_F(Proof, Finds_a_bleed_that_is_missing) {
  // A4 with 5 mm around it, of which 3 are bleed.
  const auto band = [&](double beyond) {
    write_page(file_, 220, 307, [beyond](const Pen& pen) {
      pen.colour(0x88aacc);
      pen.box(5 - beyond, 100, 40, 60);
    });
    set_box(file_, "/TrimBox", 5, 5, 215, 302);
    set_box(file_, "/BleedBox", 2, 2, 218, 305);
    return found();
  };
  EXPECT_EQ(band(3), Set{});
  EXPECT_EQ(band(0), Set{"proof-bleed"});
}

TEST_F(Proof, Finds_a_page_full_of_ink) {
  write_bare_page(file_, 210, 297, [](const Pen& pen) {
    pen.colour(0x101050);
    pen.box(4, 4, 202, 289);
  });
  EXPECT_EQ(found(), Set{"proof-ink"});
  relax("  most-ink: 0\n");
  EXPECT_EQ(found(), Set{});
}

TEST_F(Proof, Finds_labels_that_overlap_and_leaders_that_cross) {
  request_.paths = {scratch_ / "sheet.svg"};
  const auto of = [&](const std::string& inside) {
    support::write(request_.paths[0], svg_sheet(inside));
    return found();
  };
  EXPECT_EQ(of(svg_label("stalk", 100, 50, 60, 60) + svg_label("blade", 100, 70, 60, 80)), Set{});
  EXPECT_EQ(of(svg_label("stalk", 100, 50, 60, 80) + svg_label("blade", 100, 70, 60, 55)),
            Set{"proof-leaders-cross"});
  EXPECT_EQ(of(svg_label("stalk", 100, 50, 60, 55) + svg_label("blade", 100, 53, 60, 60)),
            Set{"proof-labels-overlap"});
}

TEST_F(Proof, Finds_a_key_of_another_version) {
  const auto sheet = [&](const std::string& name, const std::string& mark, const std::string& code) {
    write_page(scratch_ / name, 210, 297, [&](const Pen& pen) {
      if (!mark.empty()) pen.text(20, 50, 12, mark);
      pen.text(150, 285, 8, "Check code " + code);
    });
  };
  request_.paths = {scratch_.path().string()};
  sheet("worksheet.pdf", "", "AB12CD");
  sheet("key.pdf", "Answer key", "AB12CD");
  EXPECT_EQ(found(), Set{});
  sheet("key.pdf", "Answer key", "ZZ99ZZ");
  EXPECT_EQ(found(), Set{"proof-check-code"});
  sheet("worksheet-2.pdf", "", "ZZ99ZZ");
  EXPECT_EQ(found(), Set{}) << "another set of the same figure";
  // Beside its own sheet a key is held against that alone, which may be one without a code.
  sheet("quiz.pdf", "", "AB12CD");
  sheet("quiz-key.pdf", "Answer key", "ZZ99ZZ");
  EXPECT_EQ(found(), Set{"proof-check-code"});
  write_page(scratch_ / "quiz.pdf", 210, 297, [](const Pen&) {});
  sheet("quiz-key.pdf", "Answer key", "CARDS1");
  EXPECT_EQ(found(), Set{});
}

TEST_F(Proof, Holds_a_key_against_the_worksheets_of_its_own_kind) {
  // Several kinds of one figure, which share their title; on cards the largest words are another.
  const auto sheet = [&](const std::string& name, const std::string& mark, const std::string& large,
                         const std::string& code) {
    write_bare_page(scratch_ / name, 210, 297, [&](const Pen& pen) {
      pen.text(20, 25, 28, large);
      if (!mark.empty()) pen.text(20, 50, 12, mark);
      pen.text(150, 285, 8, "Check code " + code);
    });
  };
  request_.paths = {scratch_.path().string()};
  sheet("1.pdf", "", "The leaf", "LOCATE");
  sheet("2.pdf", "", "The leaf", "SORTED");
  sheet("3.pdf", "", "Stalk", "CARDS1");
  sheet("4.pdf", "Answer key", "The leaf", "SORTED");
  sheet("5.pdf", "Answer key", "The leaf", "CARDS1");
  sheet("6.pdf", "Answer key", "The leaf", "LOCATE");
  EXPECT_EQ(found(), Set{});
  sheet("7.pdf", "Answer key", "The leaf", "QUIZ12");
  EXPECT_EQ(found(), Set{}) << "its worksheet is not there";
  sheet("4.pdf", "Answer key", "The leaf", "ZZ99ZZ");
  EXPECT_EQ(found(), Set{"proof-check-code"});
}

// Whatever kinds share a file, none of its keys is of another version.
TEST_F(Proof, Finds_no_key_at_fault_in_what_the_program_made_of_several_kinds) {
  const auto made = support::platewright({"sheet", support::demo_svg("child"), "--terms",
                                          support::demo_terms("child"), "--set", "little", "--kind",
                                          "worksheet,locate,sort,cards,memory,quiz,mat,track,key",
                                          "--out", file_});
  ASSERT_EQ(made.code, 0) << made.said();
  EXPECT_FALSE(found().contains("proof-check-code"));
}

TEST_F(Proof, Finds_a_ruler_that_was_fitted_to_a_page) {
  platewright::TrueSizeRequest body;
  body.figure = support::demo_svg("honeybee");
  body.size.between = "front,rear=30cm";
  body.out = file_;
  ASSERT_TRUE(platewright::make_true_size(body, platewright::usual_environment()).ok());
  EXPECT_EQ(found(), Set{});
  shrink(file_, 0.9412);  // letter into 0.25 in margins (computed)
  EXPECT_EQ(found(), Set{"proof-ruler"});
  relax("  ruler: 0 mm\n");
  EXPECT_EQ(found(), Set{});
}

TEST_F(Proof, Of_what_is_no_sheet_is_a_finding) {
  EXPECT_EQ(found(), Set{"file-missing"});
  const std::string sound = [&] {
    write_page(file_, 210, 297, [](const Pen&) {});
    return support::bytes_of(file_);
  }();
  for (const std::string& bytes : {std::string(), std::string("%PDF-1.7\nnothing"), sound.substr(0, 40)}) {
    support::write(file_, bytes);
    EXPECT_EQ(found(), Set{"pdf-unreadable"});
  }
  support::write(file_, pages(2001));
  EXPECT_EQ(found(), Set{"pdf-large"});
  support::write(file_, sound);
  unpack_to(file_, (std::size_t{64} << 20) + 1);  // some 64 kB packed
  EXPECT_EQ(found(), Set{"pdf-large"});
  support::write(file_, with_image(40'000, 40'000));
  EXPECT_EQ(found(), Set{"pdf-large"});
  request_.paths = {scratch_ / "sheet.svg"};
  support::write(request_.paths[0], "<svg");
  EXPECT_EQ(found(), Set{"svg-unreadable"});
  support::write(request_.paths[0], "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 9 9\"/>");
  EXPECT_EQ(found(), Set{"svg-size"});
  request_.paths = {scratch_ / "notes.txt"};
  EXPECT_EQ(found(), Set{"proof-nothing"});
  request_.paths = {support::source("styles")};
  EXPECT_EQ(found(), Set{"proof-nothing"});
}

TEST_F(Proof, On_the_command_line_exits_with_1_on_errors_and_shows_them_in_a_report) {
  write_page(file_, 210, 297, [](const Pen& pen) {
    pen.text(30, 120, 4, "tiny <b>");
    pen.line(30, 150, 90, 150, 0.1);
  });
  const std::string report = scratch_ / "proof.html";
  const auto done = support::platewright({"proof", file_, "--report", report});
  EXPECT_EQ(done.code, 1) << done.said();
  EXPECT_TRUE(support::contains(done.err, ":1: error[proof-text-small]")) << done.err;
  EXPECT_TRUE(support::contains(done.err, ":1: warning[proof-line-thin]")) << done.err;
  const std::string html = support::bytes_of(report);
  EXPECT_GE(support::between(html, "data:image/png;base64,iVBOR", "\"").size(), 2U);
  EXPECT_TRUE(support::contains(html, "Rule 4, proof-text-small"));
  EXPECT_FALSE(support::contains(html, "<b>"));
  const auto json = support::platewright({"proof", file_, "--json"});
  EXPECT_EQ(json.code, 1);
  EXPECT_TRUE(support::contains(json.out, "\"proof-text-small\"")) << json.out;
  write_page(file_, 210, 297, [](const Pen&) {});
  EXPECT_EQ(support::platewright({"proof", file_}).code, 0);
}

TEST_F(Proof, Keeps_the_pixels_of_one_page_at_a_time) {
  if (support::sanitized()) GTEST_SKIP() << "a sanitizer takes memory of its own";
  support::write(file_, pages(150));
  const auto done = support::platewright({"proof", file_});
  EXPECT_EQ(done.code, 0) << done.said();
  EXPECT_LT(done.peak_kib, 150 * 1024);  // 2 MiB each
}

TEST(Proof_rules, Have_numbers_codes_and_reasons_of_their_own) {
  std::set<int> numbers;
  Set codes;
  for (const auto& rule : platewright::proof_rules()) {
    EXPECT_TRUE(numbers.insert(rule.number).second) << rule.number;
    EXPECT_TRUE(codes.insert(std::string(rule.code)).second) << rule.code;
    EXPECT_GT(rule.why.size(), 20U) << rule.code;
  }
}

}  // namespace
}  // namespace proof_test
