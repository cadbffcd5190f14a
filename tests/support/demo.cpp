#include "support/demo.hpp"

#include "support/scratch.hpp"
#include "support/words.hpp"

namespace support {

const std::vector<std::string>& demo_figures() {
  static const std::vector<std::string> figures{"heart", "child", "hand", "eye", "tooth", "honeybee"};
  return figures;
}

std::vector<std::string> demo_sets(const std::string& figure) {
  std::vector<std::string> sets;
  bool inside = false;
  for (const std::string& line : split(bytes_of(demo_terms(figure)), '\n')) {
    if (line.empty() || line[0] == '#') continue;
    if (line[0] != ' ')
      inside = line.rfind("sets:", 0) == 0;
    else if (inside)
      sets.push_back(folded(line.substr(0, line.find(':'))));
  }
  return sets;
}

std::string source(const std::string& path) { return std::string(PW_SOURCE_DIR) + "/" + path; }
std::string demo_svg(const std::string& figure) { return source("figures/demo/" + figure + ".svg"); }
std::string demo_terms(const std::string& figure) {
  return source("figures/demo/" + figure + ".terms.yaml");
}

}  // namespace support
