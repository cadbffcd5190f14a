// Matrices of PDF (ISO 32000-1, 8.3.3 and 8.3.4), row vectors: [x y 1] times
// [a b 0; c d 0; e f 1].
#pragma once

#include <array>
#include <optional>
#include <qpdf/QPDFObjectHandle.hh>

#include "platewright/geometry.hpp"

namespace platewright::read {

using Matrix = std::array<double, 6>;

// First `m`, then `n`.
Matrix product(const Matrix& m, const Matrix& n);
// The one that a PDF's array says; the identity for anything else.
Matrix matrix_of(QPDFObjectHandle array);
PagePoint through(const Matrix& m, double x, double y);
// The matrix that does what `to` does after undoing `from`; nothing where it turns or flattens.
std::optional<Matrix> level_step(const Matrix& from, const Matrix& to);

}  // namespace platewright::read
