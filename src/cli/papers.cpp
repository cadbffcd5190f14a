#include <charconv>
#include <iostream>

#include "platewright/paper.hpp"
#include "verb.hpp"

namespace platewright::cli {

Verb add_papers(CLI::App& app, const Common&) {
  CLI::App* command = app.add_subcommand("papers", "List the papers that are known by name");
  command->footer("Example:\n  platewright papers");
  return {command, [] {
            for (const Paper& paper : papers())
              std::cout << paper.name << '\t' << format_mm(paper.width) << " x "
                        << format_mm(paper.height) << '\t' << paper.standard << '\n';
            std::cout << "Any other size: WxH with a unit, e.g. 18x24in or 300x400mm\n";
            return 0;
          }};
}

}  // namespace platewright::cli
