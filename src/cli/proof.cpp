#include "platewright/proof.hpp"

#include <unistd.h>

#include <iostream>
#include <memory>

#include "verb.hpp"

namespace platewright::cli {

Verb add_proof(CLI::App& app, const Common& common) {
  auto request = std::make_shared<ProofRequest>();
  auto age = std::make_shared<int>(-1);
  CLI::App* command =
      app.add_subcommand("proof", "Look finished sheets over before they are printed");
  command->add_option("FILE", request->paths, "PDF and SVG files, or folders of them")->required();
  command->add_option("--age", *age, "Readers' age: text is not to be below its floor")
      ->check(CLI::Range(0, 150));
  auto distance = std::make_shared<std::string>();
  command->add_option("--distance", *distance,
                      "Text is to be read from there, e.g. 3m: a poster on a wall");
  command->add_option("--words", request->words,
                      "List of words that terms must be in, a word a line; may be given again");
  command->add_option("--style", request->style, "Style whose proof section has the limits")
      ->capture_default_str();
  command->add_option("--report", request->report, "HTML file with a picture of each finding");
  command->footer("Example:\n  platewright proof sheets/ --age 8 --report proof.html");
  return {command, [request, age, distance, &common] {
            if (*age >= 0) request->age = *age;
            if (!distance->empty()) {
              const auto length = parse_length(*distance);
              Findings faults = length.findings();
              for (Finding& fault : faults) fault.at.file = "--distance";
              if (!length.ok()) return say(faults, common);
              request->distance = *length;
            }
            const bool progress = !common.quiet && !common.json && ::isatty(STDERR_FILENO) != 0;
            if (progress) std::cerr << "looking ..." << std::flush;
            const auto looked = proof(*request, usual_environment());
            if (progress) std::cerr << "\r            \r" << std::flush;
            if (!looked.ok()) return say(looked.findings(), common);
            Findings findings = looked.findings();
            for (const ProofPlace& found : looked->found) findings.push_back(found.finding);
            const int code = say(findings, common);
            if (!common.quiet && !common.json) {
              double ink = 0;
              for (const double page : looked->ink) ink += page;
              std::cout << looked->files << (looked->files == 1 ? " file, " : " files, ")
                        << looked->pages << (looked->pages == 1 ? " page, " : " pages, ")
                        << findings.size() << (findings.size() == 1 ? " finding" : " findings");
              if (looked->pages > 0)
                std::cout << ", " << static_cast<int>(ink / looked->pages + 0.5) << " % ink a page";
              std::cout << '\n';
            }
            return code;
          }};
}

}  // namespace platewright::cli
