// Forms of a PDF: what is known of those that were read, how far the reading of a page has got, and
// where there is too much of it.
#pragma once

#include <compare>
#include <cstddef>
#include <exception>
#include <map>
#include <qpdf/QPDFObjGen.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <tuple>
#include <vector>

#include "read/finished.hpp"
#include "read/pdf_matrix.hpp"

namespace platewright::read {

// More on a page than can be looked at.
struct TooMuch : std::exception {};
// Throws it for a stream of commands that unpacks to more than 64 MiB.
void check_size(QPDFObjectHandle stream);

// What a form without text, images and leaders draws, where it was first met: a figure that a file
// shows many times is read once.
struct KnownForm {
  Matrix matrix;          // of the form, on its page
  double x = 0, top = 0;  // the page's left and top, points
  std::size_t commands = 0;
  std::vector<FinishedStroke> strokes;
};
struct FormKey {
  QPDFObjGen form;
  double line, miter;  // in force where it is drawn
  std::size_t depth;
  auto operator<=>(const FormKey& other) const {
    return std::tuple(form.getObj(), form.getGen(), line, miter, depth) <=>
           std::tuple(other.form.getObj(), other.form.getGen(), other.line, other.miter,
                      other.depth);
  }
};
struct KnownForms {
  std::map<FormKey, KnownForm> forms;
  std::size_t strokes = 0;
};
// How far the reading of a page has got.
struct PageProgress {
  std::size_t commands = 0;
  std::size_t leader_points = 0;
  std::size_t opened = 0;        // forms
  std::vector<QPDFObjGen> open;  // the forms that are being read, each in the one before
  std::size_t cut = 0;           // forms left out, as they lie in themselves
};

}  // namespace platewright::read
