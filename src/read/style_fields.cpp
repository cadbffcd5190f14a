#include "read/style_fields.hpp"

namespace platewright::read {
namespace {

constexpr double point = 25.4 / 72.0;  // mm

}  // namespace

// A row of the table: section, key, the member of Style, and its range.
#define PW_FIELD(section, key, member, least, most)                              \
  {                                                                              \
    section, key, [](Style& s) -> StyleTarget { return &s.member; }, least, most \
  }

const std::vector<StyleField>& style_fields() {
  static const std::vector<StyleField> fields = {
      // Printers' own margins are 3 mm at the least.
      PW_FIELD("page", "margin", page.margin, 3, 200),
      PW_FIELD("page", "margin-share", page.margin_share, 0, 0.3),
      PW_FIELD("page", "bleed", page.bleed, 0, 50),
      PW_FIELD("page", "crop-marks", page.crop_marks, 0, 0),
      PW_FIELD("page", "crop-mark-length", page.crop_mark_length, 1, 30),
      PW_FIELD("page", "crop-mark-width", page.crop_mark_width, 0.05, 2),
      PW_FIELD("page", "title", page.title, 0, 0),
      PW_FIELD("page", "footer", page.footer, 0, 0),
      PW_FIELD("page", "title-size", page.title_size, 8 * point, 200 * point),
      PW_FIELD("page", "title-gap", page.title_gap, 0, 100),
      PW_FIELD("page", "footer-size", page.footer_size, 5 * point, 40 * point),
      PW_FIELD("page", "footer-gap", page.footer_gap, 0, 100),
      PW_FIELD("page", "background", page.background, 0, 0),
      PW_FIELD("type", "face", type.face, 0, 0),
      PW_FIELD("type", "further-faces", type.further_faces, 0, 0),
      PW_FIELD("type", "bold-labels", type.bold_labels, 0, 0),
      PW_FIELD("type", "bold-title", type.bold_title, 0, 0),
      PW_FIELD("type", "leading", type.leading, 0.8, 3),
      PW_FIELD("type", "most-lines", type.most_lines, 1, 8),
      PW_FIELD("type", "poster-growth", type.poster_growth, 0, 2),
      PW_FIELD("type", "ink", type.ink, 0, 0),
      PW_FIELD("type", "quiet-ink", type.quiet_ink, 0, 0),
      // A quarter of a point is the thinnest line that prints.
      PW_FIELD("leader", "width", leader.width, 0.088, 5),
      PW_FIELD("leader", "colour", leader.colour, 0, 0),
      PW_FIELD("leader", "mark", leader.mark, 0, 0),
      PW_FIELD("leader", "dot", leader.dot, 0.2, 20),
      PW_FIELD("leader", "casing", leader.casing, 0, 2),
      PW_FIELD("leader", "dot-ring", leader.dot_ring, 0, 5),
      PW_FIELD("leader", "arrow-length", leader.arrow_length, 0.5, 30),
      PW_FIELD("leader", "arrow-width", leader.arrow_width, 0.3, 30),
      PW_FIELD("leader", "label-gap", leader.label_gap, 0, 30),
      PW_FIELD("leader", "stub", leader.stub, 0, 50),
      PW_FIELD("leader", "gutter", leader.gutter, 2, 100),
      PW_FIELD("leader", "inside", leader.inside, 0, 0),
      PW_FIELD("leader", "widest-gutter", leader.widest_gutter, 2, 300),
      // Never nearer than the hard rules that every sheet keeps.
      PW_FIELD("rules", "label-gap", rules.label_gap, 1.0, 50),
      PW_FIELD("rules", "row-gap", rules.row_gap, 1.0, 100),
      PW_FIELD("rules", "leader-gap", rules.leader_gap, 0.8, 20),
      PW_FIELD("rules", "anchor-gap", rules.anchor_gap, 1.0, 20),
      PW_FIELD("rules", "slot", rules.slot, 0.1, 10),
      PW_FIELD("cost", "length", cost.length, 0, 1000),
      PW_FIELD("cost", "slope", cost.slope, 0, 1000),
      PW_FIELD("cost", "steep", cost.steep, 0, 1000),
      PW_FIELD("cost", "gap", cost.gap, 0, 1000),
      PW_FIELD("cost", "wrong-side", cost.wrong_side, 0, 1000),
      PW_FIELD("cost", "group-break", cost.group_break, 0, 1000),
      PW_FIELD("cost", "detail", cost.detail, 0, 1000),
      PW_FIELD("cost", "target", cost.target, 0, 1000),
      PW_FIELD("cost", "wrap", cost.wrap, 0, 1000),
      PW_FIELD("cost", "balance", cost.balance, 0, 1000),
      PW_FIELD("calm", "length", calm.length, 1, 100),
      PW_FIELD("calm", "angle", calm.angle, 1, 90),
      PW_FIELD("calm", "gap-variation", calm.gap_variation, 0.01, 100),
      PW_FIELD("calm", "balance", calm.balance, 0.01, 1),
      PW_FIELD("calm", "smallest", calm.smallest, 0.5, 1),
      PW_FIELD("groups", "bracket", groups.bracket, 0, 0),
      PW_FIELD("groups", "line", groups.line, 0.088, 5),
      PW_FIELD("groups", "gap", groups.gap, 0.5, 30),
      PW_FIELD("groups", "heading", groups.heading, 0.3, 2),
      PW_FIELD("ruling", "top-line", ruling.top_line, 0, 3),
      PW_FIELD("ruling", "midline", ruling.midline, 0, 3),
      PW_FIELD("ruling", "baseline", ruling.baseline, 0.05, 3),
      PW_FIELD("ruling", "line", ruling.line, 0, 0),
      PW_FIELD("ruling", "base", ruling.base, 0, 0),
      PW_FIELD("ruling", "dash", ruling.dash, 0.2, 20),
      PW_FIELD("ruling", "descender", ruling.descender, 0, 3),
      PW_FIELD("ruling", "gap", ruling.gap, 0, 10),
      PW_FIELD("ruling", "blank-line", ruling.blank_line, 0.05, 3),
      PW_FIELD("ruling", "uniform-blanks", ruling.uniform_blanks, 0, 0),
      PW_FIELD("ruling", "trace", ruling.trace, 0, 0),
      PW_FIELD("ruling", "trace-line", ruling.trace_line, 0.05, 5),
      PW_FIELD("true-size", "overlap", true_size.overlap, 5, 40),
      PW_FIELD("true-size", "iso-margin", true_size.iso_margin, 3, 50),
      PW_FIELD("true-size", "other-margin", true_size.other_margin, 3, 50),
      PW_FIELD("true-size", "most-sheets", true_size.most_sheets, 1, 2000),
      PW_FIELD("true-size", "guide", true_size.guide, 0, 0),
      PW_FIELD("true-size", "guide-width", true_size.guide_width, 0.088, 2),
      PW_FIELD("true-size", "young", true_size.young, 0, 99),
      PW_FIELD("true-size", "young-cut", true_size.young_cut, 0, 30),
      PW_FIELD("true-size", "cut", true_size.cut, 0, 30),
      PW_FIELD("true-size", "cut-width", true_size.cut_width, 0.088, 3),
      PW_FIELD("true-size", "piece-gap", true_size.piece_gap, 0, 30),
      PW_FIELD("true-size", "flap", true_size.flap, 5, 50),
      PW_FIELD("review", "fold-accents", review.fold_accents, 0, 0),
      PW_FIELD("review", "first-letter", review.first_letter, 0, 150),
      PW_FIELD("review", "clue-age", review.clue_age, 0, 150),
      PW_FIELD("review", "triples", review.triples, 0, 150),
      PW_FIELD("review", "card", review.card, 25, 300),
      PW_FIELD("review", "drift", review.drift, 0, 10),
      PW_FIELD("review", "short-edge", review.short_edge, 0, 0),
      PW_FIELD("review", "bingo-cards", review.bingo_cards, 1, 200),
      PW_FIELD("review", "bingo-free", review.bingo_free, 0, 0),
      // For hands that press dough: never thinner than 2 mm.
      PW_FIELD("review", "mat-line", review.mat_line, 2, 10),
      PW_FIELD("proof", "small-print", proof.small_print, 0, 300),
      PW_FIELD("proof", "least-text", proof.least_text, 0, 100 * point),
      PW_FIELD("proof", "least-line", proof.least_line, 0, 5),
      PW_FIELD("proof", "contrast", proof.contrast, 0, 21),
      PW_FIELD("proof", "large-contrast", proof.large_contrast, 0, 21),
      PW_FIELD("proof", "large-text", proof.large_text, 0, 500 * point),
      PW_FIELD("proof", "least-ppi", proof.least_ppi, 0, 2400),
      PW_FIELD("proof", "wanted-ppi", proof.wanted_ppi, 0, 2400),
      PW_FIELD("proof", "edge", proof.edge, 0, 50),
      PW_FIELD("proof", "most-ink", proof.most_ink, 0, 400),
      PW_FIELD("proof", "ruler", proof.ruler, 0, 20),
      PW_FIELD("proof", "merging", proof.merging, 0, 100),
      PW_FIELD("proof", "distinct", proof.distinct, 0, 100),
      PW_FIELD("proof", "distance", proof.distance, 0, 100'000),
      PW_FIELD("proof", "arcmin", proof.arcmin, 1, 120),
      PW_FIELD("proof", "leader-contrast", proof.leader_contrast, 0, 21),
      PW_FIELD("proof", "leader-lost", proof.leader_lost, 0, 1000),
      PW_FIELD("proof", "over-words", proof.over_words, 0, 1000),
      PW_FIELD("proof", "overlap", proof.overlap, 0, 1),
      PW_FIELD("proof", "leave", proof.leave, 0, 0),
      PW_FIELD("pack", "cover-title", pack.cover_title, 8 * point, 200 * point),
      PW_FIELD("pack", "cover-figure", pack.cover_figure, 0, 0.7),
      PW_FIELD("pack", "contents-size", pack.contents_size, 6 * point, 40 * point),
      PW_FIELD("pack", "reading", pack.reading, 0.3, 2),
      PW_FIELD("pack", "reading-floor", pack.reading_floor, 8 * point, 40 * point),
      PW_FIELD("pack", "reading-leading", pack.reading_leading, 1, 3),
      PW_FIELD("pack", "running-size", pack.running_size, 5 * point, 20 * point),
      // ISO/IEC 18004 and common practice in print.
      PW_FIELD("pack", "code-module", pack.code_module, 0.4, 3),
      PW_FIELD("pack", "caution", pack.caution, 0, 0),
      PW_FIELD("output", "png-dpi", png_dpi, 30, 1200),
      PW_FIELD("art", "outlines", outline_art, 0, 0),
      PW_FIELD("art", "tint", art_tint, 0, 1),
      PW_FIELD("art", "least-line", art_least_line, 0, 2),
  };
  return fields;
}

#undef PW_FIELD

const std::vector<AgeField>& age_fields() {
  static const std::vector<AgeField> fields = {
      {"text-wanted", &AgeRow::text_wanted, 5 * point, 300 * point},
      {"text-floor", &AgeRow::text_floor, 5 * point, 100 * point},
      {"pitch", &AgeRow::pitch, 1, 60},
      {"ruling", &AgeRow::ruling, 3, 100},
      {"colouring-line", &AgeRow::colouring_line, 0.1, 10},
  };
  return fields;
}

const std::vector<PuzzleField>& puzzle_fields() {
  static const std::vector<PuzzleField> fields = {
      {"grid", &PuzzleRow::grid, 5, 40},      {"directions", &PuzzleRow::directions, 1, 8},
      {"words", &PuzzleRow::words, 3, 60},    {"bingo", &PuzzleRow::bingo, 3, 5},
      {"missing", &PuzzleRow::missing, 5, 90}, {"maze", &PuzzleRow::maze, 4, 60},
  };
  return fields;
}

std::string_view name_of(LeaderMark mark) {
  switch (mark) {
    case LeaderMark::automatic:
      return "automatic";
    case LeaderMark::dot:
      return "dot";
    case LeaderMark::arrowhead:
      return "arrowhead";
    case LeaderMark::none:
      return "none";
  }
  return "automatic";
}

}  // namespace platewright::read
