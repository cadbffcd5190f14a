// platewright: the command line. One file for each verb.
#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <iostream>
#include <string>
#include <string_view>
#include <vector>

#include "memory.hpp"
#include "platewright/did_you_mean.hpp"
#include "platewright/engine.hpp"
#include "platewright/unfinished.hpp"
#include "verb.hpp"

namespace {

constexpr int wrong_usage = 2;

constexpr const char* description =
    "Labels anatomical figures and prints them: one SVG figure with anchors and one table of\n"
    "terms make the poster, the worksheet, the copy-work, the key and more.";

// Asked to stop: no drafts are left, and the process ends as such a signal ends it.
void stop(int signal) {
  platewright::remove_drafts();
  ::signal(signal, SIG_DFL);
  ::raise(signal);
}

void heed_signals() {
  for (const int asked : {SIGINT, SIGTERM, SIGHUP, SIGQUIT}) {
    struct sigaction now {};
    if (::sigaction(asked, nullptr, &now) != 0 || now.sa_handler == SIG_IGN) continue;
    now = {};
    now.sa_handler = stop;
    ::sigfillset(&now.sa_mask);
    ::sigaction(asked, &now, nullptr);
  }
  // A file that may not grow is a finding, as a full disk is.
  ::signal(SIGXFSZ, SIG_IGN);
}

// Without clearing up what the system takes back anyway, some milliseconds' work; sanitizers want
// to see it done, but for what a thread that was left behind may still use.
int leave(int code) {
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
  if (!platewright::unfinished_work()) return code;
#endif
  std::cerr.flush();
  std::fflush(nullptr);
  std::_Exit(code);
}

// What was said on standard output has arrived there, or it is the exit status that tells.
int said(int code) {
  std::cout.flush();
  if (std::cout.good()) return code;
  const int reason = errno;
  std::cerr << "error[write-failed]: standard output cannot be written: " << std::strerror(reason)
            << "\n";
  return 1;
}

// The first argument that is no option, where it is no verb either: what to say of it.
std::string misspelt_verb(const CLI::App& app, int argc, char** argv) {
  for (int i = 1; i < argc; ++i) {
    const std::string_view argument = argv[i];
    if (argument.starts_with('-')) continue;
    std::vector<std::string> names;
    for (const CLI::App* verb : app.get_subcommands({})) names.push_back(verb->get_name());
    const std::vector<std::string_view> known(names.begin(), names.end());
    if (std::find(known.begin(), known.end(), argument) != known.end()) return {};
    return "there is no verb \"" + std::string(argument) + "\"; " +
           platewright::did_you_mean(argument, known, "see: platewright --help");
  }
  return {};
}

}  // namespace

int main(int argc, char** argv) {
  using namespace platewright::cli;
  heed_signals();
  CLI::App app{description, "platewright"};
  app.set_version_flag("--version", std::string("platewright ") + PW_VERSION);
  app.require_subcommand(1);
  app.fallthrough();
  app.footer("Each verb has its own help with an example: platewright sheet --help");
  Common common;
  app.add_flag("--quiet", common.quiet, "Say nothing but findings");
  app.add_flag("--json", common.json, "Findings as JSON on standard output");

  const Verb verbs[] = {add_sheet(app, common),   add_truesize(app, common), add_pieces(app, common),
                        add_pack(app, common), add_check(app, common), add_proof(app, common), add_anchors(app, common),
                        add_papers(app, common),  add_styles(app, common), add_completion(app)};
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    // Help and version exit with 0; everything else is wrong usage.
    if (e.get_exit_code() != 0)
      if (const std::string told = misspelt_verb(app, argc, argv); !told.empty()) {
        std::cerr << told << "\n";
        return wrong_usage;
      }
    const int code = app.exit(e);
    return code == 0 ? 0 : wrong_usage;
  }
  keep_memory();
  for (const Verb& verb : verbs)
    if (verb.command->parsed()) {
      const int code = said(verb.run());
      return leave(code);
    }
  return wrong_usage;
}
