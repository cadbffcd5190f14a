#include "engine/drafts.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cstring>
#include <ctime>
#include <filesystem>
#include <list>
#include <mutex>

#include "platewright/unfinished.hpp"

namespace platewright {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_drafts = 4096;  // more are written, but not removed on a signal
constexpr std::size_t still_kept = 64;
constexpr std::time_t settled = 60;        // seconds

// A signal handler may take no lock and may come while a name is forgotten, so the names stand
// in a row of slots, and the last forgotten ones stay in memory for a while.
std::array<std::atomic<const char*>, most_drafts> drafts{};
std::mutex guard;
std::list<std::string> names;      // that slots point to
std::list<std::string> forgotten;  // the nodes of a list never move

bool is_draft(const std::string& name) {
  const std::size_t letters = 6, mark = std::strlen(draft_mark);
  return name.size() > mark + letters &&
         name.compare(name.size() - letters - mark, mark, draft_mark) == 0;
}

}  // namespace

void note_draft(const std::string& name) {
  const std::lock_guard lock(guard);
  for (auto& slot : drafts)
    if (slot == nullptr) {
      names.push_back(name);
      slot = names.back().c_str();
      return;
    }
}

void forget_draft(const std::string& name) {
  const std::lock_guard lock(guard);
  const auto kept = std::find(names.begin(), names.end(), name);
  if (kept == names.end()) return;
  for (auto& slot : drafts)
    if (slot == kept->c_str()) slot = nullptr;
  forgotten.splice(forgotten.end(), names, kept);
  if (forgotten.size() > still_kept) forgotten.pop_front();
}

void remove_drafts() noexcept {
  for (const auto& slot : drafts)
    if (const char* name = slot.load()) ::unlink(name);
}

void remove_stale_drafts(const std::string& folder) {
  std::error_code ec;
  for (fs::directory_iterator at(folder, ec), end; !ec && at != end; at.increment(ec)) {
    const std::string path = at->path().string();
    if (!is_draft(at->path().filename().string())) continue;
    const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);
    if (file < 0) continue;
    struct stat state {};
    if (::fstat(file, &state) == 0 && S_ISREG(state.st_mode) &&
        std::time(nullptr) - state.st_mtime > settled && ::flock(file, LOCK_EX | LOCK_NB) == 0)
      ::unlink(path.c_str());
    ::close(file);
  }
}

}  // namespace platewright
