#include "support/scratch.hpp"

#include <stdlib.h>

#include <fstream>
#include <iterator>
#include <stdexcept>

namespace support {

namespace fs = std::filesystem;

Scratch::Scratch() {
  std::string name = (fs::temp_directory_path() / "platewright-test-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no scratch folder: " + name);
  path_ = name;
}

Scratch::~Scratch() {
  std::error_code ignored;
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(path_, ignored))
    if (entry.is_directory(ignored))
      fs::permissions(entry.path(), fs::perms::owner_all, fs::perm_options::add, ignored);
  fs::remove_all(path_, ignored);
}

std::string bytes_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) throw std::runtime_error("cannot be read: " + file.string());
  return {std::istreambuf_iterator<char>(in), {}};
}

void write(const fs::path& file, std::string_view bytes) {
  if (!file.parent_path().empty()) fs::create_directories(file.parent_path());
  std::ofstream out(file, std::ios::binary);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  if (!out.flush()) throw std::runtime_error("cannot be written: " + file.string());
}

std::map<std::string, std::string> contents(const fs::path& folder) {
  std::map<std::string, std::string> all;
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(folder))
    all[entry.path().lexically_relative(folder).string()] =
        entry.is_regular_file() ? bytes_of(entry.path()) : std::string();
  return all;
}

}  // namespace support
