// Options that `truesize` and `pieces` share: how large the figure is to be.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

#include "platewright/true_size.hpp"

namespace platewright::cli {

struct RealOptions {
  std::string age;
  std::string percentile;
};

void add_real_size(CLI::App& command, RealSize& size, RealOptions& texts);

// Numbers as people wrote them into `size`. Errors `age-invalid`, `percentile-invalid`.
Findings read_real_size(const RealOptions& texts, RealSize& size);

}  // namespace platewright::cli
