#include "pages.hpp"

#include <cstdio>

namespace platewright::emit {

Sheet::Sheet() {
  document.title = "The heart";
  document.language = "en";
  document.author = "A. Teacher";
  context.typesetter = &typesetter;
  context.art.figure = &drawn;
}
std::string run(const std::string& command) {
  std::string output;
  FILE* pipe = popen(("timeout 60 " + command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) return "exit -1";
  char buffer[4096];
  for (std::size_t n; (n = fread(buffer, 1, sizeof buffer, pipe)) > 0;) output.append(buffer, n);
  const int status = pclose(pipe);
  return output + "exit " + std::to_string(status / 256);
}

}  // namespace platewright::emit
