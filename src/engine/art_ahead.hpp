// The painted figure drawn for a PDF as soon as its size is known, while its labels are still
// being placed.
#pragma once

#include <future>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "emit/emit.hpp"

namespace platewright {

class ArtAhead {
 public:
  // `figure` must outlive this. At `scale` mm a figure unit.
  void begin(const Figure& figure, double scale);
  // What was begun of the very same art, or drawn now. Not to be used after this is gone.
  emit::KeepArt kept();

 private:
  struct Begun {
    emit::ArtSource source;
    std::string from;
    std::shared_future<Result<std::string>> drawn;
  };
  std::mutex beginning_;
  std::vector<std::unique_ptr<Begun>> begun_;
};

}  // namespace platewright
