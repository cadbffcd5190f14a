// Rules on one page's boxes, size, type, lines, images and edges.
#include <algorithm>
#include <cmath>
#include <map>

#include "base/number.hpp"
#include "base/quote.hpp"
#include "engine/proof_rules.hpp"
#include "engine/real_paper.hpp"
#include "engine/report.hpp"
#include "platewright/paper.hpp"

namespace platewright::proofing {
namespace {

constexpr double paper_tolerance = 0.5;  // mm a side
constexpr std::uint32_t white = 0xFFFFFF;
constexpr double square_number_pt = 6;  // least size of a number in a square to write in
constexpr std::size_t most_square_figures = 2;
constexpr double widest_square = 20;    // mm
constexpr double square_corner = 0.45;  // of its side: how far its corner reaches

std::string pt(double v) { return format_number(v, 2) + " pt"; }

bool inked(std::uint32_t rgb) {
  return (rgb >> 16 & 255) < 245 || (rgb >> 8 & 255) < 245 || (rgb & 255) < 245;
}

// The box of inked pixels among those that `wanted` takes, in mm.
template <class Wanted>
std::optional<PageBox> ink_box(const read::PagePixels& p, Wanted wanted) {
  int left = p.width, right = -1, top = p.height, bottom = -1;
  for (int y = 0; y < p.height; ++y)
    for (int x = 0; x < p.width; ++x)
      if (p.at(x, y) != white && wanted(x, y) && inked(p.at(x, y))) {
        left = std::min(left, x), right = std::max(right, x);
        top = std::min(top, y), bottom = std::max(bottom, y);
      }
  if (right < 0) return std::nullopt;
  return PageBox{left / p.per_mm, top / p.per_mm, (right - left + 1) / p.per_mm,
                 (bottom - top + 1) / p.per_mm};
}

void boxes(const read::FinishedPage& page, Sink& sink) {
  if (!page.boxes_nested)
    sink.add(Severity::error, "proof-boxes", {},
             "the page's boxes do not lie in one another: trim in bleed in media",
             "write the boxes anew");
  if (page.crop)
    sink.add(Severity::error, "proof-boxes", *page.crop,
             "the crop box shows " + format_number(page.crop->w, 1) + " by " +
                 format_number(page.crop->h, 1) + " mm of a page of " +
                 format_number(page.width, 1) + " by " + format_number(page.height, 1) +
                 " mm, the rest is lost",
             "make the crop box as large as the page");
  if (page.unit != 1)
    sink.add(Severity::error, "proof-boxes", {},
             "the page's unit is " + format_number(page.unit, 3) +
                 " points, which many programs take for 1 and print in another size",
             "write the page without a UserUnit");
  const double w = std::min(page.trim.w, page.trim.h), h = std::max(page.trim.w, page.trim.h);
  const auto fits = [&](double width, double height) {
    return std::abs(std::min(width, height) - w) <= paper_tolerance &&
           std::abs(std::max(width, height) - h) <= paper_tolerance;
  };
  const bool known =
      std::any_of(papers().begin(), papers().end(),
                  [&](const Paper& paper) { return fits(paper.width.mm(), paper.height.mm()); }) ||
      fits(letter_a4_width, letter_a4_height);
  if (!known)
    sink.add(Severity::warning, "proof-page-size", {},
             "no paper is " + format_number(page.trim.w, 1) + " by " +
                 format_number(page.trim.h, 1) + " mm",
             "see platewright papers, or have the paper cut");
}

// A criss-cross square's number, in its corner: to be found, not read, and no larger than leaves
// room for a letter.
bool numbers_a_square(const read::FinishedWord& word, const read::FinishedPage& page) {
  const bool digits =
      word.text.size() <= most_square_figures &&
      std::all_of(word.text.begin(), word.text.end(), [](char c) { return c >= '0' && c <= '9'; });
  if (!digits) return false;
  const PagePoint at = word.box.centre();
  return std::any_of(page.strokes.begin(), page.strokes.end(), [&](const auto& stroke) {
    const PageBox& box = stroke.box;
    return std::abs(box.w - box.h) < 0.02 * box.w && box.w < widest_square && box.contains(at) &&
           at.y < box.top() + square_corner * box.h &&
           std::abs(at.x - box.centre().x) > (0.5 - square_corner) * box.w;
  });
}

// One finding of each floor that words fall below, with the smallest.
void type(const read::FinishedPage& page, const ProofStyle& limits, std::optional<Length> floor,
          Sink& sink) {
  struct Below {
    const read::FinishedWord* smallest = nullptr;
    std::size_t count = 0;
  };
  std::map<double, Below> below;  // by floor, pt
  for (const read::FinishedWord& word : page.words) {
    if (word.size_pt <= 0) continue;
    const bool small_print = word.box.top() > page.trim.bottom() - limits.small_print.mm();
    const double any = limits.least_text.pt();
    double least = any;
    if (floor && !small_print) least = std::max(least, floor->pt());
    if (word.size_pt >= least - 0.05) continue;
    if (least > square_number_pt && numbers_a_square(word, page)) {
      least = std::max(any, square_number_pt);
      if (word.size_pt >= least - 0.05) continue;
    }
    Below& those = below[least];
    ++those.count;
    if (!those.smallest || word.size_pt < those.smallest->size_pt) those.smallest = &word;
  }
  for (const auto& [least, those] : below)
    sink.add(Severity::error, "proof-text-small", those.smallest->box,
             std::to_string(those.count) + (those.count == 1 ? " word is" : " words are") +
                 " set smaller than " + pt(least) + ", the smallest " +
                 in_quotes(those.smallest->text) + " in " + pt(those.smallest->size_pt),
             "take larger paper, or fewer or shorter labels");
}

// The words that are smallest for the distance that the page is read from.
void distance(const read::FinishedPage& page, const ProofStyle& limits, Sink& sink) {
  if (limits.distance.mm() <= 0) return;
  const read::FinishedWord* nearest = nullptr;
  std::size_t count = 0;
  for (const read::FinishedWord& word : page.words) {
    if (word.size_pt <= 0 || word.box.top() > page.trim.bottom() - limits.small_print.mm() ||
        reading_distance(Length::pt(word.size_pt), limits.arcmin) >= 0.999 * limits.distance.mm() / 1000)
      continue;
    ++count;
    if (!nearest || word.size_pt < nearest->size_pt) nearest = &word;
  }
  if (!nearest) return;
  const double metres = reading_distance(Length::pt(nearest->size_pt), limits.arcmin);
  sink.add(Severity::error, "proof-text-far", nearest->box,
           std::to_string(count) + (count == 1 ? " word" : " words") + " cannot be read from " + format_number(limits.distance.mm() / 1000, 2) + " m: " +
               in_quotes(nearest->text) + ", set in " + pt(nearest->size_pt) + ", reads from " +
               format_number(metres, 2) + " m",
           "take larger paper, or hang it nearer");
}

void lines(const read::FinishedPage& page, const ProofStyle& limits, Sink& sink) {
  const read::FinishedStroke* thinnest = nullptr;
  std::size_t count = 0;
  for (const read::FinishedStroke& stroke : page.strokes) {
    if (stroke.width_pt >= limits.least_line.pt() - 0.005) continue;
    ++count;
    if (!thinnest || stroke.width_pt < thinnest->width_pt) thinnest = &stroke;
  }
  if (thinnest)
    sink.add(Severity::warning, "proof-line-thin", thinnest->box,
             std::to_string(count) + (count == 1 ? " line is" : " lines are") + " thinner than " +
                 pt(limits.least_line.pt()) + ", the thinnest " + pt(thinnest->width_pt),
             "draw them thicker, or show the figure larger");
}

void images(const read::FinishedPage& page, const ProofStyle& limits, Sink& sink) {
  for (const read::FinishedImage& image : page.images) {
    if (image.box.w < 1 || image.box.h < 1) continue;
    const double ppi = std::min(image.columns / image.box.w, image.rows / image.box.h) * 25.4;
    const std::string what = "an image of " + std::to_string(image.columns) + " by " +
                             std::to_string(image.rows) + " pixels is printed with " +
                             format_number(ppi, 0) + " in an inch";
    if (ppi < limits.least_ppi)
      sink.add(Severity::error, "proof-image-coarse", image.box,
               what + ", not at least " + std::to_string(limits.least_ppi),
               "take an image of more pixels, or show it smaller");
    else if (ppi < limits.wanted_ppi)
      sink.add(Severity::warning, "proof-image-soft", image.box,
               what + "; " + std::to_string(limits.wanted_ppi) + " look sharp",
               "take an image of more pixels, or show it smaller");
  }
}

void edges(const read::FinishedPage& page, const ProofStyle& limits, Sink& sink) {
  const double keep = limits.edge.mm();
  if (keep <= 0 || !page.boxes_nested) return;
  const read::PagePixels& p = page.pixels;
  const PageBox inner = page.trim.grown(-keep);
  const bool has_bleed = page.bleed.left() < page.trim.left() - 0.1;
  const auto mm = [&](int pixel) { return (pixel + 0.5) / p.per_mm; };
  if (!has_bleed) {
    const auto found = ink_box(p, [&](int x, int y) {
      const double px = mm(x), py = mm(y);
      return page.trim.contains({px, py}) && !inner.grown(0.2).contains({px, py});
    });
    if (found)
      sink.add(Severity::error, "proof-edge", *found,
               "something is printed within " + format_number(keep, 1) +
                   " mm of the page's edge, where most printers print nothing",
               "keep a margin, or print with a bleed and cut");
    return;
  }
  for (const read::FinishedWord& word : page.words)
    if (overlap(word.box, page.trim) &&
        !(word.box.left() >= inner.left() && word.box.right() <= inner.right() &&
          word.box.top() >= inner.top() && word.box.bottom() <= inner.bottom()))
      sink.add(Severity::error, "proof-edge", word.box,
               in_quotes(word.text) + " lies within " + format_number(keep, 1) +
                   " mm of where the page is cut",
               "move it inwards");
  // Ink that reaches the cut must go on into the bleed.
  const auto pixel = [&](double v, int most) {
    return std::clamp(static_cast<int>(v * p.per_mm), 0, most - 1);
  };
  double missing = 0;
  PageBox where;
  const auto compare = [&](double ix, double iy, double ox, double oy) {
    const bool in = inked(p.at(pixel(ix, p.width), pixel(iy, p.height)));
    const bool out = inked(p.at(pixel(ox, p.width), pixel(oy, p.height)));
    if (!in || out) return;
    if (missing == 0) where = {ix, iy, 1, 1};
    missing += 1 / p.per_mm;
  };
  const double step = 1 / p.per_mm, off = 0.7;
  for (double y = page.trim.top(); y < page.trim.bottom(); y += step) {
    compare(page.trim.left() + off, y, page.trim.left() - off, y);
    compare(page.trim.right() - off, y, page.trim.right() + off, y);
  }
  for (double x = page.trim.left(); x < page.trim.right(); x += step) {
    compare(x, page.trim.top() + off, x, page.trim.top() - off);
    compare(x, page.trim.bottom() - off, x, page.trim.bottom() + off);
  }
  if (missing > 3)
    sink.add(Severity::error, "proof-bleed", where,
             "what reaches the cut ends there on " + format_number(missing, 0) +
                 " mm; cut a little off, and the paper shows white",
             "draw it on into the bleed");
}

}  // namespace

void page_rules(const read::FinishedPage& page, const ProofStyle& limits,
                std::optional<Length> text_floor, Sink& sink) {
  boxes(page, sink);
  type(page, limits, text_floor, sink);
  distance(page, limits, sink);
  lines(page, limits, sink);
  images(page, limits, sink);
  edges(page, limits, sink);
}

void font_rule(const read::Finished& file, Sink& sink) {
  sink.on(file.path, 0);
  for (const read::FinishedFont& font : file.fonts)
    if (!font.embedded)
      sink.add(Severity::error, "proof-font", {},
               "the font " + in_quotes(font.name) + " is not in the file",
               "embed it: another computer prints another");
}

}  // namespace platewright::proofing
