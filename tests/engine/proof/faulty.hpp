// Finished sheets with a fault planted, drawn by Cairo and qpdf alone.
#pragma once

#include <cairo.h>

#include <functional>
#include <string>

namespace proof_test {

// Places and sizes in mm from the top left; letters in points.
struct Pen {
  cairo_t* cairo;
  void colour(int rgb) const;
  void text(double x, double y, double pt, const std::string& words) const;
  void line(double x1, double y1, double x2, double y2, double pt) const;
  void box(double x, double y, double w, double h) const;
  void frame(double x, double y, double side) const;              // a square, 1 pt thick
  void image(double x, double y, double wide, int pixels) const;  // a square
};

// A page of so many mm, with a title and a sentence that no rule minds, and what `draw` adds.
void write_page(const std::string& file, double width, double height,
                const std::function<void(const Pen&)>& draw);
// Without the title and the sentence.
void write_bare_page(const std::string& file, double width, double height,
                     const std::function<void(const Pen&)>& draw);

// The file with a box (key "/TrimBox"), mm from the lower left, on each page.
void set_box(const std::string& file, const char* key, double left, double bottom, double right,
             double top);
// Each page's UserUnit.
void set_unit(const std::string& file, double points);
// All that is drawn, smaller by a factor, as a printer's "fit to page" makes it.
void shrink(const std::string& file, double factor);

// A straight leader more, mm from the top left of an A4 page, marked as our own PDFs mark theirs.
void add_leader(const std::string& file, const std::string& anchor, double x1, double y1, double x2,
                double y2);
// One that goes to and fro across the page, so many points and so many points (pt) wide.
void add_zigzag(const std::string& file, const std::string& anchor, int points, double wide);

// An SVG sheet of A4 with something on it; a label of it with its leader, both as our own sheets
// have them.
std::string svg_sheet(const std::string& inside);
std::string svg_label(const std::string& name, double x, double y, double to_x, double to_y);

// A PDF whose one word is set in a font that it does not hold.
std::string without_font();
// One page that shows an image of so many pixels, of which none is there.
std::string with_image(int columns, int rows);
// The page with commands that unpack to so many bytes, all blanks.
void unpack_to(const std::string& file, std::size_t bytes);
// A PDF of so many empty A4 pages.
std::string pages(int count);

}  // namespace proof_test
