// Everything about a sheet that a teacher might want to change: type, line,
// colour, margins, rulings, leader convention. Read from a YAML file; a style
// may extend another.
#pragma once

#include <string>
#include <vector>

#include "platewright/colour.hpp"
#include "platewright/length.hpp"
#include "platewright/terms.hpp"

namespace platewright {

// The mark at a leader's end. `automatic` follows the drawing convention that
// textbooks quote from ISO 128: a dot where the leader ends inside an outline,
// an arrowhead where it ends on one.
enum class LeaderMark { automatic, dot, arrowhead, none };

// What readers of one age need. Rows are sorted by `up_to`; the first row with
// age <= up_to counts, the last one for anybody older.
struct AgeRow {
  int up_to = 99;           // years, inclusive
  Length text_wanted;       // label type size where there is room
  Length text_floor;        // never smaller
  Length pitch;             // width one handwritten letter takes
  Length ruling;            // baseline to top line
  Length colouring_line;    // outline width on a colouring page
};

// The published rows, 4 years to grown up; the default of every style.
std::vector<AgeRow> usual_ages();

// Puzzles and games for readers of one age. Rows are sorted by `up_to`, as above.
struct PuzzleRow {
  int up_to = 99;
  int grid = 12;       // squares along one side of a word search, at least
  int directions = 4;  // of its words: 1 across, 2 also down, 4 also aslant, 8 also backwards
  int words = 12;      // most words or questions of one puzzle
  int bingo = 3;       // squares along one side of a bingo card, where the words suffice
  int missing = 33;    // percent of a word's letters left out
  int maze = 12;       // cells along the shorter side of a maze
};

// By age as schools use them; the default of every style.
std::vector<PuzzleRow> usual_puzzles();

struct PageStyle {
  Length margin = Length::mm(12.7);
  double margin_share = 0.03;  // of the shorter side, where that is more
  Length bleed = Length::mm(0);
  bool crop_marks = false;
  Length crop_mark_length = Length::mm(5);
  Length crop_mark_width = Length::pt(0.25);
  bool title = true;
  bool footer = true;
  Length title_size = Length::pt(28);      // on a page whose shorter side is 210 mm; grows with it
  Length title_gap = Length::mm(4);
  Length footer_size = Length::pt(8);
  Length footer_gap = Length::mm(3);
  Colour background{255, 255, 255};
};

struct TypeStyle {
  std::string face = "Andika";
  // Tried in this order for characters the face lacks.
  std::vector<std::string> further_faces = {"Noto Sans",        "Noto Sans Arabic",
                                            "Noto Sans Hebrew", "Noto Sans CJK SC",
                                            "Noto Sans Symbols2", "DejaVu Sans"};
  bool bold_labels = false;
  bool bold_title = true;
  double leading = 1.2;     // baseline to baseline of a wrapped label, in ems of text size (line boxes may overlap inside one label)
  int most_lines = 3;       // a label wraps into at most so many lines
  double poster_growth = 1.0;  // label size wanted on a poster grows with the page's shorter side / 210 mm to this power
  Colour ink{0x1f, 0x1d, 0x26};
  Colour quiet_ink{0x59, 0x57, 0x60};  // footers, numbers of the list
};

struct LeaderStyle {
  Length width = Length::mm(0.35);
  Colour colour{0x1f, 0x1d, 0x26};
  LeaderMark mark = LeaderMark::automatic;
  Length dot = Length::mm(1.4);         // diameter
  Length casing = Length::mm(0.3);      // of paper's colour on both sides, so that a leader shows on dark parts
  Length dot_ring = Length::mm(0.3);    // white ring around a dot, so that it shows on dark parts
  Length arrow_length = Length::mm(2.6);
  Length arrow_width = Length::mm(1.5);
  Length label_gap = Length::mm(1.2);   // between a label's text and its leader
  Length stub = Length::mm(0);          // horizontal part at the label; 0: straight leaders
  Length gutter = Length::mm(9);        // least space between figure and labels
  bool inside = false;       // labels stand inside regions that have room for them, without a leader
  Length widest_gutter = Length::mm(30);
};

// Least distances; see the hard rules in DEVELOPERS.md.
struct RuleStyle {
  Length label_gap = Length::mm(1.5);         // between label boxes
  Length row_gap = Length::mm(6.0);           // between the words of labels side by side
  Length leader_gap = Length::mm(0.8);        // between leaders
  Length anchor_gap = Length::mm(1.0);        // leader to a foreign anchor
  Length slot = Length::mm(1.0);              // grid of the exact placement; longer on large papers
};

// Weights of the published placement cost; each is per unit named.
struct CostStyle {
  double length = 1.0;      // per tenth of the shorter side of the area that figure and labels share
  double slope = 3.0;       // squared sine of the angle from the horizontal
  double steep = 15.0;      // the same once more, what it is above that of the calm angle
  double gap = 2.0;         // uneven free gaps between neighbours
  double wrong_side = 30.0; // label on the side its writer did not ask for
  double group_break = 0.5; // neighbours of different groups that split one
  double detail = 3.0;      // busy drawing crossed
  double target = 1.5;      // leader end away from the region's best point
  double wrap = 0.2;        // a label in more lines than it needs
  double balance = 15.0;    // lopsided columns
};

// A page within these limits is calm; see LayoutMetrics. Where one is not, the figure
// is drawn smaller, so that leaders have room to fan out.
struct CalmStyle {
  double length = 1.15;         // all leaders against the shortest they could be
  double angle = 35.0;          // degrees; 95 % of the leaders are no steeper
  double gap_variation = 0.35;
  double balance = 0.15;
  double smallest = 0.8;        // of the largest figure that fits; 1: never smaller
};

struct GroupStyle {
  bool bracket = false;               // along neighbours of one group, with its name
  Length line = Length::mm(0.5);
  Length gap = Length::mm(1.5);       // from the labels, and to the name
  double heading = 0.75;              // size of the name, as a share of the labels' wanted size
};

struct RulingStyle {
  Length top_line = Length::pt(0.75);
  Length midline = Length::pt(0.5);
  Length baseline = Length::pt(1.0);
  Colour line{0x8a, 0x9a, 0xae};
  Colour base{0x4c, 0x5f, 0x7a};
  Length dash = Length::mm(1.6);
  double descender = 0.5;      // room below the baseline, as a share of the ruling (baseline to top line)
  double gap = 0.5;            // between rulings, likewise; descenders hang into it
  Length blank_line = Length::pt(0.9);
  bool uniform_blanks = true;
  Colour trace{0x9a, 0x9a, 0x9a};     // letters to trace
  Length trace_line = Length::pt(1.1);
};

// Sheets at true size, and pieces to cut out.
struct TrueSizeStyle {
  Length overlap = Length::mm(12);        // that neighbouring sheets share
  Length iso_margin = Length::mm(10);     // kept free along each edge of ISO papers
  Length other_margin = Length::in(0.5);  // of letter and all others
  int most_sheets = 400;                  // more are a finding
  Colour guide{0x70, 0x70, 0x70};         // crosses, trim lines, rulers
  Length guide_width = Length::mm(0.25);
  // The cut line of pieces lies so far outside them: for readers younger than
  // `young`, with corners rounded as wide, and for all others.
  int young = 6;
  Length young_cut = Length::mm(5);
  Length cut = Length::mm(2.5);
  Length cut_width = Length::pt(1);
  Length piece_gap = Length::mm(3);       // between the cut lines of two pieces
  Length flap = Length::mm(12);           // height of a flap to fold and glue
};

struct CardSize {
  Length width = Length::in(2.5);
  Length height = Length::in(3.5);
  friend bool operator==(const CardSize&, const CardSize&) = default;
};

// Review pages, cards and games.
struct ReviewStyle {
  bool fold_accents = false;              // print E for É in puzzles of letters
  int first_letter = 7;                   // readers up to this age are given a scrambled word's first letter
  int clue_age = 7;                       // readers from this age on match words with clues, younger ones with pictures
  int triples = 11;                       // from this age on, pairs of cards are threes with a clue
  CardSize card;
  Length drift = Length::mm(2);           // backs may come out so far from their fronts
  bool short_edge = false;                // backs are turned over the sheet's shorter edge
  int bingo_cards = 8;
  bool bingo_free = false;                // a free square in the middle of a bingo card
  Length mat_line = Length::mm(2);        // outlines of play mats
};

// Limits of proof. A limit of 0 takes its rule away.
struct ProofStyle {
  Length small_print = Length::mm(25);    // from the page's lower edge: footers may be smaller than labels
  Length least_text = Length::pt(5);      // of any text
  Length least_line = Length::pt(0.25);
  double contrast = 4.5;                  // of text with what lies beneath (WCAG 2)
  double large_contrast = 3;              // of large text
  Length large_text = Length::pt(18);
  int least_ppi = 150;                    // of raster images, as printed
  int wanted_ppi = 300;
  Length edge = Length::mm(3);            // kept free of content along each edge
  double most_ink = 100;                  // per cent: a page of one full colour all over is 100
  Length ruler = Length::mm(0.5);         // that 10 cm may be off
  double merging = 5;                     // colours nearer than this look the same (CIE 1976)
  double distinct = 25;                   // colours this far apart were meant to differ
  Length distance;                        // all text but small print is to be read from there; 0: not asked
  double arcmin = 20;                     // that a capital letter takes up, seen from the distance
  double leader_contrast = 3;             // of leaders with what lies beneath (WCAG 2)
  Length leader_lost = Length::mm(5);     // in a row with less
  Length over_words = Length::mm(0.5);    // that a leader may run through words
  double overlap = 0.1;                   // of the smaller box of two words, that they may share
  std::vector<std::string> leave;         // codes or numbers of rules that are left out
};

// Pages that a pack adds to its sheets.
struct PackStyle {
  Length cover_title = Length::pt(44);    // on a page whose shorter side is 210 mm; grows with it
  double cover_figure = 0.5;              // of the page's height that the picture may take
  Length contents_size = Length::pt(11);
  double reading = 0.85;                  // size of reading text, of the label size wanted for the age
  Length reading_floor = Length::pt(11);
  double reading_leading = 1.45;          // ems
  Length running_size = Length::pt(8);    // page numbers in the bottom margin
  Length code_module = Length::mm(0.6);   // of codes to scan
  Colour caution{0xb3, 0x45, 0x00};       // frame of a caution
};

struct Style {
  std::string name;
  std::string description;
  PageStyle page;
  TypeStyle type;
  LeaderStyle leader;
  RuleStyle rules;
  CostStyle cost;
  CalmStyle calm;
  GroupStyle groups;
  RulingStyle ruling;
  TrueSizeStyle true_size;
  ReviewStyle review;
  ProofStyle proof;
  PackStyle pack;
  std::vector<AgeRow> ages = usual_ages();  // never empty
  std::vector<PuzzleRow> puzzles = usual_puzzles();  // never empty
  std::vector<LabelSet> sets;  // properties of label sets whose file has none (a CSV)
  double png_dpi = 150;
  bool outline_art = false;   // ink-saver: print figures as outlines everywhere
  double art_tint = 1.0;      // 1: as drawn; towards 0: paler
  Length art_least_line = Length::pt(0.25);  // a figure's lines are drawn no thinner; 0: as drawn
  const AgeRow& for_age(int years) const;
  const PuzzleRow& puzzles_for(int years) const;
};

}  // namespace platewright
