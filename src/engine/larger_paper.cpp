#include "engine/larger_paper.hpp"

#include <algorithm>
#include <string>

namespace platewright {

std::vector<Paper> larger_papers(const Paper& paper) {
  const bool inches = paper.standard.find("ISO") == std::string::npos &&
                      paper.standard.find("JIS") == std::string::npos &&
                      (!paper.standard.empty() || paper.name.find("in") != std::string::npos);
  const std::vector<std::string> names =
      inches ? std::vector<std::string>{"tabloid", "arch-c", "arch-d", "arch-e"}
             : std::vector<std::string>{"a3", "a2", "a1", "a0"};
  std::vector<Paper> larger;
  for (const std::string& name : names) {
    const auto found = find_paper(name);
    if (found.ok() && std::min(found->width, found->height) > std::min(paper.width, paper.height) &&
        std::max(found->width, found->height) > std::max(paper.width, paper.height))
      larger.push_back(*found);
  }
  return larger;
}

}  // namespace platewright
