// The demo's figures, label sets and the papers that tests go through.
#pragma once

#include <string>
#include <vector>

namespace support {

const std::vector<std::string>& demo_figures();   // "heart", ...
// Names of all label sets of a figure's terms file, read from the file's own lines.
std::vector<std::string> demo_sets(const std::string& figure);
std::string demo_svg(const std::string& figure);    // paths
std::string demo_terms(const std::string& figure);
std::string source(const std::string& path);        // a path below the project's root

}  // namespace support
