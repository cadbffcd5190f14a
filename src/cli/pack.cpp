#include <unistd.h>

#include <chrono>
#include <cmath>
#include <iostream>
#include <memory>

#include "platewright/pack.hpp"
#include "verb.hpp"

namespace platewright::cli {
namespace {

struct PackOptions {
  PackRequest request;
  bool list = false;
};

// "31 of 72 parts, 0 of 12 editions, about 14 s left", on one line of a terminal.
class ProgressLine {
 public:
  void show(const PackProgress& p) {
    std::string text = std::to_string(p.done) + " of " + std::to_string(p.total) + " parts, " +
                       std::to_string(p.editions_done) + " of " + std::to_string(p.editions) +
                       " editions";
    if (p.done > 0 && p.done < p.total) {
      const double gone =
          std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count();
      text += ", about " + std::to_string(std::lround(gone / p.done * (p.total - p.done))) +
              " s left";
    }
    const std::size_t length = text.size();
    if (length < length_) text += std::string(length_ - length, ' ');
    length_ = length;
    std::cerr << '\r' << text << std::flush;
  }
  void clear() const {
    if (length_ > 0) std::cerr << '\r' << std::string(length_, ' ') << '\r' << std::flush;
  }

 private:
  std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
  std::size_t length_ = 0;
};

int list(const PackOptions& options, const Common& common) {
  const auto commands = pack_commands(options.request, usual_environment());
  // The commands are for a queue: findings go to standard error even as JSON.
  for (const Finding& f : commands.findings()) std::cerr << to_text(f) << '\n';
  if (!commands.ok()) return 1;
  (void)common;
  for (const std::string& command : *commands) std::cout << command << '\n';
  return 0;
}

std::string counted(int number, const char* one, const char* several) {
  return std::to_string(number) + ' ' + (number == 1 ? one : several);
}

void sum_up(const MadePack& made, const Findings& findings) {
  int sheets = 0, pages = 0;
  for (const MadeEdition& edition : made.editions) {
    std::cout << edition.file << '\n';
    if (!edition.keys_file.empty()) std::cout << edition.keys_file << '\n';
    sheets += edition.sheets;
    pages += edition.pages;
  }
  const int seconds = static_cast<int>(std::lround(made.seconds));
  std::cout << counted(static_cast<int>(made.editions.size()), "edition", "editions") << ", "
            << counted(sheets, "sheet", "sheets") << ", " << counted(pages, "page", "pages") << ", "
            << counted(made.parts_made, "part", "parts") << " made and " << made.parts_kept
            << " kept, " << counted(static_cast<int>(findings.size()), "warning", "warnings")
            << ", " << seconds << " s\n";
}

int run(const PackOptions& options, const Common& common) {
  if (options.list) return list(options, common);
  const PackRequest& request = options.request;
  if (request.out.empty() && request.part.empty())
    return say({error("out-missing", {"--out", 0, 0}, "no folder is named",
                      "give --out with a folder")},
               common);
  ProgressLine line;
  const bool progress = !common.quiet && !common.json && ::isatty(STDERR_FILENO) != 0;
  WatchPack watch;
  if (progress) watch = [&](const PackProgress& p) { line.show(p); };
  const Result<MadePack> made = make_pack(request, usual_environment(), watch);
  if (progress) line.clear();
  if (common.json) {
    std::cout << to_json(made.ok() ? *made : MadePack{}, made.findings()) << '\n';
    return made.ok() ? 0 : 1;
  }
  const int code = say(made.findings(), common);
  if (made.ok() && !common.quiet && request.part.empty()) sum_up(*made, made.findings());
  return code;
}

}  // namespace

Verb add_pack(CLI::App& app, const Common& common) {
  auto options = std::make_shared<PackOptions>();
  PackRequest& r = options->request;
  CLI::App* command =
      app.add_subcommand("pack", "Make every edition of a pack: figures, ages, languages, papers");
  command->add_option("MANIFEST", r.manifest, "Manifest of the pack, a YAML file")->required();
  command->add_option("--out", r.out, "Folder for the finished editions");
  command->add_option("--jobs", r.jobs, "Parts made at once; 0: one for each processor")
      ->check(CLI::Range(0, 256))
      ->capture_default_str();
  command->add_option("--only", r.only, "Editions to make, separated by commas: middle-a4")
      ->delimiter(',');
  command->add_option("--cache", r.cache,
                      "Folder that made parts are kept in; left out: below XDG_CACHE_HOME");
  auto* list_flag = command->add_flag("--list", options->list,
                                      "Print one command a line, each of which makes one part");
  auto* bind = command->add_flag("--bind", r.bind_only, "Only join parts that are made already");
  command->add_option("--part", r.part, "Make just this part, into the cache")
      ->excludes(list_flag)
      ->excludes(bind);
  command->footer(
      "Example:\n"
      "  platewright pack figures/demo/pack.yaml --only little-a4 --out packs/\n"
      "On several machines, with a folder that all of them see:\n"
      "  platewright pack figures/demo/pack.yaml --list --cache parts/ | parallel\n"
      "  platewright pack figures/demo/pack.yaml --bind --cache parts/ --out packs/");
  return {command, [options, &common] { return run(*options, common); }};
}

}  // namespace platewright::cli
