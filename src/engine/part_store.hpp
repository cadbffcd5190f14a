// Work kept by its key: in a folder that several builds may share, or where
// that can't be written in memory.
#pragma once

#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "platewright/finding.hpp"

namespace platewright {

class PartStore {
 public:
  // An empty folder keeps all in memory.
  explicit PartStore(std::string folder) : folder_(std::move(folder)) {}

  // What was kept by this key; nothing where there is none, or where what is
  // there is not whole. Marks it as used.
  std::optional<std::string> find(const std::string& key) const;

  // Appears whole or not at all. False when it could only be kept in memory.
  bool keep(const std::string& key, const std::string& bytes);

  // Why the folder could not be written; nothing while it could.
  std::optional<Finding> fault() const;

  // Removes what this store wrote, so that a build that failed on a full disk leaves it as it was.
  void take_back();

  // Removes what nothing used for `days`, and drafts that a killed build left.
  void tidy(int days = 30) const;

 private:
  std::string path_of(const std::string& key) const;
  std::string folder_;
  mutable std::mutex guard_;
  std::map<std::string, std::string> memory_;
  std::optional<Finding> fault_;
  std::vector<std::string> written_;  // paths
};

}  // namespace platewright
