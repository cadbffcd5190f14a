// A pack's work as commands, one a part, for any queue of any number of machines.
#include <algorithm>
#include <cstdlib>
#include <filesystem>

#include "engine/pack_plan.hpp"
#include "platewright/pack.hpp"

namespace platewright {
namespace {

namespace fs = std::filesystem;

std::string shell_word(const std::string& text) {
  const bool plain = !text.empty() && std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
           std::string_view("-_./:,=+@").find(c) != std::string_view::npos;
  });
  if (plain) return text;
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

}  // namespace

std::string usual_cache() {
  if (const char* folder = std::getenv("XDG_CACHE_HOME"); folder && *folder == '/')
    return (fs::path(folder) / "platewright").string();
  if (const char* home = std::getenv("HOME"); home && *home == '/')
    return (fs::path(home) / ".cache" / "platewright").string();
  return {};
}

Result<std::vector<std::string>> pack_commands(const PackRequest& request,
                                               const Environment& environment) {
  auto plan = plan_pack(request.manifest, environment);
  if (!plan.ok()) return plan.findings();
  const std::string cache = request.cache.empty() ? usual_cache() : request.cache;
  if (cache.empty())
    return error("cache-missing", {"--cache", 0, 0}, "there is no folder for the parts",
                 "name one with --cache that all machines share");
  std::vector<std::string> commands;
  for (const PackEdition& edition : plan->editions) {
    const bool asked = request.only.empty() || std::find(request.only.begin(), request.only.end(),
                                                         edition.name) != request.only.end();
    if (!asked) continue;
    for (const std::size_t part : edition.parts)
      commands.push_back("platewright pack " + shell_word(request.manifest) + " --part " +
                         shell_word(plan->parts[part].id) + " --cache " + shell_word(cache) +
                         " --quiet");
  }
  return {std::move(commands), plan->warnings};
}

}  // namespace platewright
