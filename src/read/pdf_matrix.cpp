#include "read/pdf_matrix.hpp"

#include <algorithm>
#include <cmath>

namespace platewright::read {

Matrix product(const Matrix& m, const Matrix& n) {
  return {m[0] * n[0] + m[1] * n[2],        m[0] * n[1] + m[1] * n[3],
          m[2] * n[0] + m[3] * n[2],        m[2] * n[1] + m[3] * n[3],
          m[4] * n[0] + m[5] * n[2] + n[4], m[4] * n[1] + m[5] * n[3] + n[5]};
}

Matrix matrix_of(QPDFObjectHandle array) {
  Matrix m{1, 0, 0, 1, 0, 0};
  if (array.isArray() && array.getArrayNItems() == 6)
    for (int i = 0; i < 6; ++i)
      m[static_cast<std::size_t>(i)] = array.getArrayItem(i).getNumericValue();
  return m;
}

PagePoint through(const Matrix& m, double x, double y) {
  return {m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]};
}

std::optional<Matrix> level_step(const Matrix& from, const Matrix& to) {
  const double det = from[0] * from[3] - from[1] * from[2];
  if (!(std::abs(det) > 1e-12)) return std::nullopt;
  const Matrix undo{from[3] / det,
                    -from[1] / det,
                    -from[2] / det,
                    from[0] / det,
                    (from[2] * from[5] - from[3] * from[4]) / det,
                    (from[1] * from[4] - from[0] * from[5]) / det};
  const Matrix step = product(undo, to);
  const double size = std::max(std::abs(step[0]), std::abs(step[3]));
  if (!(size > 0) || std::max(std::abs(step[1]), std::abs(step[2])) > 1e-9 * size)
    return std::nullopt;
  return step;
}

}  // namespace platewright::read
