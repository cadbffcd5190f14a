#include "engine/write.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>

#include "engine/drafts.hpp"
#include "platewright/engine.hpp"

namespace platewright {
namespace {

namespace fs = std::filesystem;

Finding failed(const std::string& path, const std::string& what, int reason) {
  return error("write-failed", {path, 0, 0}, what + ": " + std::strerror(reason),
               reason == ENOSPC || reason == EDQUOT || reason == EFBIG
                   ? "free some space and run it again"
                   : "choose a place that can be written");
}

// A file on its way: removed unless it is kept. It is locked for as long, so that
// others see that somebody still writes it.
class Draft {
 public:
  explicit Draft(std::string place) : place_(std::move(place)) {}
  Draft(Draft&& other) noexcept
      : place_(std::move(other.place_)), name_(std::move(other.name_)), file_(other.file_) {
    other.name_.clear();
    other.file_ = -1;
  }
  Draft& operator=(Draft&&) = delete;
  ~Draft() {
    if (!name_.empty()) {
      ::unlink(name_.c_str());
      forget_draft(name_);
    }
    if (file_ >= 0) ::close(file_);
  }

  Findings write(const std::string& bytes) {
    std::string name = place_ + draft_mark + "XXXXXX";
    file_ = ::mkostemp(name.data(), O_CLOEXEC);
    if (file_ < 0) return {failed(place_, "cannot be written", errno)};
    name_ = name;
    note_draft(name_);
    ::flock(file_, LOCK_EX | LOCK_NB);  // a file system without locks does without
    std::size_t done = 0;
    while (done < bytes.size()) {
      const ssize_t n = ::write(file_, bytes.data() + done, bytes.size() - done);
      if (n < 0 && errno == EINTR) continue;
      if (n < 0) return {failed(place_, "cannot be written", errno)};
      done += static_cast<std::size_t>(n);
    }
    // mkostemp makes private files; a sheet is as readable as any other file.
    const mode_t mask = ::umask(0);
    ::umask(mask);
    if (::fchmod(file_, 0666 & ~mask) != 0 || ::fsync(file_) != 0)
      return {failed(place_, "cannot be written", errno)};
    return {};
  }

  Findings keep() {
    if (::rename(name_.c_str(), place_.c_str()) != 0)
      return {failed(place_, "cannot be put in place", errno)};
    forget_draft(name_);
    name_.clear();
    return {};
  }

 private:
  std::string place_;
  std::string name_;
  int file_ = -1;
};

}  // namespace

Findings write_all(const std::vector<OutputFile>& files) {
  std::vector<Draft> drafts;
  std::vector<std::string> folders;
  for (const OutputFile& file : files) {
    std::error_code ec;
    const fs::path folder = fs::path(file.path).parent_path();
    if (!folder.empty()) fs::create_directories(folder, ec);
    if (ec) return {failed(file.path, "its folder cannot be made", ec.value())};
    if (fs::is_directory(file.path, ec))
      return {failed(file.path, "cannot be written", EISDIR)};
    const std::string here = folder.empty() ? "." : folder.string();
    if (std::find(folders.begin(), folders.end(), here) == folders.end()) {
      remove_stale_drafts(here);
      folders.push_back(here);
    }
    drafts.emplace_back(file.path);
    if (Findings findings = drafts.back().write(file.bytes); !findings.empty()) return findings;
  }
  for (Draft& draft : drafts)
    if (Findings findings = draft.keep(); !findings.empty()) return findings;
  return {};
}

Findings write_whole(const std::string& path, const std::string& bytes) {
  return write_all({{path, bytes}});
}

}  // namespace platewright
