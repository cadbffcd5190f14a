#include "place/exact_turn.hpp"

#include <array>
#include <cmath>
#include <cstddef>

namespace platewright::place {

// The determinant is a sum of six products. A filter decides almost always; else
// every product is split into value and rounding error (fma) and the twelve
// parts are added as a non-overlapping expansion, whose largest part has the
// sign (Shewchuk 1997, grow-expansion).
int exact_turn(PagePoint a, PagePoint b, PagePoint c) {
  const double left = (b.x - a.x) * (c.y - a.y), right = (b.y - a.y) * (c.x - a.x);
  const double quick = left - right;
  const double doubt = 4.5e-16 * (std::abs(left) + std::abs(right));
  if (quick > doubt) return 1;
  if (quick < -doubt) return -1;

  std::array<double, 12> expansion{};
  std::size_t size = 0;
  const auto grow = [&](double part) {
    for (std::size_t i = 0; i < size; ++i) {
      const double sum = part + expansion[i];
      const double virtual_part = sum - expansion[i];
      expansion[i] = (expansion[i] - (sum - virtual_part)) + (part - virtual_part);
      part = sum;
    }
    expansion[size++] = part;
  };
  const auto add = [&](double x, double y) {
    const double product = x * y;
    grow(std::fma(x, y, -product));
    grow(product);
  };
  add(b.x, c.y);
  add(-b.x, a.y);
  add(-a.x, c.y);
  add(-b.y, c.x);
  add(b.y, a.x);
  add(a.y, c.x);
  for (std::size_t i = size; i-- > 0;) {
    if (expansion[i] > 0) return 1;
    if (expansion[i] < 0) return -1;
  }
  return 0;
}

}  // namespace platewright::place
