// A length on paper or in the world: never a bare number.
//
// Stored in millimetres as a double; conversions are exact to one rounding
// (1 in = 25.4 mm, 1 pt = 1/72 in, the PDF point).
#pragma once

#include <compare>
#include <string>
#include <string_view>

#include "platewright/result.hpp"

namespace platewright {

class Length {
 public:
  constexpr Length() = default;
  static constexpr Length mm(double v) { return Length(v); }
  static constexpr Length cm(double v) { return Length(v * 10.0); }
  static constexpr Length m(double v) { return Length(v * 1000.0); }
  static constexpr Length in(double v) { return Length(v * 25.4); }
  static constexpr Length ft(double v) { return Length(v * 304.8); }
  static constexpr Length pt(double v) { return Length(v * 25.4 / 72.0); }

  constexpr double mm() const { return mm_; }
  constexpr double cm() const { return mm_ / 10.0; }
  constexpr double in() const { return mm_ / 25.4; }
  constexpr double pt() const { return mm_ * 72.0 / 25.4; }

  friend constexpr auto operator<=>(Length, Length) = default;
  friend constexpr Length operator+(Length a, Length b) { return Length(a.mm_ + b.mm_); }
  friend constexpr Length operator-(Length a, Length b) { return Length(a.mm_ - b.mm_); }
  friend constexpr Length operator*(Length a, double k) { return Length(a.mm_ * k); }
  friend constexpr Length operator*(double k, Length a) { return Length(a.mm_ * k); }
  friend constexpr Length operator/(Length a, double k) { return Length(a.mm_ / k); }
  friend constexpr double operator/(Length a, Length b) { return a.mm_ / b.mm_; }

 private:
  explicit constexpr Length(double v) : mm_(v) {}
  double mm_ = 0.0;
};

// Reads "12mm", "1.5 in", "118 cm", "9pt", "2 m", "3ft" (decimal point only,
// whatever the locale). The unit is required; the number must be finite.
// Error: a finding `length-invalid` with no position.
Result<Length> parse_length(std::string_view text);

// "12 mm" with at most `decimals` decimals, trailing zeros dropped.
std::string format_mm(Length length, int decimals = 1);

}  // namespace platewright
