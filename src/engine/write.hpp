// Files that appear whole or not at all.
#pragma once

#include <string>
#include <vector>

#include "platewright/finding.hpp"

namespace platewright {

struct OutputFile {
  std::string path;
  std::string bytes;
};

// Writes all of them beside their places first and renames them only when
// every one is on disk; a fault leaves no trace. Missing folders are made.
Findings write_all(const std::vector<OutputFile>& files);

}  // namespace platewright
