#include <unistd.h>

#include <iostream>
#include <string>

#include "verb.hpp"

namespace platewright::cli {

int say(const Findings& findings, const Common& common) {
  const Findings all = sorted(findings);
  if (common.json) {
    std::cout << to_json(all) << '\n';
  } else {
    for (const Finding& finding : all) std::cerr << to_text(finding) << '\n';
  }
  return has_error(all) ? 1 : 0;
}

int make_and_say(std::string_view doing, const Common& common,
                 const std::function<Result<MadeSheets>()>& make) {
  const bool progress = !common.quiet && !common.json && ::isatty(STDERR_FILENO) != 0;
  if (progress) std::cerr << doing << " ..." << std::flush;
  const Result<MadeSheets> made = make();
  if (progress) std::cerr << '\r' << std::string(doing.size() + 4, ' ') << '\r' << std::flush;
  const int code = say(made.findings(), common);
  if (made.ok() && !common.quiet && !common.json)
    for (const std::string& file : made->files) std::cout << file << '\n';
  return code;
}

}  // namespace platewright::cli
