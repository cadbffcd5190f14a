// Packs for tests: a small one of two of the demo's figures, and the demo's own.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "support/process.hpp"
#include "support/scratch.hpp"

namespace pack {

// A folder with figures, tables and pages of the demo and a small manifest
// "small.yaml" of heart and child for two sets on one paper.
class Small {
 public:
  Small();
  // The same with "out" and "cache" as one build from cold made them, built once a process.
  static Small built();
  std::string path(const std::string& name) const { return scratch_ / name; }
  std::string manifest() const { return path("small.yaml"); }
  // Replaces the first `what` in a file.
  void change(const std::string& file, const std::string& what, const std::string& by) const;
  support::Finished make(const std::string& out, const std::string& cache,
                         std::vector<std::string> more = {},
                         const support::Limits& limits = {}) const;

 private:
  Small(const Small& made, const std::vector<std::string>& folders);
  support::Scratch scratch_;
};

// Files by name, with their bytes.
std::map<std::string, std::string> files(const std::string& folder);

std::string text_of(const std::string& pdf, int page);
int pages_of(const std::string& pdf);

}  // namespace pack
