#include <iostream>
#include <memory>

#include "platewright/engine.hpp"
#include "verb.hpp"

namespace platewright::cli {

Verb add_check(CLI::App& app, const Common& common) {
  auto files = std::make_shared<std::vector<std::string>>();
  CLI::App* command =
      app.add_subcommand("check", "Find every fault in figures, terms files and styles");
  command->add_option("FILE", *files, "Files to check")->required();
  command->footer(
      "Example:\n  platewright check figures/demo/heart.svg figures/demo/heart.terms.yaml");
  return {command, [files, &common] {
            return say(check_files(*files, usual_environment()), common);
          }};
}

}  // namespace platewright::cli
