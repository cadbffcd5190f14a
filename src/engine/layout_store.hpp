// Solved layouts, kept by what the solver was asked: boxes, anchors' points and rooms,
// rasters, rules, costs, page, effort, program. Another label set that shares the layout, or
// another build, finds the answer; who asks anything else, by the last bit, does not.
#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "engine/part_store.hpp"
#include "place/place.hpp"

namespace platewright {

// Nodes of a search that compares papers and sizes; what is kept is searched in earnest, once.
inline constexpr long glance = 5'000;
// So many labels are proven soon, on more than one page; of more one page is, briefly.
inline constexpr std::size_t soon_proven = 16;

using Placed = std::variant<place::Fit, place::Infeasible>;

// The same fit with its placement proven, or bettered, as far as the effort goes, and its
// figure smaller where only that makes the page calm.
// `sized` is told that size, mm a unit, as soon as it is known; may be empty.
place::Fit settled(const place::FitRequest& request, place::Fit fit, const place::Effort& effort,
                   const std::function<void(double)>& sized = {});

// May be used by several threads at once: what two ask at the same time is solved once.
class LayoutStore {
 public:
  explicit LayoutStore(PartStore& store) : store_(store) {}

  // place::fit
  Placed fit(const place::FitRequest& request, const place::Effort& effort);
  place::Fit settled(const place::FitRequest& request, const place::Fit& fit,
                     const place::Effort& effort);

 private:
  template <class Solve>
  Placed kept_or(const std::string& key, const place::FitRequest& request, const Solve& solve);

  PartStore& store_;
  std::array<std::mutex, 64> solving_;  // by key
};

// Keys of the two, and an answer as it is kept. What it has of the request's own rasters is
// taken from there again.
std::string fit_key(const place::FitRequest& request, const place::Effort& effort);
std::string settled_key(const place::FitRequest& request, const place::Fit& fit,
                        const place::Effort& effort);
std::string to_bytes(const Placed& placed, const place::FitRequest& request);
// Nothing when the bytes are no answer to this request.
std::optional<Placed> placed_from(std::string_view bytes, const place::FitRequest& request);

}  // namespace platewright
