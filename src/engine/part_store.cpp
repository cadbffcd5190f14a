#include "engine/part_store.hpp"

#include <chrono>
#include <filesystem>

#include "engine/write.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view heading = "platewright kept work 1\n";
constexpr std::size_t digest_letters = 64;
constexpr std::string_view ending = ".part";
constexpr std::size_t most_bytes = std::size_t{1} << 31U;

}  // namespace

std::string PartStore::path_of(const std::string& key) const {
  return (fs::path(folder_) / key.substr(0, 2) / (key.substr(2) + std::string(ending))).string();
}

std::optional<std::string> PartStore::find(const std::string& key) const {
  {
    const std::lock_guard lock(guard_);
    if (const auto kept = memory_.find(key); kept != memory_.end()) return kept->second;
  }
  if (folder_.empty()) return std::nullopt;
  const std::string path = path_of(key);
  auto bytes = read::file_bytes(path, most_bytes);
  if (!bytes.ok() || !bytes->starts_with(heading)) return std::nullopt;
  const std::size_t start = heading.size() + digest_letters + 1;
  if (bytes->size() < start || (*bytes)[start - 1] != '\n') return std::nullopt;
  const std::string_view content = std::string_view(*bytes).substr(start);
  // Half a file, or one that a disk has spoiled, is as good as none.
  if (read::sha256(content) != bytes->substr(heading.size(), digest_letters)) return std::nullopt;
  std::error_code ignored;
  fs::last_write_time(path, fs::file_time_type::clock::now(), ignored);
  return std::string(content);
}

bool PartStore::keep(const std::string& key, const std::string& bytes) {
  if (!folder_.empty()) {
    std::string file(heading);
    file += read::sha256(bytes) + '\n' + bytes;
    const Findings faults = write_all({{path_of(key), std::move(file)}});
    const std::lock_guard lock(guard_);
    if (faults.empty()) {
      written_.push_back(path_of(key));
      return true;
    }
    if (!fault_) fault_ = faults.front();
  }
  const std::lock_guard lock(guard_);
  memory_[key] = bytes;
  return false;
}

std::optional<Finding> PartStore::fault() const {
  const std::lock_guard lock(guard_);
  return fault_;
}

void PartStore::take_back() {
  const std::lock_guard lock(guard_);
  for (const std::string& path : written_) {
    std::error_code ignored;
    fs::remove(path, ignored);
  }
  written_.clear();
}

void PartStore::tidy(int days) const {
  if (folder_.empty()) return;
  const auto now = fs::file_time_type::clock::now();
  std::error_code ignored;
  for (fs::directory_iterator folder(folder_, ignored), end; !ignored && folder != end;
       folder.increment(ignored)) {
    if (!folder->is_directory(ignored) || folder->path().filename().string().size() != 2) continue;
    std::error_code inner;
    for (fs::directory_iterator file(folder->path(), inner), last; !inner && file != last;
         file.increment(inner)) {
      const std::string name = file->path().filename().string();
      const std::size_t at = name.find(ending);
      if (at == std::string::npos) continue;  // not ours
      const bool draft = at + ending.size() != name.size();
      std::error_code gone;
      const auto age = now - file->last_write_time(gone);
      if (!gone && age > std::chrono::hours(24 * (draft ? 1 : days))) fs::remove(file->path(), gone);
    }
  }
}

}  // namespace platewright
