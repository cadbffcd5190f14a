// A folder of a test's own, gone when the test is over; whole files to and from bytes.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>

namespace support {

class Scratch {
 public:
  Scratch();
  ~Scratch();
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  const std::filesystem::path& path() const { return path_; }
  std::string operator/(std::string_view name) const { return (path_ / name).string(); }

 private:
  std::filesystem::path path_;
};

std::string bytes_of(const std::filesystem::path& file);
void write(const std::filesystem::path& file, std::string_view bytes);

// Every file below a folder with its bytes: to see that nothing changed.
std::map<std::string, std::string> contents(const std::filesystem::path& folder);

}  // namespace support
