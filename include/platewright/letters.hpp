// The letters of a language, for puzzles made of letters.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace platewright {

struct Letters {
  // Capitals and how often each stands in running text, in any unit; empty where the
  // language has no file: fillers then take the letters of the words themselves.
  std::vector<std::pair<std::string, double>> frequency;
  // What no puzzle may spell by chance, in capitals, each of three letters or more.
  std::vector<std::string> unwanted;
};

}  // namespace platewright
