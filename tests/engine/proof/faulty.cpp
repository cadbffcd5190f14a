#include "engine/proof/faulty.hpp"

#include <cairo-pdf.h>

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFWriter.hh>

#include "support/scratch.hpp"

namespace proof_test {
namespace {

constexpr double point = 72 / 25.4;  // in one mm

template <class Change>
void changed(const std::string& file, Change change) {
  const std::string bytes = support::bytes_of(file);
  QPDF pdf;
  pdf.processMemoryFile("page", bytes.data(), bytes.size());
  for (auto& page : QPDFPageDocumentHelper(pdf).getAllPages()) change(pdf, page);
  QPDFWriter(pdf, file.c_str()).write();
}

// A PDF from its objects, numbered from 1; qpdf mends the table of places.
std::string of_objects(const std::string& objects) {
  return "%PDF-1.7\n" + objects + "trailer\n<< /Root 1 0 R >>\n%%EOF\n";
}

}  // namespace

void Pen::colour(int rgb) const {
  cairo_set_source_rgb(cairo, (rgb >> 16 & 255) / 255.0, (rgb >> 8 & 255) / 255.0,
                       (rgb & 255) / 255.0);
}

void Pen::text(double x, double y, double pt, const std::string& words) const {
  cairo_select_font_face(cairo, "Andika", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL);
  cairo_set_font_size(cairo, pt / point);
  cairo_move_to(cairo, x, y);
  cairo_show_text(cairo, words.c_str());
}

void Pen::line(double x1, double y1, double x2, double y2, double pt) const {
  cairo_set_line_width(cairo, pt / point);
  cairo_move_to(cairo, x1, y1);
  cairo_line_to(cairo, x2, y2);
  cairo_stroke(cairo);
}

void Pen::box(double x, double y, double w, double h) const {
  cairo_rectangle(cairo, x, y, w, h);
  cairo_fill(cairo);
}

void Pen::frame(double x, double y, double side) const {
  cairo_set_line_width(cairo, 1 / point);
  cairo_rectangle(cairo, x, y, side, side);
  cairo_stroke(cairo);
}

void Pen::image(double x, double y, double wide, int pixels) const {
  cairo_surface_t* image = cairo_image_surface_create(CAIRO_FORMAT_RGB24, pixels, pixels);
  cairo_t* on = cairo_create(image);
  for (int i = 0; i < pixels; ++i) {
    cairo_set_source_rgb(on, 0.5 + 0.4 * i / pixels, 0.6, 0.7);
    cairo_rectangle(on, i, 0, 1, pixels);
    cairo_fill(on);
  }
  cairo_destroy(on);
  cairo_save(cairo);
  cairo_translate(cairo, x, y);
  cairo_scale(cairo, wide / pixels, wide / pixels);
  cairo_set_source_surface(cairo, image, 0, 0);
  cairo_paint(cairo);
  cairo_restore(cairo);
  cairo_surface_destroy(image);
}

void write_bare_page(const std::string& file, double width, double height,
                     const std::function<void(const Pen&)>& draw) {
  cairo_surface_t* surface =
      cairo_pdf_surface_create(file.c_str(), width * point, height * point);
  cairo_t* cairo = cairo_create(surface);
  cairo_scale(cairo, point, point);
  draw(Pen{cairo});
  cairo_destroy(cairo);
  cairo_surface_finish(surface);
  cairo_surface_destroy(surface);
}

void write_page(const std::string& file, double width, double height,
                const std::function<void(const Pen&)>& draw) {
  write_bare_page(file, width, height, [&](const Pen& pen) {
    pen.colour(0x1f1d26);
    pen.text(20, 25, 28, "The leaf");
    pen.text(20, 40, 15, "Write the name of each part.");
    pen.line(20, 60, 120, 80, 1);
    draw(pen);
  });
}

void set_box(const std::string& file, const char* key, double left, double bottom, double right,
             double top) {
  changed(file, [&](QPDF&, QPDFPageObjectHelper& page) {
    page.getObjectHandle().replaceKey(
        key, QPDFObjectHandle::newFromRectangle(
                 {left * point, bottom * point, right * point, top * point}));
  });
}

void set_unit(const std::string& file, double points) {
  changed(file, [&](QPDF&, QPDFPageObjectHelper& page) {
    page.getObjectHandle().replaceKey("/UserUnit", QPDFObjectHandle::newReal(points));
  });
}

void shrink(const std::string& file, double factor) {
  changed(file, [&](QPDF& pdf, QPDFPageObjectHelper& page) {
    const std::string f = std::to_string(factor);
    page.addPageContents(
        QPDFObjectHandle::newStream(&pdf, "q " + f + " 0 0 " + f + " 20 20 cm\n"), true);
    page.addPageContents(QPDFObjectHandle::newStream(&pdf, "\nQ\n"), false);
  });
}

namespace {

// Commands that draw a path, in the dress of a leader.
void add_as_leader(const std::string& file, const std::string& anchor, double wide,
                   const std::string& path) {
  changed(file, [&](QPDF& pdf, QPDFPageObjectHelper& page) {
    page.addPageContents(QPDFObjectHandle::newStream(&pdf, "q\n"), true);
    page.addPageContents(
        QPDFObjectHandle::newStream(&pdf, "\nQ q 0 0 0 RG " + std::to_string(wide) +
                                              " w\n/Artifact <</PLWR_Leader (" + anchor +
                                              ")>> BDC\n" + path + " S\nEMC\nQ\n"),
        false);
  });
}

std::string at(double x, double y) {
  return std::to_string(x * point) + " " + std::to_string((297 - y) * point);
}

}  // namespace

void add_leader(const std::string& file, const std::string& anchor, double x1, double y1, double x2,
                double y2) {
  add_as_leader(file, anchor, 1, at(x1, y1) + " m " + at(x2, y2) + " l");
}

void add_zigzag(const std::string& file, const std::string& anchor, int points, double wide) {
  std::string path = at(0, 0) + " m";
  for (int i = 1; i < points; ++i) path += " " + at(i % 2 ? 200 : 10, i % 290) + " l";
  add_as_leader(file, anchor, wide, path);
}

std::string svg_sheet(const std::string& inside) {
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"210mm\" height=\"297mm\" "
         "viewBox=\"0 0 210 297\">" +
         inside + "</svg>";
}

std::string svg_label(const std::string& name, double x, double y, double to_x, double to_y) {
  const auto n = [](double v) { return std::to_string(v); };
  return "<path class=\"pw-leader\" data-anchor=\"" + name + "\" d=\"M" + n(x) + " " + n(y - 1) +
         "L" + n(to_x) + " " + n(to_y) +
         "\" fill=\"none\" stroke=\"#000000\" stroke-width=\"0.3\"/><g class=\"pw-label\" "
         "data-anchor=\"" + name + "\"><text x=\"" + n(x + 1) + "\" y=\"" + n(y) +
         "\" font-family=\"Andika\" font-size=\"5\" fill=\"#000000\">" + name + "</text></g>";
}

std::string without_font() {
  const std::string content = "BT /F1 20 Tf 100 500 Td (Heart) Tj ET";
  return of_objects(
      "1 0 obj\n<< /Type /Catalog /Pages 2 0 R >>\nendobj\n"
      "2 0 obj\n<< /Type /Pages /Kids [3 0 R] /Count 1 >>\nendobj\n"
      "3 0 obj\n<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] /Contents 4 0 R /Resources << "
      "/Font << /F1 5 0 R >> >> >>\nendobj\n"
      "4 0 obj\n<< /Length " +
      std::to_string(content.size()) + " >>\nstream\n" + content +
      "\nendstream\nendobj\n"
      "5 0 obj\n<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>\nendobj\n");
}

std::string with_image(int columns, int rows) {
  return of_objects(
      "1 0 obj\n<< /Type /Catalog /Pages 2 0 R >>\nendobj\n"
      "2 0 obj\n<< /Type /Pages /Kids [3 0 R] /Count 1 >>\nendobj\n"
      "3 0 obj\n<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] /Contents 4 0 R /Resources << "
      "/XObject << /X 5 0 R >> >> >>\nendobj\n"
      "4 0 obj\n<< /Length 28 >>\nstream\nq 300 0 0 300 90 90 cm /X Do\nendstream\nendobj\n"
      "5 0 obj\n<< /Type /XObject /Subtype /Image /Width " +
      std::to_string(columns) + " /Height " + std::to_string(rows) +
      " /ColorSpace /DeviceRGB /BitsPerComponent 8 /Length 0 >>\nstream\n\nendstream\nendobj\n");
}

void unpack_to(const std::string& file, std::size_t size) {
  changed(file, [&](QPDF& pdf, QPDFPageObjectHelper& page) {
    page.addPageContents(QPDFObjectHandle::newStream(&pdf, std::string(size, ' ')), false);
  });
}

std::string pages(int count) {
  std::string kids, all;
  for (int i = 0; i < count; ++i) {
    kids += std::to_string(3 + i) + " 0 R ";
    all += std::to_string(3 + i) +
           " 0 obj\n<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] >>\nendobj\n";
  }
  return of_objects("1 0 obj\n<< /Type /Catalog /Pages 2 0 R >>\nendobj\n2 0 obj\n<< /Type /Pages "
                    "/Kids [" +
                    kids + "] /Count " + std::to_string(count) + " >>\nendobj\n" + all);
}

}  // namespace proof_test
