#include <iostream>

#include "platewright/engine.hpp"
#include "verb.hpp"

namespace platewright::cli {

Verb add_styles(CLI::App& app, const Common& common) {
  CLI::App* command = app.add_subcommand("styles", "List the styles that are known by name");
  command->footer("Example:\n  platewright styles");
  return {command, [&common] {
            const Environment environment = usual_environment();
            Findings findings;
            for (const std::string& name : style_names(environment)) {
              const auto style = read_style(name, environment);
              findings.insert(findings.end(), style.findings().begin(), style.findings().end());
              if (style.ok() && !common.json)
                std::cout << name << '\t' << style->description << '\n';
            }
            return say(findings, common);
          }};
}

}  // namespace platewright::cli
