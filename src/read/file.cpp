#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <string>
#include <system_error>

#include "base/quote.hpp"
#include "read/read.hpp"

namespace platewright::read {
namespace {

struct CloseFile {
  void operator()(std::FILE* file) const { std::fclose(file); }
};

Finding too_large(const std::string& path, std::size_t limit) {
  return error("file-large", {path, 0, 0},
               "the file is larger than " + std::to_string(limit >> 10) + " kB",
               "make it smaller; embedded images are the usual cause");
}

}  // namespace

Result<std::string> file_bytes(const std::string& path, std::size_t limit) {
  namespace fs = std::filesystem;
  std::error_code code;
  if (path.empty() || path.find('\0') != std::string::npos)
    return error("file-missing", {path, 0, 0}, "this is not the name of a file");
  const fs::file_status status = fs::status(path, code);
  if (status.type() == fs::file_type::not_found)
    return error("file-missing", {path, 0, 0}, "there is no such file");
  // Pipes and devices are refused: reading one may never end.
  if (status.type() != fs::file_type::regular)
    return error(
        "file-unreadable", {path, 0, 0},
        fs::is_directory(status) ? "this is a folder, not a file" : "this is not a regular file");
  const std::unique_ptr<std::FILE, CloseFile> file(std::fopen(path.c_str(), "rb"));
  if (!file)
    return error("file-unreadable", {path, 0, 0},
                 "the file cannot be read: " + std::generic_category().message(errno));
  const std::uintmax_t size = fs::file_size(path, code);
  if (!code && size > limit) return too_large(path, limit);

  std::string bytes;
  if (!code) bytes.reserve(static_cast<std::size_t>(size));
  char block[1 << 16];
  while (const std::size_t got = std::fread(block, 1, sizeof block, file.get())) {
    bytes.append(block, got);
    // The file may have grown since its size was asked for.
    if (bytes.size() > limit) return too_large(path, limit);
  }
  if (std::ferror(file.get()))
    return error("file-unreadable", {path, 0, 0}, "the file cannot be read to its end");
  return bytes;
}

}  // namespace platewright::read
