#include "engine/art_ahead.hpp"

#include <algorithm>
#include <system_error>
#include <utility>

namespace platewright {

void ArtAhead::begin(const Figure& figure, double scale) {
  auto begun = std::make_unique<Begun>();
  begun->source.figure = &figure;
  emit::DrawnAhead art = emit::painted_ahead(begun->source, scale);
  begun->from = std::move(art.from);
  try {
    begun->drawn = std::async(std::launch::async, std::move(art.draw)).share();
  } catch (const std::system_error&) {  // no thread to be had: it is drawn when it is asked for
    return;
  }
  const std::lock_guard lock(beginning_);
  begun_.push_back(std::move(begun));
}

emit::KeepArt ArtAhead::kept() {
  return [this](const std::string& from, const auto& draw) -> Result<std::string> {
    const std::lock_guard lock(beginning_);
    const auto known = std::find_if(begun_.begin(), begun_.end(),
                                    [&](const auto& begun) { return begun->from == from; });
    return known == begun_.end() ? draw() : (*known)->drawn.get();
  };
}

}  // namespace platewright
