// The box that drawing items take on the page.
#pragma once

#include <optional>

#include "compose/page.hpp"

namespace platewright::compose {

// Type counts by its line box (advance by ascent + descent), paths by their
// points without the pen's width. Nothing for an empty group; figures don't count.
std::optional<PageBox> extent(const Group& group);

}  // namespace platewright::compose
