#include "read/pdf_commands.hpp"

#include <algorithm>
#include <cmath>

namespace platewright::read {
namespace {

constexpr std::size_t most_commands = 5'000'000;  // on one page, with its forms
constexpr std::size_t most_leaders = 2'000;       // of a page
constexpr std::size_t most_marked = 100;          // marked content in marked content

std::uint8_t level(double v) {
  return static_cast<std::uint8_t>(std::lround(255 * std::clamp(v, 0.0, 1.0)));
}

}  // namespace

std::string text_of(QPDFObjectHandle object) {
  return object.isString() ? object.getUTF8Value() : std::string();
}

Commands::Commands(PageCommands& page, QPDFObjectHandle resources, const State& state,
                   std::string label, PageProgress& progress, KnownForms& known)
    : page_(page),
      resources_(resources),
      state_(state),
      label_(std::move(label)),
      progress_(progress),
      known_(known) {}

void Commands::handleObject(QPDFObjectHandle object, size_t, size_t) {
  if (!object.isOperator()) {
    count(1);
    if (operands_.size() < 64) operands_.push_back(object);
    return;
  }
  const std::string name = object.getOperatorValue();
  if (!path(name) && !text(name)) other(name);
  operands_.clear();
}

void Commands::count(std::size_t commands) {
  progress_.commands += commands;
  if (progress_.commands > most_commands) throw TooMuch();
}

double Commands::number(std::size_t i) {
  return i < operands_.size() && operands_[i].isNumber() ? operands_[i].getNumericValue() : 0;
}

Matrix Commands::six() {
  return {number(0), number(1), number(2), number(3), number(4), number(5)};
}

PagePoint Commands::on_page(PagePoint at) const {
  return {kept_near((at.x - page_.x) * mm_per_point),
          kept_near((page_.y + page_.height - at.y) * mm_per_point)};
}

PagePoint Commands::on_page(double x, double y) const {
  return on_page(through(state_.matrix, x, y));
}

void Commands::point(double x, double y, bool starts) {
  const PagePoint p = on_page(x, y);
  if (!any_) left_ = right_ = p.x, bottom_ = top_ = p.y;
  left_ = std::min(left_, p.x), right_ = std::max(right_, p.x);
  top_ = std::min(top_, p.y), bottom_ = std::max(bottom_, p.y);
  any_ = true;
  if (marks_.empty() || !marks_.back().is_leader) return;
  if (++progress_.leader_points > most_leader_points) throw TooMuch();
  if (starts || lines_.empty()) lines_.emplace_back();
  lines_.back().push_back(p);
}

void Commands::stroked() {
  if (!any_) return;
  const Matrix& m = state_.matrix;
  const double width = state_.line * std::sqrt(std::abs(m[0] * m[3] - m[1] * m[2]));
  page_.strokes.push_back({width, {left_, top_, right_ - left_, bottom_ - top_}, state_.miter});
  for (auto& line : lines_)
    if (line.size() >= 2 && page_.leaders.size() < most_leaders)
      page_.leaders.push_back({marks_.back().leader, std::move(line), width, state_.stroke});
}

bool Commands::path(const std::string& name) {
  if (name == "m" || name == "l") {
    point(number(0), number(1), name == "m");
  } else if (name == "c" || name == "v" || name == "y") {
    for (std::size_t i = 0; i + 1 < operands_.size(); i += 2) point(number(i), number(i + 1));
  } else if (name == "re") {
    point(number(0), number(1), true);
    point(number(0) + number(2), number(1) + number(3));
  } else if (name == "S" || name == "s" || name == "B" || name == "B*" || name == "b" ||
             name == "b*") {
    stroked();
    any_ = false, lines_.clear();
  } else if (name == "f" || name == "F" || name == "f*" || name == "n") {
    any_ = false, lines_.clear();
  } else {
    return false;
  }
  return true;
}

void Commands::shown() {
  const Matrix m = product(line_, state_.matrix);
  const PagePoint at = on_page(line_[4], line_[5]);
  const bool level_set = m[0] > 0 && std::abs(m[1]) < 0.01 * m[0] && m[3] > 0;
  page_.runs.push_back(
      {at, level_set,
       marks_.empty() || marks_.back().label.empty() ? label_ : marks_.back().label});
}

void Commands::next_line(double x, double y) { line_ = product({1, 0, 0, 1, x, y}, line_); }

bool Commands::text(const std::string& name) {
  if (name == "BT") {
    line_ = {1, 0, 0, 1, 0, 0};
  } else if (name == "Tm") {
    line_ = six();
  } else if (name == "Td" || name == "TD") {
    if (name == "TD") leading_ = -number(1);
    next_line(number(0), number(1));
  } else if (name == "TL") {
    leading_ = number(0);
  } else if (name == "T*") {
    next_line(0, -leading_);
  } else if (name == "'" || name == "\"") {
    next_line(0, -leading_);
    shown();
  } else if (name == "Tj" || name == "TJ") {
    shown();
  } else {
    return false;
  }
  return true;
}

void Commands::other(const std::string& name) {
  if (name == "q") {
    if (stack_.size() < 1000) stack_.push_back(state_);
  } else if (name == "Q") {
    if (!stack_.empty()) state_ = stack_.back(), stack_.pop_back();
  } else if (name == "cm") {
    state_.matrix = product(six(), state_.matrix);
  } else if (name == "w") {
    state_.line = number(0);
  } else if (name == "M") {
    state_.miter = number(0);
  } else if (name == "RG" || name == "G" || name == "K" || name == "SC" || name == "SCN") {
    stroke_colour();
  } else if (name == "gs") {
    if (QPDFObjectHandle width = found("/ExtGState").getKey("/LW"); width.isNumber())
      state_.line = width.getNumericValue();
  } else if (name == "BMC" || name == "BDC") {
    marked();
  } else if (name == "EMC") {
    if (unseen_ > 0)
      --unseen_;
    else if (!marks_.empty())
      marks_.pop_back();
  } else if (name == "Do") {
    form();
  }
}

// By the number of operands: grey, red-green-blue, or the four inks.
void Commands::stroke_colour() {
  if (operands_.size() == 1) {
    state_.stroke = {level(number(0)), level(number(0)), level(number(0))};
  } else if (operands_.size() == 3) {
    state_.stroke = {level(number(0)), level(number(1)), level(number(2))};
  } else if (operands_.size() == 4) {
    const double white = 1 - number(3);
    state_.stroke = {level((1 - number(0)) * white), level((1 - number(1)) * white),
                     level((1 - number(2)) * white)};
  }
}

void Commands::marked() {
  if (marks_.size() >= most_marked) {
    ++unseen_;
    return;
  }
  Mark mark = marks_.empty() ? Mark{} : marks_.back();
  if (operands_.size() == 2 && operands_[1].isDictionary()) {
    if (operands_[1].hasKey("/PLWR_Leader")) {
      mark.is_leader = true;
      mark.leader = text_of(operands_[1].getKey("/PLWR_Leader"));
    }
    if (operands_[1].hasKey("/PLWR_Label"))
      mark.label = text_of(operands_[1].getKey("/PLWR_Label"));
  }
  marks_.push_back(std::move(mark));
}

}  // namespace platewright::read
