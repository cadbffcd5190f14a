// The commands of a page and of the forms it draws (ISO 32000-1, 8.4, 8.5, 9.4 and 14.6).
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "read/finished_commands.hpp"
#include "read/pdf_forms.hpp"
#include "read/pdf_matrix.hpp"

namespace platewright::read {

// Reads them and notes on the page what they draw. Throws TooMuch.
class Commands : public QPDFObjectHandle::ParserCallbacks {
 public:
  struct State {
    Matrix matrix{1, 0, 0, 1, 0, 0};
    double line = 1;
    double miter = 10;
    Colour stroke;
  };

  // `label`: that all of it belongs to, or nothing.
  Commands(PageCommands& page, QPDFObjectHandle resources, const State& state, std::string label,
           PageProgress& progress, KnownForms& known);

  void handleObject(QPDFObjectHandle object, size_t, size_t) override;
  void handleEOF() override {}

 private:
  struct Mark {
    std::string label, leader;
    bool is_leader = false;
  };

  void count(std::size_t commands);
  double number(std::size_t i);
  Matrix six();
  // Points of the file to mm on the page, kept within 100 m of it.
  PagePoint on_page(PagePoint at) const;
  PagePoint on_page(double x, double y) const;

  // Each takes the commands it knows: false for others.
  bool path(const std::string& name);
  bool text(const std::string& name);
  void other(const std::string& name);

  void point(double x, double y, bool starts = false);
  void stroked();
  void shown();
  void next_line(double x, double y);
  void stroke_colour();
  void marked();
  QPDFObjectHandle found(const char* kind);
  void image(QPDFObjectHandle keys);
  void form();
  void keep(const FormKey& key, const Matrix& matrix, std::size_t commands, std::size_t strokes);
  bool draw_known(const KnownForm& form, const Matrix& matrix);

  PageCommands& page_;
  QPDFObjectHandle resources_;
  State state_;
  std::string label_;
  PageProgress& progress_;
  KnownForms& known_;
  std::vector<State> stack_;
  std::vector<Mark> marks_;
  std::size_t unseen_ = 0;  // marks too deep to be kept
  std::vector<QPDFObjectHandle> operands_;
  Matrix line_{1, 0, 0, 1, 0, 0};  // of text
  double leading_ = 0;
  std::vector<std::vector<PagePoint>> lines_;  // of a leader that is being drawn
  bool any_ = false;
  double left_ = 0, right_ = 0, top_ = 0, bottom_ = 0;
};

// What a string of a PDF says, in UTF-8; nothing for anything else.
std::string text_of(QPDFObjectHandle object);

}  // namespace platewright::read
