// One verb of the command line: what `main` needs to know of it.
#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <string_view>

#include "platewright/engine.hpp"

namespace platewright::cli {

// Options that every verb has.
struct Common {
  bool quiet = false;  // no progress, no list of files
  bool json = false;   // findings as JSON on standard output
};

// Adds the verb to `app`; the function runs it and gives the exit code.
struct Verb {
  CLI::App* command = nullptr;
  std::function<int()> run;
};

Verb add_sheet(CLI::App& app, const Common& common);
Verb add_truesize(CLI::App& app, const Common& common);
Verb add_pieces(CLI::App& app, const Common& common);
Verb add_pack(CLI::App& app, const Common& common);
Verb add_check(CLI::App& app, const Common& common);
Verb add_proof(CLI::App& app, const Common& common);
Verb add_anchors(CLI::App& app, const Common& common);
Verb add_papers(CLI::App& app, const Common& common);
Verb add_styles(CLI::App& app, const Common& common);
Verb add_completion(CLI::App& app);

// Says the findings: text to standard error, or JSON to standard output. 1 when one is an error,
// else 0.
int say(const Findings& findings, const Common& common);

// Makes files with `make`, showing `doing` on a terminal meanwhile; then says the
// findings and the files made. The exit code.
int make_and_say(std::string_view doing, const Common& common,
                 const std::function<Result<MadeSheets>()>& make);

}  // namespace platewright::cli
